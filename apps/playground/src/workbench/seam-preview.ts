import { subtractRegions, unionRegions } from '@underlap/geometry/boolean';
import { clipPolyline } from '@underlap/geometry/clip-polyline';
import { polylineContour } from '@underlap/geometry/contour';
import { convexHull } from '@underlap/geometry/hull';
import { bufferPolyline, offsetRegions } from '@underlap/geometry/offset';
import type { Point } from '@underlap/geometry/point';
import { isInRegion, type Region, regionArea } from '@underlap/geometry/region';
import type { Ring } from '@underlap/geometry/ring';
import { roughlyGoesIn } from '@underlap/seam/goes-in';
import { HeldMeasure } from '@underlap/seam/held';
import type { Seam, SeamTask, SplitPiece } from '@underlap/seam/task';
import { stretchesLength } from '@underlap/seam/visible';
import type { SeamPreview } from '../workers/api.ts';
import { alongTrack, polylinePath, stretchPath, trackOf, trackOfPoints } from './outline-views.ts';

/** How finely hidden and visible stretches are told apart in a preview, mm. */
const SAMPLE_MM = 1;
/** Half width of the line that parts the two sides, mm. */
const BLADE_MM = 0.05;
/** Ends are lengthened by this before they are trimmed at the part's edge, mm. */
const TAIL_MM = 60;

export interface SeamPreviewTask {
  readonly seam: Seam;
  /** The pieces on both sides. */
  readonly sides: readonly SplitPiece[];
  /** What the planner knows of the part: the preview asks no more and no less of a side. */
  readonly task: Pick<SeamTask, 'region' | 'cover' | 'glue' | 'limits' | 'landing' | 'kerf'>;
  /** Where the middle of the seam is taken. */
  readonly to: Point;
}

/**
 * What a seam would be if a hand took it elsewhere: the same line shifted as a whole and trimmed at the part's edge.
 * @returns null when it would no longer part anything.
 * @remarks An answer for the eye, in some milliseconds; the planner finds the real seam through that point afterwards.
 */
export function previewSeam({ seam, sides, task, to }: SeamPreviewTask): SeamPreview | null {
  const whole = unionRegions(sides.map((side) => side.region));
  const line = movedLine(seam, whole, to);
  if (line === null) return null;
  const track = trackOfPoints(line);
  const parts = subtractRegions(whole, bufferPolyline(line, BLADE_MM)).sort((a, b) => regionArea(b) - regionArea(a));
  const [one, other] = parts;
  if (one === undefined || other === undefined) return null;
  const fits = (side: Region): boolean => roughlyGoesIn(convexHull(side.outer), task.limits, task.kerf);
  const visible = visibleStretches(track, offsetRegions(task.cover, -task.landing));
  const shown = visible.reduce((sum, [from, end]) => sum + end - from, 0);
  const held = new HeldMeasure(task).stretches(polylineContour(line, false));
  return {
    d: polylinePath(line, false),
    visible: visible.map(([from, end]) => stretchPath(track, from, end)),
    lengthMm: track.length,
    hiddenShare: 1 - shown / track.length,
    heldShare: Math.min(1, stretchesLength(held) / track.length),
    fits: [fits(one), fits(other)],
  };
}

/** The longest stretch of the seam's line, moved as a whole, that lies on the pieces it parted; null when none does. */
export function movedLine(seam: Seam, whole: readonly Region[], to: Point): Ring | null {
  const spine = trackOf(seam.spine);
  const middle = alongTrack(spine, spine.length / 2);
  const line = lengthened(trackOf(seam.path).points, to.x - middle.x, to.y - middle.y);
  const longest = clipPolyline(line, false, whole, 'inside').reduce<Ring | null>((best, part) => {
    return best === null || trackOfPoints(part).length > trackOfPoints(best).length ? part : best;
  }, null);
  return longest === null || longest.length < 4 ? null : longest;
}

/** The line moved, with straight tails at both ends. */
function lengthened(points: Ring, dx: number, dy: number): Ring {
  const n = points.length / 2;
  const at = (i: number): Point => ({ x: points[2 * i]! + dx, y: points[2 * i + 1]! + dy });
  const tail = (end: Point, before: Point): Point => {
    const length = Math.max(Math.hypot(end.x - before.x, end.y - before.y), 1e-9);
    return { x: end.x + ((end.x - before.x) / length) * TAIL_MM, y: end.y + ((end.y - before.y) / length) * TAIL_MM };
  };
  const out = [tail(at(0), at(1)), ...Array.from({ length: n }, (_, i) => at(i)), tail(at(n - 1), at(n - 2))];
  return Float64Array.from(out.flatMap((point) => [point.x, point.y]));
}

/** Stretches, as distances along the track, that lie outside of all the given regions. */
function visibleStretches(track: ReturnType<typeof trackOf>, hiding: readonly Region[]): [number, number][] {
  const stretches: [number, number][] = [];
  let from: number | null = null;
  const steps = Math.max(Math.ceil(track.length / SAMPLE_MM), 1);
  for (let i = 0; i <= steps; i++) {
    const at = (i / steps) * track.length;
    const { x, y } = alongTrack(track, at);
    const isHidden = hiding.some((region) => isInRegion(region, x, y));
    if (!isHidden && from === null) from = at;
    if (isHidden && from !== null) {
      stretches.push([from, at]);
      from = null;
    }
  }
  if (from !== null) stretches.push([from, track.length]);
  return stretches;
}
