import { contourEnd } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import { distancePointToSegment } from '@underlap/geometry/distance';
import { flattenContour } from '@underlap/geometry/flatten';
import type { Point } from '@underlap/geometry/point';
import { describe, expect, it } from 'vitest';
import { bridgesOf } from './bridges.ts';
import { filesStage } from './files-stage.ts';
import { jobFrom } from './parse-job.ts';
import { Pipeline } from './pipeline.ts';
import { planJob } from './plan-job.ts';
import { readSvgSheet } from './proof/read-svg-sheet.ts';
import { proveFiles } from './prove-files.ts';
import { cutFiles } from './sheet-drawings.ts';

/** A plate that must be split, a plank over its seam, a disc, and a chip with no room for a bridge. */
const SIGN = `<svg xmlns="http://www.w3.org/2000/svg" width="420mm" height="160mm" viewBox="0 0 420 160">
<rect id="plate" x="10" y="10" width="400" height="140" fill="#7fb2c8"/>
<rect id="plank" x="120" y="20" width="180" height="120" fill="#23395b"/>
<circle id="sun" cx="60" cy="60" r="25" fill="#f0a23a"/>
<rect id="chip" x="130" y="30" width="4" height="4" fill="#c0392b"/>
</svg>`;

const WIDTH = 0.8;
const pipeline = new Pipeline();
const job = jobFrom(
  {
    artwork: { text: SIGN, name: 'pier' },
    bed: '300x200',
    boards: ['300x200'],
    effort: 'quick',
    bridges: { number: 3, width: WIDTH },
    output: { formats: ['svg', 'dxf', 'pdf'] },
  },
  'pier',
);

/** Ends of the stretches of one piece that face one another over a bridge. */
function gapsOf(stretches: readonly Contour[]): { readonly width: number; readonly middle: Point }[] {
  const ends = stretches.flatMap((one, at) => [
    { at, end: one.start },
    { at, end: contourEnd(one) },
  ]);
  const gaps: { width: number; middle: Point }[] = [];
  while (ends.length > 0) {
    const { end } = ends.pop()!;
    const far = (other: Point) => Math.hypot(other.x - end.x, other.y - end.y);
    ends.sort((a, b) => far(b.end) - far(a.end));
    const { end: other } = ends.pop()!;
    gaps.push({ width: far(other), middle: { x: (end.x + other.x) / 2, y: (end.y + other.y) / 2 } });
  }
  return gaps;
}

describe('uncut bridges', () => {
  it('keep every piece in its board, as wide as asked, away from seams and corners, in the files as written', async () => {
    const { report, files, designs } = await planJob(job, { pipeline });
    const seams = designs[0]!.split.parts.flatMap(({ plan }) => plan?.seams.map(({ path }) => path) ?? []);
    expect(seams.length).toBeGreaterThan(0);
    const placements = report.sheets.flatMap((sheet) => sheet.placements.map((one) => ({ ...one, file: sheet.file })));
    let seen = 0;
    for (const { id, number, part, file, x, y, turnDeg } of placements) {
      const found = readSvgSheet(String(files.get(file!))).outlines.filter(
        ({ group, pieceId }) => group === 'cut-outer' && pieceId === id,
      );
      if (part === 'chip') {
        expect(found.map(({ contour }) => contour.closed)).toEqual([true]);
        expect(report.messages.join(' ')).toContain(`No place for a bridge, so cut loose: ${number}.`);
        continue;
      }
      const gaps = gapsOf(found.map(({ contour }) => contour));
      expect(gaps.length).toBeGreaterThanOrEqual(1);
      expect(gaps.length).toBeLessThanOrEqual(3);
      for (const { width, middle } of gaps) {
        seen++;
        expect(width).toBeCloseTo(WIDTH, 2);
        // Back into the sign's frame.
        const [cos, sin] = [Math.cos((-turnDeg * Math.PI) / 180), Math.sin((-turnDeg * Math.PI) / 180)];
        const at = {
          x: cos * (middle.x - x) - sin * (middle.y - y),
          y: sin * (middle.x - x) + cos * (middle.y - y),
        };
        const lines = part === 'plate' ? seams.map((seam) => flattenContour(seam, 0.01)) : [];
        for (const line of lines)
          for (let i = 0; i + 3 < line.length; i += 2)
            expect(
              distancePointToSegment(at.x, at.y, line[i]!, line[i + 1]!, line[i + 2]!, line[i + 3]!),
            ).toBeGreaterThan(4.9);
        const corners = part === 'plate' ? [10, 410, 10, 150] : part === 'plank' ? [120, 300, 20, 140] : null;
        for (const cx of corners?.slice(0, 2) ?? [])
          for (const cy of corners?.slice(2) ?? [])
            expect(Math.hypot(at.x - cx, at.y - cy)).toBeGreaterThan(2 + WIDTH / 2);
      }
    }
    // Two halves, plank and sun with three each.
    expect(seen).toBe(12);
  }, 120_000);

  it('are proved in every format; one of another width is a fault, and so are neighbours too near', async () => {
    const [stock] = (await pipeline.nest(job))!;
    const cuts = cutFiles(stock!.layout, stock!.pieces, stock!.job, 'pier');
    const files = await filesStage(cuts, job);
    expect(files.size).toBe(3 * cuts.length);
    await proveFiles(files, cuts, job);
    await expect(proveFiles(files, cuts, { ...job, bridges: { number: 3, width: 1.1 } })).rejects.toThrow(
      /is no bridge/,
    );
    await expect(proveFiles(files, cuts, { ...job, bridges: { number: 0, width: WIDTH } })).rejects.toThrow(
      /is no bridge/,
    );
    await expect(proveFiles(files, cuts, { ...job, spacing: 60 })).rejects.toThrow(/mm apart instead of 60 mm/);
  }, 120_000);

  it('lie on none of a star that is all corners', () => {
    const points = Array.from({ length: 40 }, (_, k) => {
      const radius = k % 2 === 0 ? 12 : 9;
      return { x: radius * Math.cos((k * Math.PI) / 20), y: radius * Math.sin((k * Math.PI) / 20) };
    });
    const star: Contour = {
      start: points[0]!,
      segments: [...points.slice(1), points[0]!].map((to) => ({ kind: 'line', to })),
      closed: true,
    };
    expect(bridgesOf(star, [], { number: 4, width: 1 })).toEqual([]);
  });
});
