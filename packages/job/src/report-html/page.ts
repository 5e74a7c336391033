import type { Sign } from '@underlap/stack/sign';
import type { Report } from '../report-schema.ts';
import type { CutPiece, NestStageResult } from '../stages.ts';
import { assembledPicture } from './assembled-picture.ts';
import { costTable, timeTable } from './cost-tables.ts';
import { type Html, html } from './html.ts';
import { mm, percent } from './numbers.ts';
import { paintTable } from './paint-tables.ts';
import { pieceSymbols, sheetPictures } from './sheet-pictures.ts';
import { splitPicture } from './split-picture.ts';
import { STYLE } from './style.ts';
import { buildList, complaintList, partTable, seamTable } from './tables.ts';

/** What the page shows; the report holds the figures, the rest the shapes. */
export interface PageInput {
  readonly report: Report;
  readonly sign: Sign;
  readonly pieces: readonly CutPiece[];
  readonly nested: NestStageResult | null;
}

/** The shop's report as one self-contained page: nothing is loaded from anywhere, nothing runs. */
export function reportHtml(input: PageInput): string {
  const { report, sign, pieces, nested } = input;
  return `<!DOCTYPE html>\n${pageFrame(
    `${report.job}: report`,
    html`<h1>${report.job}</h1>
<p class="lead">${report.artwork.name}: ${mm(report.artwork.widthMm)} x ${mm(report.artwork.heightMm)} mm (size from the ${report.artwork.sizeSource === 'file' ? 'file' : 'user'}), ${report.artwork.parts} parts, ${report.batch === 1 ? 'one sign' : `${report.batch} signs`} of ${report.thickness} mm stock on a bed of ${mm(report.bed.width)} x ${mm(report.bed.height)} mm.</p>
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
<section><h2>The sign</h2>
${assembledPicture(sign, report.seams)}
${splits(input)}
${seamTable(report)}</section>
<section><h2>The sheets</h2>
${nested === null || report.sheets.length === 0 ? html`<p>No sheet was laid out.</p>` : html`${pieceSymbols(pieces)}${sheetPictures(report, nested, pieces, sign)}`}
${partTable(report)}</section>
<section><h2>Paint</h2>${paintTable(report)}</section>
<section><h2>Build order</h2>${buildList(report)}</section>
<section><h2>Time and cost</h2>${timeTable(report)}${costTable(report.cost)}</section>
<section><h2>The artwork</h2>${complaintList(report)}</section>
<section><h2>Cautions</h2><ul>${report.cautions.map(
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

function splits({ report, pieces }: PageInput): Html {
  const names = new Map(report.parts.map((part) => [part.id, part.name]));
  return html`<div class="pair">${report.splits.map((split) =>
    splitPicture(
      names.get(split.part) ?? split.part,
      pieces.filter((piece) => piece.partId === split.part),
      report.seams.filter((seam) => seam.part === split.part),
    ),
  )}</div>`;
}

function kerfWords(report: Report): string {
  return { all: 'compensated', seams: 'compensated at seams only', none: 'not compensated' }[report.compensate];
}
