import { apply } from '@underlap/geometry/matrix';
import { shapeToPathData } from '@underlap/geometry/path-data';
import type { Point } from '@underlap/geometry/point';
import type { Placement } from '@underlap/nest/problem';
import type { Sign } from '@underlap/stack/sign';
import type { Report, ReportLoading } from '../report-schema.ts';
import { onSheet } from '../sheet-drawings.ts';
import type { CutPiece, NestStageResult } from '../stages.ts';
import { type Html, html } from './html.ts';
import { coordinate, duration, mm, percent } from './numbers.ts';
import { numberText } from './split-picture.ts';

/** The piece outlines once, for every sheet to point at. */
export function pieceSymbols(pieces: readonly CutPiece[]): Html {
  return html`<svg width="0" height="0" style="position:absolute" aria-hidden="true"><defs>${pieces.map(
    (piece, index) => html`<path id="piece-${index}" d="${shapeToPathData(piece.cutShape, 2)}" fill-rule="evenodd"/>
`,
  )}</defs></svg>`;
}

/** Every sheet to scale with numbers, margin, bed windows and the reusable rest. */
export function sheetPictures(report: Report, nested: NestStageResult, pieces: readonly CutPiece[], sign: Sign): Html {
  const paints = new Map(sign.parts.map((part) => [part.id, part.paint]));
  const indexes = new Map(pieces.map((piece, index) => [piece.id, index]));
  return html`${report.sheets.map((sheet, at) => {
    if (sheet.sameAs !== null) return null;
    const loadings = report.loadings.filter((loading) => loading.sheets[0] === at + 1);
    const same = loadings[0]?.sheets ?? [at + 1];
    const placements = nested.layout.sheets[at]!.placements;
    const ink = Math.max(sheet.width, sheet.height) / 500;
    const title = `${same.length === 1 ? 'Sheet' : 'Sheets'} ${same.join(', ')} of ${report.sheets.length}`;
    return html`<figure><svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="${title}: ${placements.length} pieces on ${sheet.stock}" viewBox="${coordinate(-3 * ink)} ${coordinate(-3 * ink)} ${coordinate(sheet.width + 6 * ink)} ${coordinate(sheet.height + 6 * ink)}">
${boardOutline(sheet, nested, ink)}
<rect x="${report.margin}" y="${report.margin}" width="${coordinate(sheet.width - 2 * report.margin)}" height="${coordinate(sheet.height - 2 * report.margin)}" fill="none" stroke="#a08c66" stroke-width="${coordinate(0.5 * ink)}" stroke-dasharray="${coordinate(3 * ink)} ${coordinate(3 * ink)}"/>
${sheet.offcut === null ? null : html`<path d="${sheet.offcut.outline}" fill="#ffffff" fill-opacity=".65" stroke="#5a6069" stroke-width="${coordinate(0.8 * ink)}" stroke-dasharray="${coordinate(8 * ink)} ${coordinate(3 * ink)}"><title>reusable rest</title></path>`}
${placements.map((placement) => placedPiece(placement, pieces[indexes.get(placement.pieceId)!]!, indexes.get(placement.pieceId)!, paints, ink))}
${placements.map((placement) => placedNumber(placement, pieces[indexes.get(placement.pieceId)!]!, ink))}
${loadings.length > 1 ? loadings.map((loading) => loadingFrame(loading, ink)) : null}
</svg><figcaption><strong>${title}</strong>${sheet.file === null ? null : html` (${sheet.files.join(', ')})`}${same.length === 1 ? null : html`, <strong>cut ${same.length} times</strong>`}: ${sheet.stock}, ${mm(sheet.width)} x ${mm(sheet.height)} mm, ${placements.length} pieces, ${percent(sheet.yield)} used, ${(sheet.cutLengthMm / 1000).toFixed(2)} m of cut, about ${duration(sheet.seconds)}${
      sheet.loadings > 1
        ? html`, in ${sheet.loadings} ${loadings[0]?.kind === 'panels' ? 'panels' : 'loadings of the bed'}`
        : null
    }.${loadingList(loadings)}</figcaption></figure>
`;
  })}`;
}

/** What a loading shows of the board, with its number in the order of cutting. */
function loadingFrame({ number, x, y, width, height }: ReportLoading, ink: number): Html {
  const inset = (number % 4) * 0.8 * ink;
  return html`<g class="loading"><rect x="${coordinate(x + inset)}" y="${coordinate(y + inset)}" width="${coordinate(width - 2 * inset)}" height="${coordinate(height - 2 * inset)}" fill="none" stroke="#0072b2" stroke-width="${coordinate(1.2 * ink)}" stroke-dasharray="${coordinate(9 * ink)} ${coordinate(4 * ink)}"/><text x="${coordinate(x + inset + 4 * ink)}" y="${coordinate(y + inset + 13 * ink)}" font-size="${coordinate(13 * ink)}" fill="#0072b2" font-weight="bold">${number}</text></g>
`;
}

/** File by file what it shows and how the material is set; nothing where a board lies on the bed as it is. */
function loadingList(loadings: readonly ReportLoading[]): Html | null {
  if (loadings.every(({ words }) => words.length === 0)) return null;
  return html`<ol class="loadings">${loadings.map(
    ({
      files,
      words,
    }) => html`<li>${files.length === 0 ? null : html`<strong>${files.join(', ')}</strong>: `}${words.join('; ')}.</li>
`,
  )}</ol>`;
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
  piece: CutPiece,
  index: number,
  paints: ReadonlyMap<string, string | null>,
  ink: number,
): Html {
  const { a, b, c, d, e, f } = onSheet(placement);
  const matrix = [a, b, c, d]
    .map((value) => String(Number(value.toFixed(6))))
    .concat([e, f].map(coordinate))
    .join(' ');
  return html`<use href="#piece-${index}" transform="matrix(${matrix})" fill="${paints.get(piece.partId) ?? '#ffffff'}" stroke="#22252a" stroke-width="${coordinate(0.7 * ink)}"><title>${piece.number}: ${piece.partId}, sign ${placement.copy}</title></use>
`;
}

function placedNumber(placement: Placement, piece: CutPiece, ink: number): Html {
  const at: Point = apply(onSheet(placement), piece.centre);
  return numberText(piece.number, at.x, at.y, 9 * ink);
}
