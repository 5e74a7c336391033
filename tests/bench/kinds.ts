/**
 * npm run bench:kinds -- [--kinds 120] [--copies 291] [--units 4] [--seed day] [--corners 40-400] [--solid]
 *
 * A day of many shapes: outlines of icons, scaled, in four turns on boards of 508 x 305 mm. Prints the first layout and the last
 * with the work they took, how full the boards are against the plainest fill of the same run (every shape as its box), and a
 * checksum. Times are processor time of this process.
 */
import { createHash } from 'node:crypto';
import { parseArgs } from 'node:util';
import { regionBounds } from '@underlap/geometry/region';
import { checkLayout } from '@underlap/nest/check/check-layout';
import { nest } from '@underlap/nest/nest';
import type { Layout, NestProblem } from '@underlap/nest/problem';
import { iconKinds } from '../support/icon-kinds.ts';
import { boxRegion } from '../support/nest-problems.ts';
import { stopwatch } from './nest-instances.ts';

const { values: options } = parseArgs({
  options: {
    kinds: { type: 'string', default: '120' },
    copies: { type: 'string', default: '291' },
    units: { type: 'string', default: '4' },
    seed: { type: 'string', default: 'day' },
    corners: { type: 'string', default: '40-400' },
    solid: { type: 'boolean', default: false },
  },
});
const [fewest, most] = options.corners.split('-').map(Number);
const problem = iconKinds({
  seed: options.seed,
  kinds: Number(options.kinds),
  copies: Number(options.copies),
  corners: [fewest!, most!],
  sides: [15, 75],
  isSolid: options.solid,
});
const corners = problem.pieces.reduce((sum, piece) => sum + piece.region.outer.length / 2, 0) / problem.pieces.length;
console.log(`${options.kinds} kinds of ${corners.toFixed(0)} corners on average, ${options.copies} copies, four turns`);

const boxes = await nest(asBoxes(problem), 'quick', { seed: 1 });
const plainest = boxes.layout.sheets.length;
const watch = stopwatch('cpu');
const result = await nest(problem, Number(options.units), {
  seed: 1,
  onBest: ({ layout, workUnits }) => {
    row(`after ${workUnits} units`, layout, watch());
  },
});
const seconds = watch();
row('end', result.layout, seconds);
console.log(`boards against boxes ${result.layout.sheets.length} / ${plainest}, bound ${result.lowerBound.boards}`);
console.log(`${(result.workUnits / seconds).toFixed(3)} million evaluations for each second of the processor`);
const verdict = checkLayout(problem, result.layout);
console.log(`${verdict.ok ? 'valid' : 'WRONG'} ${checksumOf(result.layout)}`);
if (!verdict.ok) process.exitCode = 1;

function row(name: string, layout: Layout, at: number): void {
  const full = layout.sheets.map((sheet) => `${(100 * sheet.yield).toFixed(1)}`).join(' ');
  console.log(`${name.padEnd(18)} ${at.toFixed(1).padStart(6)} s  ${layout.sheets.length} boards, used in %: ${full}`);
}

function asBoxes(of: NestProblem): NestProblem {
  const pieces = of.pieces.map((piece) => {
    const { minX, minY, maxX, maxY } = regionBounds(piece.region);
    return { ...piece, region: boxRegion(maxX - minX, maxY - minY, minX, minY) };
  });
  return { ...of, pieces };
}

function checksumOf(layout: Layout): string {
  const hash = createHash('sha256');
  for (const sheet of layout.sheets) {
    for (const { pieceId, copy, x, y, turnDeg } of sheet.placements) {
      hash.update(`${pieceId} ${copy} ${x.toFixed(5)} ${y.toFixed(5)} ${turnDeg};`);
    }
  }
  return hash.digest('hex').slice(0, 12);
}
