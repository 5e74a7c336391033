import type { Guide } from '../guide-of.ts';
import type { Report } from '../report-schema.ts';
import type { DesignResult, StockLayout } from '../stages.ts';
import { assembledPicture } from './assembled-picture.ts';
import { costTable, timeTable } from './cost-tables.ts';
import { guideSteps } from './guide-steps.ts';
import { hangingSection } from './hanging-section.ts';
import { type Html, html } from './html.ts';
import { mm, percent } from './numbers.ts';
import { orderTable } from './order-table.ts';
import { paintPictures } from './paint-pictures.ts';
import { paintTable } from './paint-tables.ts';
import { sheetPictures } from './sheet-pictures.ts';
import { shoppingList } from './shopping-list.ts';
import { splitPicture } from './split-picture.ts';
import { STYLE } from './style.ts';
import { complaintList, partTable, seamTable } from './tables.ts';

/** What the page shows; the report holds the figures, the rest the shapes. */
export interface PageInput {
  readonly report: Report;
  readonly designs: readonly DesignResult[];
  readonly stocks: readonly StockLayout[] | null;
  /** By design id. */
  readonly guides: ReadonlyMap<string, Guide>;
}

/** The shop's report as one self-contained page: nothing is loaded from anywhere, nothing runs. */
export function reportHtml(input: PageInput): string {
  const { report, designs, stocks, guides } = input;
  return `<!DOCTYPE html>\n${pageFrame(
    `${report.job}: report`,
    html`<h1>${report.job}</h1>
<p class="lead">${leadWords(report)} on a bed of ${mm(report.bed.width)} x ${mm(report.bed.height)} mm.</p>
${figures(report)}
${verdict(report)}
${
  report.messages.length === 0
    ? null
    : html`<ul>${report.messages.map(
        (message) => html`<li>${message}</li>
`,
      )}</ul>`
}
${report.designs.length > 1 || report.orders.some(({ order }) => order !== '') ? html`<section><h2>The orders</h2>${orderTable(report)}</section>` : null}
<section><h2>What to have at hand</h2>${shoppingList(report, guides)}</section>
<section><h2>${designs.length === 1 ? 'The sign' : 'The signs'}</h2>
${designs.map((result) => signPictures(result, report))}
${seamTable(report)}</section>
<section class="sheets"><h2>The sheets</h2>
${stocks === null || report.sheets.length === 0 ? html`<p>No sheet was laid out.</p>` : sheetPictures(report, stocks, designs)}</section>
<section><h2>The parts</h2>${partTable(report)}</section>
<section><h2>Paint</h2>${paintTable(report)}${[...guides].map(([id, guide]) => paintPictures(id, guide))}</section>
<section><h2>Build guide</h2>${[...guides].map(([id, guide]) => html`${id === '' ? null : html`<h3>${id}</h3>`}${guideSteps(guide)}`)}</section>
<section><h2>Hanging</h2>${hangingSection(report, designs)}</section>
<section><h2>Time and cost</h2>${timeTable(report)}${costTable(report.cost)}</section>
<section><h2>The artwork</h2>${complaintList(report)}</section>
<section class="cautions"><h2>Cautions</h2><ul>${report.cautions.map(
      (caution) => html`<li>${caution}</li>
`,
    )}</ul></section>
<footer>Kerf ${report.kerf} mm, ${kerfWords(report)}; spacing ${report.spacing} mm; margin ${report.margin} mm; fit ${report.fit} mm; seed ${report.seed}; effort ${String(report.effort)}. Lengths in mm. Made with Underlap.</footer>`,
  )}`;
}

/** A page of the same look with other content. */
export function pageFrame(title: string, body: Html): string {
  return html`<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>${title}</title><style>${STYLE}</style></head><body>
<main>${body}</main></body></html>
`.text;
}

function figures(report: Report): Html {
  const rows: [string, string][] = [
    ['boards', String(report.boards)],
    [
      'fewest possible',
      `${report.isProvedMinimal ? `${report.boardsLowerBound}, proved` : `at least ${report.boardsLowerBound}`}`,
    ],
    ['board used', percent(report.yield)],
    ['seam hidden', shareOfSeams(report, 'hiddenLengthMm')],
    ['seam held', shareOfSeams(report, 'heldLengthMm')],
    [
      'least gap',
      report.check.smallestGapMm === null ? 'one piece a sheet' : `${report.check.smallestGapMm.toFixed(2)} mm`,
    ],
  ];
  return html`<dl class="figures">${rows.map(
    ([term, value]) => html`<div><dt>${term}</dt><dd>${value}</dd></div>
`,
  )}</dl>`;
}

function shareOfSeams(report: Report, field: 'hiddenLengthMm' | 'heldLengthMm'): string {
  const length = report.seams.reduce((sum, seam) => sum + seam.lengthMm, 0);
  return length === 0 ? 'no seam' : percent(report.seams.reduce((sum, seam) => sum + seam[field], 0) / length);
}

function verdict(report: Report): Html {
  if (report.notFitting.length > 0) {
    return html`<div class="attention"><strong>Not everything fits, so no cut file was written.</strong><ul>${report.notFitting.map(
      (entry) => html`<li>${entry.piece ?? entry.part}: ${entry.message}</li>
`,
    )}</ul></div>`;
  }
  return html`<p class="verdict"><strong>Independent check passed:</strong> ${report.check.piecesPlaced} of ${report.check.piecesExpected} pieces placed, none overlaps, none is nearer than asked to another or to the edge, every split piece fits the bed.</p>`;
}

function leadWords(report: Report): string {
  const { artwork } = report;
  const stock =
    report.stocks.length === 1
      ? `${report.thickness} mm stock`
      : report.stocks.map((one) => `${one.id} (${one.thickness} mm)`).join(' and ');
  const signs = report.batch === 1 ? 'one sign' : `${report.batch} signs`;
  if (report.designs.length > 1) return `${report.designs.length} designs, ${signs} of ${stock}`;
  const size = `${mm(artwork.widthMm)} x ${mm(artwork.heightMm)} mm (size from the ${artwork.sizeSource})`;
  return `${artwork.name}: ${size}, ${artwork.parts} parts, ${signs} of ${stock}`;
}

/** One design: how it looks when it is glued up, and its split parts laid bare. */
function signPictures({ design, sign, pieces }: DesignResult, report: Report): Html {
  const isOwn = (part: string) => design.prefix === '' || part.startsWith(design.prefix);
  const seams = report.seams.filter((seam) => isOwn(seam.part));
  const names = new Map(report.parts.map((part) => [part.id, part.name]));
  return html`${design.id === '' ? null : html`<h3>${design.id}${design.order === '' ? null : html` for ${design.order}`}: ${design.count === 1 ? 'one sign' : `${design.count} signs`}, numbers ${design.job.marks.before}1 and on</h3>`}
${assembledPicture(sign, seams)}
<div class="pair">${report.splits
    .filter((split) => isOwn(split.part))
    .map((split) =>
      splitPicture(
        names.get(split.part) ?? split.part,
        pieces.filter((piece) => `${design.prefix}${piece.partId}` === split.part),
        seams.filter((seam) => seam.part === split.part),
      ),
    )}</div>
`;
}

function kerfWords(report: Report): string {
  return { all: 'compensated', seams: 'compensated at seams only', none: 'not compensated' }[report.compensate];
}
