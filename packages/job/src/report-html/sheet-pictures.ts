import { apply } from '@underlap/geometry/matrix';
import { shapeToPathData } from '@underlap/geometry/path-data';
import type { Point } from '@underlap/geometry/point';
import { regionBounds } from '@underlap/geometry/region';
import type { Placement } from '@underlap/nest/problem';
import type { Report, ReportLoading } from '../report-schema.ts';
import { onSheet } from '../sheet-drawings.ts';
import type { CutPiece, DesignResult, JobPiece, NestStageResult, StockLayout } from '../stages.ts';
import { type Html, html } from './html.ts';
import { coordinate, duration, mm, percent } from './numbers.ts';
import { sheetName } from './order-table.ts';
import { tick } from './shopping-list.ts';
import { numberText } from './split-picture.ts';

/** Every sheet to scale with numbers, margin, bed windows and the reusable rest; piece outlines stand once, for all to point at. */
export function sheetPictures(report: Report, stocks: readonly StockLayout[], designs: readonly DesignResult[]): Html {
  const pieces = stocks.flatMap((stock) => stock.pieces);
  const indexes = new Map(pieces.map((piece, index) => [piece.id, index]));
  const paints = new Map(
    designs.flatMap(({ design, sign }) => sign.parts.map((part) => [`${design.prefix}${part.id}`, part.paint])),
  );
  const laid = stocks.flatMap((stock) => stock.layout.sheets.map(({ placements }) => ({ stock, placements })));
  return html`<svg width="0" height="0" style="position:absolute" aria-hidden="true"><defs>${pieces.map(
    (piece, index) => html`<path id="piece-${index}" d="${shapeToPathData(piece.cutShape, 2)}" fill-rule="evenodd"/>
`,
  )}</defs></svg>${report.sheets.map((sheet, at) => {
    const { stock, placements } = laid[at]!;
    if (sheet.sameAs !== null) return null;
    const loadings = report.loadings.filter((loading) => loading.sheets[0] === at + 1);
    const same = loadings[0]?.sheets ?? [at + 1];
    const ink = Math.max(sheet.width, sheet.height) / 500;
    const which = `${same.length === 1 ? 'Sheet' : 'Sheets'} ${same.join(', ')} of ${report.sheets.length}`;
    const title = sheet.material === '' ? which : `${which}: ${sheetName(sheet)}`;
    const placed = placements.map((placement) => {
      const index = indexes.get(placement.pieceId)!;
      return { placement, index, piece: pieces[index]! };
    });
    const copies = same.map((number) => tick(same.length === 1 ? 'cut' : `sheet ${number} cut`));
    return html`<article class="sheet-page"><header><p class="sheet-number">${same.join(', ')}</p><div><h3>${title}${same.length === 1 ? null : html`: cut ${same.length} times`}</h3>
<p>${sheet.stock}, ${mm(sheet.width)} x ${mm(sheet.height)} mm, ${placements.length} pieces, ${percent(sheet.yield)} used, ${(sheet.cutLengthMm / 1000).toFixed(2)} m of cut.${sheet.file === null || sheet.loadings > 1 ? null : html` File: <strong>${sheet.files.join(', ')}</strong>.`}</p>
<p class="ticks">${[tick('board loaded'), ...copies, tick('pieces counted')]}</p></div><p class="sheet-time">${duration(sheet.seconds)}<small>${processTimes(sheet)}</small></p></header>
<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="${title}: ${placements.length} pieces on ${sheet.stock}" viewBox="${coordinate(-3 * ink)} ${coordinate(-3 * ink)} ${coordinate(sheet.width + 6 * ink)} ${coordinate(sheet.height + 6 * ink)}">
${boardOutline(sheet, stock.nested, ink)}
<rect x="${report.margin}" y="${report.margin}" width="${coordinate(sheet.width - 2 * report.margin)}" height="${coordinate(sheet.height - 2 * report.margin)}" fill="none" stroke="#a08c66" stroke-width="${coordinate(0.5 * ink)}" stroke-dasharray="${coordinate(3 * ink)} ${coordinate(3 * ink)}"/>
${sheet.offcut === null ? null : html`<path d="${sheet.offcut.outline}" fill="#ffffff" fill-opacity=".65" stroke="#5a6069" stroke-width="${coordinate(0.8 * ink)}" stroke-dasharray="${coordinate(8 * ink)} ${coordinate(3 * ink)}"><title>reusable rest</title></path>`}
${placed.map(({ placement, piece, index }) => placedPiece(placement, piece, index, paints, ink))}
${placed.map(({ placement, piece }) => placedNumber(placement, piece, ink))}
${loadings.length > 1 ? loadings.map((loading) => loadingFrame(loading, ink)) : null}
</svg>
${loadingList(loadings)}${restLine(sheet)}<p class="pieces">Pieces: ${pieceList(placed)}.</p></article>
`;
  })}`;
}

