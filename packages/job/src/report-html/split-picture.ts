import { contourToPathData, shapeToPathData } from '@underlap/geometry/path-data';
import type { ReportSeam } from '../report-schema.ts';
import type { CutPiece } from '../stages.ts';
import { seamLines } from './assembled-picture.ts';
import { boundsOf, inkOf, viewBoxOf } from './frame.ts';
import { type Html, html } from './html.ts';
import { coordinate } from './numbers.ts';

const TINTS = ['#f4e3c3', '#dbe7ee', '#e3ead7', '#eeddd6', '#e6e0ee', '#f2ead9'];

/** One split part laid bare: its pieces with numbers, marks, and the seams. */
export function splitPicture(partName: string, pieces: readonly CutPiece[], seams: readonly ReportSeam[]): Html {
  const bounds = boundsOf(pieces.map((piece) => piece.shape));
  const ink = inkOf(bounds);
  return html`<figure><svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="${partName} in ${pieces.length} pieces" viewBox="${viewBoxOf(bounds, 6 * ink)}">
${pieces.map(
  (
    piece,
    index,
  ) => html`<path d="${shapeToPathData(piece.shape, 2)}" fill="${TINTS[index % TINTS.length]!}" fill-rule="evenodd" stroke="#22252a" stroke-width="${coordinate(0.8 * ink)}"/>
${piece.marks.flatMap((mark) =>
  mark.contours.map(
    (
      contour,
    ) => html`<path d="${contourToPathData(contour, 2)}" fill="none" stroke="#5a6069" stroke-width="${coordinate(0.5 * ink)}"/>
`,
  ),
)}`,
)}
${seams.map((seam) => seamLines(seam, ink))}
${pieces.map((piece) => numberText(piece.number, piece.centre.x, piece.centre.y, 14 * ink))}
</svg><figcaption>${partName}: ${pieces.length} pieces, ${pieces.map((piece) => piece.number).join(', ')}, with what is burnt on them.</figcaption></figure>`;
}

/** A number that reads on any colour. */
export function numberText(text: string, x: number, y: number, size: number): Html {
  return html`<text x="${coordinate(x)}" y="${coordinate(y)}" font-family="system-ui, sans-serif" font-size="${coordinate(size)}" font-weight="600" text-anchor="middle" dominant-baseline="central" fill="#22252a" stroke="#ffffff" stroke-width="${coordinate(size / 5)}" paint-order="stroke" stroke-linejoin="round">${text}</text>
`;
}
