import type { DrawnShape } from '@underlap/artwork/drawing';
import { clipPolyline, polylineLength } from '@underlap/geometry/clip-polyline';
import { distancePointToRing } from '@underlap/geometry/distance';
import { FLATTEN_TOLERANCE_MM, flattenContour } from '@underlap/geometry/flatten';
import { offsetRegions } from '@underlap/geometry/offset';
import { orientedRing } from '@underlap/geometry/ring';
import { type Meetings, meetingsOf } from './meetings.ts';
import { type Outline, shareInside } from './outline.ts';
import { DEFAULT_MATCH_RULES } from './ring-match.ts';
import { matchStretches, type Stretch } from './stretch-match.ts';
import { Twins } from './twins.ts';

/** An outline inside another that comes so near its edge runs along it, mm. */
const ALONG_MM = 0.15;
/** Shorter lines are ticks, mm. */
const LEAST_STRETCH_MM = 8;
/** Lines and parts compared at most: more is a picture, not a spread sign. */
const MOST_LINES = 40;
const MOST_PARTS = 60;

/**
 * Guides in the colour and on the layer of what is cut. They cannot be told from holes, unless one runs over the edge of the part it
 * lies on, or is clipped there, while the part that it stands for lies alone: no hole does that. Where one is found, every
 * outline on a part whose equal lies alone is a guide.
 * @param shapes - those that would be cut and of which nothing is known.
 * @returns the guides; none where outlines would still cross without them, since the drawing is then a stack.
 */
export function sameLookGuides(shapes: readonly DrawnShape[]): DrawnShape[] {
  if (shapes.some(({ fill }) => fill !== null)) return [];
  const meetings = meetingsOf(shapes);
  const { outlines, liesIn, crosses } = meetings;
  const twins = new Twins(meetings);
  const isAny = (): boolean => true;
  const isOver = (index: number): boolean =>
    crosses[index]!.some((other) => outlines[other]!.area > outlines[index]!.area);
  const over = [...outlines.keys()].filter((index) => isOver(index) && twins.twinOf(index, isAny) !== null);
  const guides = new Set(over.map((index) => outlines[index]!.shape));
  for (const shape of clippedGuides(shapes, meetings)) guides.add(shape);
  if (guides.size === 0) return [];
  const stillCrosses = outlines.some(
    ({ shape }, index) => !guides.has(shape) && crosses[index]!.some((other) => !guides.has(outlines[other]!.shape)),
  );
  if (stillCrosses) return [];
  for (const [index, { shape }] of outlines.entries())
    if (!guides.has(shape) && liesIn[index]!.length > 0 && twins.twinOf(index, isAny) !== null) guides.add(shape);
  // A path that also bounds a part is no guide.
  const bounds = new Set(
    outlines.filter((_, index) => !isOver(index) && liesIn[index]!.length === 0).map(({ shape }) => shape),
  );
  return [...guides].filter((shape) => !bounds.has(shape));
}

interface Line extends Stretch {
  readonly shape: DrawnShape;
}

/** Shapes whose lines on a part are all of a lone part's outline that reaches it. */
function clippedGuides(shapes: readonly DrawnShape[], { outlines, liesIn, crosses }: Meetings): DrawnShape[] {
  const lone = outlines.filter((_, index) => liesIn[index]!.length === 0 && crosses[index]!.length === 0);
  if (lone.length === 0 || lone.length > MOST_PARTS) return [];
  const rules = DEFAULT_MATCH_RULES;
  const found = new Set<DrawnShape>();
  // An outline along the edge of its ground counts as crossing it.
  for (const ground of outlines.filter((_, index) => liesIn[index]!.length === 0)) {
    const region = { outer: orientedRing(ground.ring, 1), holes: [] };
    const core = offsetRegions([region], -(rules.toleranceMm + rules.largestInsetMm));
    const lines = linesOn(ground, shapes, core);
    if (lines.length === 0 || lines.length > MOST_LINES) continue;
    for (const part of lone) {
      if (part === ground) continue;
      const result = matchStretches(orientedRing(part.ring, 1), lines, { core }, rules);
      if (result.kind === 'found') for (const index of result.stretches) found.add(lines[index]!.shape);
    }
  }
  return [...found];
}

/** Open lines on a part, and outlines in it that run along its edge. */
function linesOn(ground: Outline, shapes: readonly DrawnShape[], core: ReturnType<typeof offsetRegions>): Line[] {
  return shapes.flatMap((shape) => {
    if (shape === ground.shape) return [];
    return [...shape.contours].flatMap((contour): Line[] => {
      const line = flattenContour(contour, FLATTEN_TOLERANCE_MM);
      if (shareInside(ground.ring, line) < 0.3) return [];
      if (contour.closed && !runsAlong(line, ground)) return [];
      return clipPolyline(line, contour.closed, core, 'inside')
        .map((piece) => ({ line: piece, length: polylineLength(piece), shape }))
        .filter(({ length }) => length >= LEAST_STRETCH_MM);
    });
  });
}

function runsAlong(line: Float64Array, { ring }: Outline): boolean {
  let near = 0;
  for (let i = 0; i < line.length && near < 2; i += 2)
    if (distancePointToRing(line[i]!, line[i + 1]!, ring) <= ALONG_MM) near++;
  return near >= 2;
}
