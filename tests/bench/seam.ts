import { createHash } from 'node:crypto';
import type { Segment } from '@underlap/geometry/curve';
import { contourToPathData } from '@underlap/geometry/path-data';
import { planSeams } from '@underlap/seam/plan-seams';
import { provePlan } from '@underlap/seam/proof';
import type { SeamTask, SplitPlan } from '@underlap/seam/task';
import { circle, polygon, randomTask, rectangle, shapeOf, slot, taskOf } from '../../packages/seam/testing/fixtures.ts';

// Thirty fixed designs: pieces, visible length, hidden share, knobs, least neck, time, checksum; then time against size and pieces.
//
//   npx tsx tests/bench/seam.ts [--only NAME] [--json FILE]

const option = (name: string) => {
  const at = process.argv.indexOf(`--${name}`);
  return at < 0 ? null : (process.argv[at + 1] ?? null);
};

interface Row {
  readonly name: string;
  readonly pieces: number;
  readonly bound: number;
  readonly visibleMm: number;
  readonly hiddenShare: number;
  readonly knobs: number;
  readonly neckMm: number;
  readonly cpuMs: number;
  readonly faults: number;
  readonly checksum: string;
}

const rows: Row[] = [];

/** A free-form backer of about 560 x 410 mm with 4 holes, 2 slots, a banner and motifs: what the first prototypes were measured on. */
function testSign(bed: readonly [number, number]): SeamTask {
  const curve = (c1x: number, c1y: number, c2x: number, c2y: number, x: number, y: number): Segment => ({
    kind: 'cubic',
    c1: { x: c1x, y: c1y },
    c2: { x: c2x, y: c2y },
    to: { x, y },
  });
  const outline = {
    start: { x: 0, y: 205 },
    segments: [
      curve(0, 110, 40, 60, 120, 50),
      curve(180, 42, 220, 0, 280, 0),
      curve(340, 0, 380, 42, 440, 50),
      curve(520, 60, 560, 110, 560, 205),
      curve(560, 300, 520, 350, 440, 360),
      curve(380, 368, 340, 410, 280, 410),
      curve(220, 410, 180, 368, 120, 360),
      curve(40, 350, 0, 300, 0, 205),
    ],
    closed: true,
  };
  const holes = [
    circle(60, 120, 3),
    circle(500, 120, 3),
    circle(60, 290, 3),
    circle(500, 290, 3),
    slot(230, 30, 30, 8),
    slot(330, 30, 30, 8),
  ];
  const banner = polygon([
    { x: -10, y: 175 },
    { x: 280, y: 160 },
    { x: 570, y: 175 },
    { x: 570, y: 240 },
    { x: 280, y: 225 },
    { x: -10, y: 240 },
  ]);
  const motifs = [
    circle(280, 110, 48),
    rectangle(240, 240, 80, 120),
    circle(140, 120, 40),
    circle(420, 120, 40),
    circle(430, 300, 35),
  ];
  return taskOf(shapeOf(outline, holes), [banner, ...motifs], bed, { id: 'test-sign' });
}

async function run(name: string, task: SeamTask): Promise<Row | null> {
  const before = process.cpuUsage();
  const outcome = await planSeams(task, { seed: 1 });
  const { user, system } = process.cpuUsage(before);
  const cpuMs = Math.round((user + system) / 1000);
  if (outcome.kind !== 'split') {
    console.log(`${name.padEnd(16)} ${outcome.kind === 'cannot' ? outcome.why.message : 'fits as it is'}`);
    return null;
  }
  const row = rowOf(name, task, outcome.plans[0]!, outcome.piecesLowerBound, cpuMs);
  print(row);
  // A piece more that hides much: the other floor of the comparison.
  const more = outcome.plans.find((plan) => plan.merits.includes('most-hidden'));
  if (more !== undefined && more.pieces.length > row.pieces)
    print(rowOf('  or', task, more, outcome.piecesLowerBound, 0));
  return row;
}

