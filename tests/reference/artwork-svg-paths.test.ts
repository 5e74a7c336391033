import { readPath } from '@underlap/artwork/path-grammar';
import { contourLength, segmentPoint } from '@underlap/geometry/contour';
import type { ContourView } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import { svgPathProperties } from 'svg-path-properties';
import { describe, expect, it } from 'vitest';
import { comparedIcons } from '../support/icon-corpus.ts';

/**
 * Path data against an independent path library: svg-path-properties 1.3 (its lengths of curves and elliptical arcs are
 * integrated numerically, with errors of a few parts in a thousand at cusps, hence the tolerances).
 */
/** By the place among those compared, from 0: after a circle of two arcs the library is at NaN and stays there. */
const EXCEPTIONS: ReadonlySet<number> = new Set([5532]);

const FILES = comparedIcons();
const PATHS = FILES.filter((_, place) => !EXCEPTIONS.has(place)).flatMap((file) =>
  [...file.read().matchAll(/\sd="([^"]+)"/g)].map((match) => ({ name: file.name, data: match[1]! })),
);

type Measured = InstanceType<typeof svgPathProperties>;

/** Measured by the library once for all questions. */
const theirs = new Map<string, Measured>();
function measured(data: string): Measured {
  const known = theirs.get(data) ?? new svgPathProperties(data);
  theirs.set(data, known);
  return known;
}

const length = (contours: readonly ContourView[]): number =>
  contours.reduce((sum, contour) => sum + contourLength(contour), 0);

describe('path data of open icon sets', () => {
  it('has the length that an independent library finds', { timeout: 120_000 }, () => {
    expect(PATHS.length).toBeGreaterThan(6000);
    const wrong = PATHS.flatMap(({ name, data }) => {
      const read = readPath(data, 1e6);
      // The library does not count the line that z draws, nor a jump to the next contour.
      const ours = length(read.contours);
      const error = Math.abs(ours - measured(data).getTotalLength()) / ours;
      return read.fault === null && error < 2e-3 ? [] : [{ name, error, fault: read.fault }];
    });
    expect(wrong).toEqual([]);
  });

  it('has one exception, where the library itself is lost', () => {
    for (const place of EXCEPTIONS) {
      const data = /\sd="([^"]+)"/.exec(FILES[place]!.read())![1]!;
      expect(new svgPathProperties(data).getTotalLength()).toBeNaN();
      expect(length(readPath(data, 1e6).contours)).toBeGreaterThan(0);
    }
  });

  it('ends every segment where the independent library does', { timeout: 120_000 }, () => {
    let count = 0;
    const wrong = PATHS.flatMap(({ name, data }) => {
      const ends = measured(data)
        .getParts()
        .map((part) => part.end);
      const ours = readPath(data, 1e6).contours.flatMap(endsOf);
      count += ours.length;
      const far = ours.find((to) => !ends.some((end) => Math.hypot(end.x - to.x, end.y - to.y) < 1e-6));
      return far === undefined ? [] : [{ name, far }];
    });
    expect(wrong).toEqual([]);
    expect(count).toBeGreaterThan(60_000);
  });

  it('passes through the middle of every segment as the independent library does', { timeout: 120_000 }, () => {
    let worst = 0;
    let count = 0;
    for (const { data } of PATHS.slice(0, 400)) {
      for (const contour of readPath(data, 1e6).contours) {
        let from = contour.start;
        for (const segment of contour.segments) {
          if (segment.kind === 'arc' || segment.kind === 'line') {
            const alone = singleSegment(from, segment.kind === 'arc' ? segment : null, segment.to);
            const theirs = new svgPathProperties(alone);
            const middle = theirs.getPointAtLength(theirs.getTotalLength() / 2);
            const ours = segmentPoint(from, segment, 0.5);
            worst = Math.max(worst, Math.hypot(ours.x - middle.x, ours.y - middle.y));
            count++;
          }
          from = segment.to;
        }
      }
    }
    expect(count).toBeGreaterThan(2000);
    expect(worst).toBeLessThan(2e-3);
  });
});

/** Ends of the segments that have a length; for the others the library finds NaN. */
function endsOf(contour: ContourView): Point[] {
  let end = contour.start;
  return [...contour.segments].flatMap((segment) => {
    const from = end;
    end = segment.to;
    return contourLength({ start: from, segments: [segment], closed: false }) > 0 ? [segment.to] : [];
  });
}

/** Path data of one line or circular arc. */
function singleSegment(
  from: { x: number; y: number },
  arc: { radius: number; sweep: number } | null,
  to: { x: number; y: number },
): string {
  const start = `M${from.x} ${from.y}`;
  if (arc === null) return `${start}L${to.x} ${to.y}`;
  const flags = `${Math.abs(arc.sweep) > Math.PI ? 1 : 0} ${arc.sweep > 0 ? 1 : 0}`;
  return `${start}A${arc.radius} ${arc.radius} 0 ${flags} ${to.x} ${to.y}`;
}