/** What a loading shows of the board, with its number in the order of cutting. */
function loadingFrame({ number, x, y, width, height }: ReportLoading, ink: number): Html {
  const inset = (number % 4) * 0.8 * ink;
  return html`<g class="loading"><rect x="${coordinate(x + inset)}" y="${coordinate(y + inset)}" width="${coordinate(width - 2 * inset)}" height="${coordinate(height - 2 * inset)}" fill="none" stroke="#0072b2" stroke-width="${coordinate(1.2 * ink)}" stroke-dasharray="${coordinate(9 * ink)} ${coordinate(4 * ink)}"/><text x="${coordinate(x + inset + 4 * ink)}" y="${coordinate(y + inset + 13 * ink)}" font-size="${coordinate(13 * ink)}" fill="#0072b2" font-weight="bold">${number}</text></g>
`;
}

/** File by file what it shows and how the material is set, each with a box to tick; nothing where a board lies on the bed as it is. */
function loadingList(loadings: readonly ReportLoading[]): Html | null {
  if (loadings.every(({ words }) => words.length === 0)) return null;
  return html`<ol class="loadings">${loadings.map(
    ({
      files,
      words,
    }) => html`<li>${tick('')} ${files.length === 0 ? null : html`<strong>${files.join(', ')}</strong>: `}${words.join('; ')}.</li>
`,
  )}</ol>`;
}

/** What is left for the shelf, and what to write on it. */
function restLine({ rests }: Report['sheets'][number]): Html | null {
  if (rests.length === 0) return null;
  const words = rests.map(({ id, rectangle }) => `${id} (${mm(rectangle.width)} x ${mm(rectangle.height)} mm)`);
  return html`<p class="pieces">${tick('')}For the shelf, write on it: ${words.join(', ')}.</p>`;
}

function processTimes({ times }: Report['sheets'][number]): string {
  const words = {
    cut: 'cut',
    score: 'score',
    'deep-score': 'deep score',
    engrave: 'engrave',
    travel: 'beam off',
  } as const;
  return (Object.keys(words) as (keyof typeof words)[])
    .filter((name) => times[name] >= 1)
    .map((name) => `${words[name]} ${duration(times[name])}`)
    .join(', ');
}

/** "1a, 2, 7 x 2", so that nothing is left on the board. */
function pieceList(placed: readonly { readonly piece: JobPiece }[]): string {
  const counts = new Map<string, number>();
  for (const { piece } of placed) counts.set(piece.number, (counts.get(piece.number) ?? 0) + 1);
  return [...counts]
    .sort(([a], [b]) => a.localeCompare(b, 'en', { numeric: true }))
    .map(([number, count]) => (count === 1 ? number : `${number} x ${count}`))
    .join(', ');
}

function boardOutline(sheet: Report['sheets'][number], nested: NestStageResult, ink: number): Html {
  const stock = nested.problem.stock.find((candidate) => candidate.id === sheet.stock);
  const rings = stock === undefined ? [] : [stock.outline.outer, ...stock.outline.holes];
  const data = rings.map((ring) => {
    const points: string[] = [];
    for (let i = 0; i < ring.length; i += 2) points.push(`${coordinate(ring[i]!)} ${coordinate(ring[i + 1]!)}`);
    return `M${points.join('L')}Z`;
  });
  return html`<path d="${data.join('')}" fill="#efe3cd" fill-rule="evenodd" stroke="#22252a" stroke-width="${coordinate(ink)}"/>`;
}

function placedPiece(
  placement: Placement,
  piece: JobPiece,
  index: number,
  paints: ReadonlyMap<string, string | null>,
  ink: number,
): Html {
  const { a, b, c, d, e, f } = onSheet(placement);
  const matrix = [a, b, c, d]
    .map((value) => String(Number(value.toFixed(6))))
    .concat([e, f].map(coordinate))
    .join(' ');
  return html`<use href="#piece-${index}" transform="matrix(${matrix})" fill="${paints.get(`${piece.design.prefix}${piece.partId}`) ?? '#ffffff'}" stroke="#22252a" stroke-width="${coordinate(0.7 * ink)}"><title>${piece.number}: ${piece.design.prefix}${piece.partId}, sign ${placement.copy}</title></use>
`;
}

function placedNumber(placement: Placement, piece: CutPiece, ink: number): Html {
  const at: Point = apply(onSheet(placement), piece.centre);
  const { minX, minY, maxX, maxY } = regionBounds(piece.region);
  const room = Math.max(maxX - minX, maxY - minY) * 0.6;
  return numberText(piece.number, at.x, at.y, Math.min(16 * ink, Math.max(8 * ink, room)));
}
