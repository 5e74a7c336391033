/**
 * How nesting grows with the number of pieces: time to the first valid layout, search speed, check time, memory, and the
 * exponents of a power law through them. Run: npx tsx tests/bench/growth.ts [--kinds 20] [--turns half] [--units 8]
 */
import { parseArgs } from 'node:util';
import { checkLayout } from '@underlap/nest/check/check-layout';
import { nest } from '@underlap/nest/nest';
import type { TurnRule } from '@underlap/nest/problem';
import { wavyProblem } from '../support/nest-problems.ts';

const { values } = parseArgs({
  options: {
    kinds: { type: 'string', default: '20' },
    turns: { type: 'string', default: 'half' },
    units: { type: 'string', default: '8' },
  },
});
const SIZES = [50, 200, 800, 2000];
const kinds = Number(values.kinds);
const turns = values.turns as TurnRule;
const units = Number(values.units);

interface Row {
  readonly pieces: number;
  readonly firstSeconds: number;
  readonly boards: number;
  readonly checkSeconds: number;
  readonly unitsPerSecond: number;
  readonly checksum: string;
}

const cpuSeconds = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
};

// once for the compiler, so that the first row is not its warm-up
await nest(wavyProblem('warm', kinds, 50, turns), 'quick', { seed: 1 });

const rows: Row[] = [];
for (const pieces of SIZES) {
  const problem = wavyProblem('growth', Math.min(kinds, pieces), pieces, turns);
  const began = cpuSeconds();
  let first = 0;
  const quick = await nest(problem, 'quick', {
    seed: 1,
    onBest: () => {
      first ||= cpuSeconds() - began;
    },
  });
  const checked = cpuSeconds();
  const verdict = checkLayout(problem, quick.layout);
  const checkSeconds = cpuSeconds() - checked;
  if (!verdict.ok) throw new Error(`an invalid layout of ${pieces} pieces: ${verdict.violations[0]?.message}`);
  const searched = cpuSeconds();
  const search = await nest(problem, units, { seed: 1, start: quick.layout });
  const sum = quick.layout.sheets
    .flatMap((sheet) => sheet.placements)
    .reduce((s, p, i) => s + (p.x * 3 + p.y * 7 + p.turnDeg) * (1 + (i % 13)), 0);
  const row = {
    pieces,
    firstSeconds: first,
    boards: quick.layout.sheets.length,
    checkSeconds,
    unitsPerSecond: search.workUnits / (cpuSeconds() - searched),
    checksum: sum.toFixed(3),
  };
  rows.push(row);
  const memory = process.memoryUsage().rss / 1e6;
  console.log(
    `${String(pieces).padStart(5)} pieces  first valid ${row.firstSeconds.toFixed(2)} s  ${row.boards} boards  check ${row.checkSeconds.toFixed(2)} s  search ${row.unitsPerSecond.toFixed(2)} units/s  memory ${memory.toFixed(0)} MB  checksum ${row.checksum}`,
  );
}
const exponent = (value: (row: Row) => number) => {
  const points = rows.map((row) => [Math.log(row.pieces), Math.log(value(row))] as const);
  const mx = points.reduce((sum, [x]) => sum + x, 0) / points.length;
  const my = points.reduce((sum, [, y]) => sum + y, 0) / points.length;
  return (
    points.reduce((sum, [x, y]) => sum + (x - mx) * (y - my), 0) / points.reduce((sum, [x]) => sum + (x - mx) ** 2, 0)
  );
};
console.log(
  `growth exponents (processor time): first valid ${exponent((row) => row.firstSeconds).toFixed(2)}, check ${exponent((row) => row.checkSeconds).toFixed(2)}; a unit is 10^6 part-position evaluations`,
);
