/**
 * npm run bench:boards -- --data DIR [--seconds 10] [--classes A,B] [--limit N] [--seed 1] [--clock wall|cpu] [--json FILE]
 *
 * Runs the board instances of the open sets: as few boards as possible, then the independent check. `--classes` takes class
 * letters, for both sets; `--limit` takes the first N instances of each class.
 */
import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { packBoards } from '@underlap/nest/boards/pack-boards';
import { boardBound } from '@underlap/nest/bounds/board-bound';
import { prepareProblem } from '@underlap/nest/shape/prepare';
import {
  type BoardInstance,
  checksum,
  readFolder,
  SEARCH_TOUCHING,
  searchItems,
  stopwatch,
  TOUCHING,
  verdictOn,
} from './nest-instances.ts';

const { values: options } = parseArgs({
  options: {
    data: { type: 'string' },
    seconds: { type: 'string', default: '10' },
    classes: { type: 'string' },
    limit: { type: 'string' },
    seed: { type: 'string', default: '1' },
    clock: { type: 'string', default: 'wall' },
    json: { type: 'string' },
  },
});
const folder = options.data ?? process.env.UNDERLAP_BOARD_DATA;
const files = readFolder(folder);
if (files === null || files.length === 0) {
  console.error(`No instances found in ${folder ?? '(no folder given)'}. Say where they are with --data DIR.`);
  process.exit(1);
}
const seconds = Number(options.seconds);
const clock = options.clock === 'cpu' ? 'cpu' : 'wall';
const classes = options.classes?.split(',').map((name) => name.trim().toUpperCase());
const limit = options.limit === undefined ? Number.POSITIVE_INFINITY : Number(options.limit);

console.log(`Boards: ${seconds} s (${clock} clock) each, one thread, seed ${options.seed}.`);
console.log(`Touching: penetration of at most ${TOUCHING} of the board's side passes the check.`);
console.log('A search ends before its time when it meets the area bound.\n');
console.log('set           instance        boards optimal bound seconds valid checksum');

interface Row {
  readonly set: string;
  readonly name: string;
  readonly boards: number;
  readonly optimal: number | null;
  readonly lowerBound: number;
  readonly seconds: number;
  readonly evaluations: number;
  readonly valid: boolean;
  readonly checksum: string;
}
const rows: Row[] = [];
for (const file of files) {
  const content = JSON.parse(file.text) as { class: string; instances: BoardInstance[] };
  if (classes !== undefined && !classes.includes(content.class.toUpperCase())) continue;
  for (const instance of content.instances.slice(0, limit)) rows.push(run(file.name, instance));
}
report(rows);
if (options.json !== undefined)
  writeFileSync(options.json, `${JSON.stringify({ seconds, clock, instances: rows }, null, 2)}\n`);
if (rows.some((row) => !row.valid)) process.exitCode = 1;

function run(set: string, instance: BoardInstance): Row {
  const { boardWidth: width, boardHeight: height } = instance;
  const { forms, items } = searchItems(instance.parts);
  const board = { minX: 0, minY: 0, maxX: width, maxY: height, obstacles: [], price: 1 };
  const boards = Array.from({ length: Math.min(items.length, 2 * instance.areaLowerBound + 6) }, () => board);
  const watch = stopwatch(clock);
  const result = packBoards(
    {
      forms,
      items,
      boards,
      spacing: 0,
      tolerance: SEARCH_TOUCHING * Math.min(width, height),
      priceBound: Math.ceil(instance.totalPartArea / (width * height) - 1e-9),
    },
    null,
    { evaluations: Number.MAX_SAFE_INTEGER, timeSpent: () => watch() / seconds },
    { seed: options.seed },
  );
  const taken = watch();
  const spots = result.spots ?? [];
  const { verdict, problem } = verdictOn(instance.parts, spots, width, height);
  const bound = boardBound(prepareProblem(problem)).boards;
  const row: Row = {
    set,
    name: instance.name,
    boards: result.spots === null ? Number.NaN : result.boardsUsed,
    optimal: instance.optimalBoards,
    lowerBound: bound,
    seconds: Math.round(taken * 100) / 100,
    evaluations: result.evaluations,
    valid: result.spots !== null && verdict.ok,
    checksum: checksum(spots, TOUCHING * width),
  };
  console.log(
    `${set.padEnd(13)} ${row.name.padEnd(16)} ${String(row.boards).padStart(5)} ${String(row.optimal ?? '?').padStart(7)} ` +
      `${String(bound).padStart(5)} ${taken.toFixed(2).padStart(7)} ${row.valid ? 'valid' : 'WRONG'} ${row.checksum}`,
  );
  if (!verdict.ok) for (const violation of verdict.violations.slice(0, 3)) console.log(`    ${violation.message}`);
  return row;
}

function report(all: readonly Row[]): void {
  const known = all.filter((row) => row.optimal !== null);
  const sum = (list: readonly Row[], of: (row: Row) => number) => list.reduce((total, row) => total + of(row), 0);
  const used = sum(known, (row) => row.boards);
  const best = sum(known, (row) => row.optimal!);
  const near = known.filter((row) => row.boards <= row.optimal! + 1).length;
  const exact = known.filter((row) => row.boards === row.optimal).length;
  console.log(
    `\n${all.length} instances, ${known.length} with known optimum: ${used} boards for ${best} (ratio ${(used / best).toFixed(4)})`,
  );
  console.log(
    `optimum reached in ${exact}, optimum + 1 or better in ${near} (${((100 * near) / known.length).toFixed(1)} %)`,
  );
  const above = known.filter((row) => row.lowerBound > row.optimal!);
  console.log(
    `lower bounds above a known optimum: ${above.length}; layouts refused by the check: ${all.filter((row) => !row.valid).length}`,
  );
}