function rowOf(name: string, task: SeamTask, plan: SplitPlan, bound: number, cpuMs: number): Row {
  const length = plan.seams.reduce((sum, seam) => sum + seam.lengthMm, 0);
  const text = plan.pieces.map((piece) => contourToPathData(piece.shape.outer, 3)).join('\n');
  return {
    name,
    pieces: plan.pieces.length,
    bound,
    visibleMm: plan.visibleLengthMm,
    hiddenShare: 1 - plan.visibleLengthMm / length,
    knobs: plan.seams.reduce((sum, seam) => sum + seam.knobs.length, 0),
    neckMm: plan.leastNeckMm,
    cpuMs,
    faults: provePlan(task, plan).length,
    checksum: createHash('sha256').update(text).digest('hex').slice(0, 8),
  };
}

function print(row: Row): void {
  console.log(
    `${row.name.padEnd(16)} ${String(row.pieces).padStart(6)} ${String(row.bound).padStart(5)} ${row.visibleMm.toFixed(1).padStart(9)} ` +
      `${row.hiddenShare.toFixed(3).padStart(7)} ${String(row.knobs).padStart(6)} ${row.neckMm.toFixed(2).padStart(6)} ` +
      `${String(row.cpuMs).padStart(7)} ${String(row.faults).padStart(6)}  ${row.checksum}`,
  );
}

/** Random designs that fit as they are do not count. */
const DESIGNS = 30;

const designs: [string, SeamTask][] = [
  ['sign on 400', testSign([400, 400])],
  ['sign on 520', testSign([520, 320])],
  ['sign on 300', testSign([300, 200])],
  ['plain backer', taskOf(shapeOf(rectangle(0, 0, 480, 410)), [rectangle(-10, 170, 500, 60)], [520, 320])],
  ['round', taskOf(shapeOf(circle(0, 0, 203)), [rectangle(-220, -30, 440, 60)], [520, 320])],
  ...Array.from({ length: 40 }, (_, k): [string, SeamTask] => [`random ${k + 1}`, randomTask(`bench ${k + 1}`)]),
];

console.log('name             pieces bound visibleMm  hidden  knobs   neck  cpu ms faults  checksum');
const only = option('only');
for (const [name, task] of designs) {
  if ((only !== null && !name.includes(only)) || rows.length === DESIGNS) continue;
  const row = await run(name, task);
  if (row !== null) rows.push(row);
}
const sum = (of: (row: Row) => number) => rows.reduce((total, row) => total + of(row), 0);
console.log(
  `\n${rows.length} splits: ${sum((row) => row.pieces)} pieces (bounds ${sum((row) => row.bound)}), ` +
    `${sum((row) => row.visibleMm).toFixed(0)} mm visible, ${sum((row) => row.knobs)} knobs, ` +
    `${(sum((row) => row.cpuMs) / rows.length).toFixed(0)} ms of processor time each, ${sum((row) => row.faults)} faults`,
);

if (only === null) {
  console.log('\nTime against size and pieces (bare rectangles; ratio to the row above)');
  console.log('part mm       bed mm      pieces  cpu ms  ms/piece  ratio');
  let last = 0;
  for (const [width, height, bedWidth, bedHeight] of [
    [480, 410, 520, 320],
    [600, 400, 300, 200],
    [900, 600, 300, 200],
    [1200, 800, 300, 200],
  ] as const) {
    const task = taskOf(shapeOf(rectangle(0, 0, width, height)), [], [bedWidth, bedHeight]);
    const before = process.cpuUsage();
    const outcome = await planSeams(task, { seed: 1 });
    const { user, system } = process.cpuUsage(before);
    const ms = (user + system) / 1000;
    const pieces = outcome.kind === 'split' ? outcome.plans[0]!.pieces.length : 0;
    console.log(
      `${`${width} x ${height}`.padEnd(13)} ${`${bedWidth} x ${bedHeight}`.padEnd(11)} ${String(pieces).padStart(6)} ` +
        `${ms.toFixed(0).padStart(7)} ${(ms / Math.max(1, pieces)).toFixed(0).padStart(9)} ${last > 0 ? (ms / last).toFixed(2).padStart(6) : ''}`,
    );
    last = ms;
  }
}
const file = option('json');
if (file !== null) {
  const { writeFileSync } = await import('node:fs');
  writeFileSync(file, `${JSON.stringify({ designs: rows }, null, 2)}\n`);
}
