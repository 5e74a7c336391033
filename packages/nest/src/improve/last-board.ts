import type { Draft } from '../blf/bottom-left.ts';
import { type DrawnSide, pushTogether } from '../boards/push-together.ts';
import type { Prepared } from '../shape/prepare.ts';
import { engineTask } from './engine.ts';
import { emptiestBoard } from './refill.ts';
import { budgetOf, EVALUATIONS_PER_UNIT, type SearchTaskHooks, stepHooks } from './task-hooks.ts';

/** Less than this is not worth a step, mm: offcuts are counted in cells of this side. */
const LEAST_STEP_MM = 1;
const SIDES: readonly DrawnSide[] = ['maxX', 'maxY'];

/**
 * Push the pieces of the emptiest board together towards its left side, and as hard towards its upper one, so that the largest
 * rectangle stays free.
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
  const { input, incumbent, draftOf } = engineTask(prepared, { boards: [board], left: [] }, [], [], 0);
  if (incumbent === null) return 0;
  const onlyBoard = { ...input, boards: input.boards.slice(0, 1) };
  let spent = 0;
  SIDES.forEach((side, at) => {
    const evaluations = pushTogether(
      onlyBoard,
      incumbent,
      side,
      LEAST_STEP_MM,
      budgetOf((units - spent) / (SIDES.length - at), hooks),
      {
        ...stepHooks(`${seed}:last:${side}`, hooks),
        onBetter(spots) {
          const [tidied] = draftOf(spots).boards;
          take({ boards: draft.boards.map((b, index) => (index === last ? tidied! : b)), left: draft.left });
        },
      },
    );
    spent += evaluations / EVALUATIONS_PER_UNIT;
  });
  return spent;
}
