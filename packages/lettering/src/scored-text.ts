import type { DrawnShape, DrawnText, TextRun } from '@underlap/artwork/drawing';
import { strokeText, strokeTextWidth } from '@underlap/artwork/stroke-font';
import { transformContour } from '@underlap/geometry/contour';

/** Height of capitals as a share of the em, as in most text faces (value from memory). */
const CAPITALS_SHARE = 0.7;

/** Drawn width of a scored line; only the line itself is followed. */
const SCORED_WIDTH_MM = 0.2;

/**
 * Text that stays text: single lines to be scored where the text stands, in a plain hand of capitals.
 * @param scale - size as a share of the drawn one.
 * @returns a shape of open lines on a layer called "score"; null for a text of nothing but spaces, or along a line.
 */
export function scoredText(text: DrawnText, scale = 1): DrawnShape | null {
  const contours = text.runs.flatMap((run, index) => {
    const words = run.text.trim();
    if (words === '' || run.path !== null) return [];
    const height = heightOf(run, scale);
    const width = strokeTextWidth(words, height);
    const at = placeOf(text.runs, index);
    const left = run.anchor === 'middle' ? at.x - width / 2 : run.anchor === 'end' ? at.x - width : at.x;
    return strokeText(words, { x: left + width / 2, y: at.y - height / 2 }, height);
  });
  if (contours.length === 0) return null;
  return {
    id: `${text.id}-scored`,
    name: text.name ?? text.id,
    layer: 'score',
    contours: contours.map((contour) => transformContour(contour, text.matrix)),
    fillRule: 'nonzero',
    fill: null,
    stroke: text.stroke ?? text.fill ?? '#000000',
    strokeWidthMm: SCORED_WIDTH_MM,
    place: text.place,
  };
}

function heightOf({ size, sizeOf }: TextRun, scale: number): number {
  return size * (sizeOf === 'em' ? CAPITALS_SHARE : 1) * scale;
}

/** Where a run begins: its own place, else after the runs before it. */
function placeOf(runs: readonly TextRun[], index: number): { x: number; y: number } {
  let x = 0;
  let y = 0;
  for (const [at, run] of runs.slice(0, index + 1).entries()) {
    x = (run.x[0] ?? x) + (run.dx[0] ?? 0);
    y = (run.y[0] ?? y) + (run.dy[0] ?? 0);
    if (at < index) x += strokeTextWidth(run.text, heightOf(run, 1));
  }
  return { x, y };
}
