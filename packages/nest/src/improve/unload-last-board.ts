import type { Draft } from '../blf/bottom-left.ts';
import { unloadBoard } from '../boards/unload.ts';
import type { Prepared } from '../shape/prepare.ts';
import { engineTask } from './engine.ts';
import { emptiestBoard } from './refill.ts';
import { budgetOf, EVALUATIONS_PER_UNIT, type SearchTaskHooks, stepHooks } from './task-hooks.ts';

/**
 * Move pieces of the emptiest board onto the others by search, so that little or nothing stays there.
 * @param units - budget; nothing is done below a hundredth of a unit, nor with a bed smaller than a board.
 * @returns a valid draft with the same pieces, and the units spent. It may lie looser on the last board than the draft given.
 */
export function unloadLastBoard(
  prepared: Prepared,
  draft: Draft,
  pins: Draft['boards'],
  units: number,
  seed: string,
  hooks: SearchTaskHooks,
): { readonly draft: Draft; readonly units: number } {
  const last = emptiestBoard(prepared, draft, pins);
  const isWhole = draft.boards.every((board) => board.stock.windows.length === 1);
  if (last < 0 || draft.boards.length < 2 || units < 0.01 || !isWhole) return { draft, units: 0 };
  const engine = engineTask(prepared, draft, pins, [], 0);
  if (engine.incumbent === null) return { draft, units: 0 };
  const { spots, moved, evaluations } = unloadBoard(
    engine.input,
    engine.incumbent,
    last,
    budgetOf(units, hooks),
    stepHooks(`${seed}:unload`, hooks),
  );
  const spent = evaluations / EVALUATIONS_PER_UNIT;
  return { draft: moved === 0 ? draft : { ...engine.draftOf(spots), left: draft.left }, units: spent };
}
