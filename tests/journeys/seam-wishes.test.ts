import { jobFrom } from '@underlap/job/parse-job';
import { planJob } from '@underlap/job/plan-job';
import SnapIfNeededOverlayOp from 'jsts/org/locationtech/jts/operation/overlay/snap/SnapIfNeededOverlayOp.js';
import { expect, test } from 'vitest';
import { geometryOf } from '../support/recheck-sheets.ts';
import { splitFaults } from './random-signs.ts';

/** A plate of 460 x 300 mm, a banner across it, and a sail; small enough to be planned quickly. */
const SIGN = `<svg xmlns="http://www.w3.org/2000/svg" width="480mm" height="320mm" viewBox="0 0 480 320">
<rect id="plate" x="10" y="10" width="460" height="300" fill="#7fb2c8"/>
<rect id="banner" x="60" y="140" width="360" height="60" fill="#23395b"/>
<path id="sail" fill="#c8452f" d="M210 30L290 120L210 120Z"/>
</svg>
`;

const MACHINE = {
  bed: { width: 480, height: 210 },
  boards: [{ width: 480, height: 320 }],
  thickness: 6,
  kerf: 0.2,
  spacing: 2,
  margin: 2,
  batch: 1,
  effort: 'quick',
  seed: 1,
};

async function reportOf(change: Record<string, unknown>) {
  const job = jobFrom({ artwork: { text: SIGN, name: 'wishes' }, ...MACHINE, ...change }, 'wishes');
  const { report } = await planJob(job);
  expect(report.notFitting).toEqual([]);
  expect(report.check.piecesPlaced).toBe(report.check.piecesExpected);
  expect(splitFaults(report)).toEqual([]);
  // Equal areas, no overlap, and nothing outside: together the pieces are the part.
  const part = report.parts.find((candidate) => candidate.id === 'plate')!;
  const whole = geometryOf(part.outline, part.holes);
  for (const piece of report.pieces.filter((candidate) => candidate.part === 'plate')) {
    const shape = geometryOf(piece.outline, piece.holes);
    const inside = SnapIfNeededOverlayOp.intersection(shape, whole).getArea();
    expect(Math.abs(inside - shape.getArea())).toBeLessThan(0.5);
  }
  return report;
}

type Report = Awaited<ReturnType<typeof reportOf>>;

let plain: Promise<Report> | null = null;

/** The sign without any wish: the twin that each wish is compared with. */
function plainReport(): Promise<Report> {
  plain ??= reportOf({});
  return plain;
}

const plateOf = (report: Report) => report.splits.find((split) => split.part === 'plate')!;
const seamsOf = (report: Report) => report.seams.filter((seam) => seam.part === 'plate');

/** Least distance from a point to a seam, on chords of its path as the report tells it. */
function distanceTo(report: Report, x: number, y: number): number {
  const size = 0.001;
  const spot = geometryOf(`M${x} ${y}h${size}v${size}h${-size}Z`, []);
  const sides = report.pieces.filter((piece) => piece.part === 'plate').map((piece) => geometryOf(piece.outline, []));
  // The second nearest piece touches the seam: the first one holds the point.
  return sides.map((side) => side.distance(spot)).sort((a, b) => a - b)[1]!;
}

test('rear plates are parts to cut, and find a place on the boards', async () => {
  const without = await plainReport();
  const withPlates = await reportOf({ seams: { plates: true } });
  const names = withPlates.sheets.flatMap((sheet) => sheet.placements.map((placement) => placement.id));
  const plates = names.filter((name) => name.includes('plate-plate-'));
  expect(plates.length).toBeGreaterThan(0);
  expect(withPlates.check.piecesExpected).toBe(without.check.piecesExpected + plates.length);
});

test('a machine that passes material through takes pieces longer than its bed', async () => {
  const bed = { width: 210, height: 170, passThrough: 'width' };
  const boards = [{ width: 480, height: 170 }];
  const report = await reportOf({ bed, boards });
  const longest = (outline: string) => {
    const numbers = outline.match(/-?\d+(\.\d+)?/g)!.map(Number);
    return Math.max(...numbers) - Math.min(...numbers);
  };
  expect(plateOf(report).pieces).toBe(2);
  const pieces = report.pieces.filter((piece) => piece.part === 'plate');
  expect(Math.max(...pieces.map((piece) => longest(piece.outline)))).toBeGreaterThan(bed.width);
  const short = await reportOf({ bed: { ...bed, passLength: 300 }, boards: [{ width: 300, height: 170 }] });
  expect(plateOf(short).pieces).toBeGreaterThan(2);
});

test('a pinned seam stays where it was pinned', async () => {
  const pin = { x: 240, y: 120 };
  const report = await reportOf({ seams: { pins: [pin] } });
  expect(distanceTo(report, pin.x, pin.y)).toBeLessThan(5);
  // The twin without a pin takes the way below the banner.
  expect(distanceTo(await plainReport(), pin.x, pin.y)).toBeGreaterThan(5);
});

test('a forbidden zone is not crossed, and the plan without it crosses it', async () => {
  const zone = 'M200 130H280V210H200Z';
  const area = geometryOf(zone, []);
  const crossed = (report: Report) =>
    report.pieces.filter(
      (piece) =>
        piece.part === 'plate' &&
        SnapIfNeededOverlayOp.intersection(geometryOf(piece.outline, piece.holes), area).getArea() > 1,
    ).length;
  expect(crossed(await plainReport())).toBe(2);
  expect(crossed(await reportOf({ seams: { forbidden: [zone] } }))).toBe(1);
});

test('one piece more is one piece more', async () => {
  const fewest = plateOf(await plainReport()).pieces;
  const report = await reportOf({ seams: { morePieces: 1 } });
  expect(plateOf(report).pieces).toBe(fewest + 1);
  expect(seamsOf(report).every((seam) => seam.knobs > 0)).toBe(true);
});
