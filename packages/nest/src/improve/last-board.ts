import { placementMatrix } from '@underlap/geometry/matrix';
import { transformRegion } from '@underlap/geometry/transform-region';
import type { Draft } from '../blf/bottom-left.ts';
import { packStrip } from '../search/strip.ts';
import type { Prepared } from '../shape/prepare.ts';
import { engineTask } from './engine.ts';
import { emptiestBoard } from './refill.ts';
import { EVALUATIONS_PER_UNIT, type SearchTaskHooks } from './task-hooks.ts';

/**
 * Push the pieces of the emptiest board together towards its left side, so that the largest rectangle stays free.
 * @param units - budget; nothing is done below a hundredth of a unit, with pins or a bed smaller than the board.
 * @returns units spent.
 */
export function tidyLastBoard(
  prepared: Prepared,
  draft: Draft,
  pins: Draft['boards'],
  units: number,
  seed: string,
  take: (draft: Draft) => boolean,
  hooks: SearchTaskHooks,
): number {
  const last = emptiestBoard(prepared, draft, pins);
  if (last < 0 || units < 0.01) return 0;
  const board = draft.boards[last]!;
  if (board.stock.windows.length > 1 || prepared.problem.rules.then !== 'largest-offcut') return 0;
  const alone = { boards: [board], left: [] };
  const engine = engineTask(prepared, alone, [], [], 0);
  const { margin } = prepared.problem.rules;
  const merge = (spots: Parameters<typeof engine.draftOf>[0]): Draft => {
    const shifted = spots.map((spot) => ({ ...spot, board: 0, x: spot.x + margin, y: spot.y + margin }));
    const tidied = engine.draftOf(shifted).boards[0]!;
    return { boards: draft.boards.map((b, index) => (index === last ? tidied : b)), left: draft.left };
  };
  const room = board.stock.width - 2 * margin;
  const result = packStrip(
    {
      forms: engine.input.forms,
      items: engine.input.items,
      spacing: engine.input.spacing,
      tolerance: engine.input.tolerance,
      height: board.stock.height - 2 * margin,
      obstacles: engine.input.boards[0]!.obstacles.map(({ region, clearance }) => ({
        region: transformRegion(region, placementMatrix(-margin, -margin, 0)),
        clearance,
      })),
    },
    { evaluations: units * EVALUATIONS_PER_UNIT, ...(hooks.timeSpent ? { timeSpent: hooks.timeSpent } : {}) },
    {
      seed: `${seed}:last`,
      ...(hooks.signal ? { signal: hooks.signal } : {}),
      ...(hooks.noFits ? { noFits: hooks.noFits } : {}),
      onBetter: (spots, length) => {
        if (length <= room) take(merge(spots));
      },
    },
    engine.incumbent?.map((spot) => ({ ...spot, x: spot.x - margin, y: spot.y - margin })) ?? null,
  );
  if (result.length <= room && result.spots.length > 0) take(merge(result.spots));
  return result.evaluations / EVALUATIONS_PER_UNIT;
}
