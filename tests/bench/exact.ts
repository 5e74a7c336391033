/**
 * Packings that are known to fill one board completely: how close each effort comes, and whether the independent check accepts
 * the known solution. Run: npx tsx tests/bench/exact.ts
 */
import { checkLayout } from '@underlap/nest/check/check-layout';
import { nest } from '@underlap/nest/nest';
import { nodePool } from '@underlap/nest/node-pool';
import type { Effort } from '@underlap/nest/problem';
import { cutUpBoard, pentominoes, squaredRectangle } from '../support/exact-packings.ts';

const PACKINGS = [
  squaredRectangle(),
  pentominoes(),
  pentominoes('quarter'),
  cutUpBoard('exact', 14),
  cutUpBoard('exact', 30),
];
const EFFORTS: readonly Effort[] = ['quick', 'normal', 60];

const pool = nodePool();
for (const packing of PACKINGS) {
  const board = packing.problem.stock[0]!;
  const known = checkLayout(packing.problem, {
    sheets: [
      {
        stockId: board.id,
        width: board.outline.outer[2]!,
        height: board.outline.outer[5]!,
        placements: packing.solution,
        windows: [],
        yield: 1,
        offcut: null,
      },
    ],
    unplaced: [],
    yield: 1,
  });
  console.log(`${packing.name} (${packing.source}): known solution ${known.ok ? 'accepted' : 'refused'}`);
  for (const effort of EFFORTS) {
    const began = performance.now();
    const { layout, lowerBound } = await nest(packing.problem, effort, { seed: 1, pool });
    const seconds = (performance.now() - began) / 1000;
    const fullest = Math.max(...layout.sheets.map((sheet) => sheet.yield));
    const verdict = checkLayout(packing.problem, layout).ok ? 'valid' : 'INVALID';
    console.log(
      `  effort ${String(effort).padEnd(8)} boards ${layout.sheets.length} (bound ${lowerBound.boards}, known 1)  fullest board ${(100 * fullest).toFixed(2)} %  ${seconds.toFixed(1)} s  ${verdict}`,
    );
  }
}
await pool.close();
