import type { NestPart, TurnRule } from './problem.ts';

/** How far a turn may be from one that the rule names and still count as it, degrees: rounding of written files. */
const TURN_TOLERANCE_DEG = 1e-6;

/** Steps that stand for free rotation where a list of turns is needed, degrees. */
export const FREE_TURN_STEP_DEG = 15;

/**
 * The turns that a piece may take on a board, degrees in [0, 360), ascending.
 * @param freeStepDeg - what to step 'any' by; the result is then a sample of what is allowed, not all of it.
 * @returns at least one turn, unless the grain forbids every turn of the rule (a rule of 90-degree steps always has 0).
 */
export function turnsOf(
  part: Pick<NestPart, 'turns' | 'keepsGrain'>,
  boardHasGrain: boolean,
  freeStepDeg = FREE_TURN_STEP_DEG,
): number[] {
  const turns = listedTurns(part.turns, freeStepDeg);
  return part.keepsGrain && boardHasGrain ? turns.filter((turn) => turn === 0 || turn === 180) : turns;
}

/** Is a turn one that the part's rule and the board's grain allow? */
export function isTurnAllowed(
  part: Pick<NestPart, 'turns' | 'keepsGrain'>,
  boardHasGrain: boolean,
  turnDeg: number,
): boolean {
  if (!Number.isFinite(turnDeg)) return false;
  if (part.keepsGrain && boardHasGrain && !isMultiple(turnDeg, 180)) return false;
  return isMultiple(turnDeg, stepOf(part.turns));
}

/** Step of a rule in degrees: 360 for 'fixed', 0 for 'any'. */
function stepOf(rule: TurnRule): number {
  switch (rule) {
    case 'fixed':
      return 360;
    case 'half':
      return 180;
    case 'quarter':
      return 90;
    case 'any':
      return 0;
    default:
      return rule.stepDeg;
  }
}

function listedTurns(rule: TurnRule, freeStepDeg: number): number[] {
  const step = rule === 'any' ? freeStepDeg : stepOf(rule);
  const turns: number[] = [];
  // a step that does not divide 360 goes on around the circle until it closes or 360 turns are listed
  for (let k = 0; k < 360; k++) {
    const turn = (k * step) % 360;
    if (k > 0 && turns.some((known) => Math.abs(known - turn) < TURN_TOLERANCE_DEG)) break;
    turns.push(turn);
  }
  return turns.sort((a, b) => a - b);
}

function isMultiple(turnDeg: number, step: number): boolean {
  if (step === 0) return true;
  if (360 % step !== 0) {
    return listedTurns({ stepDeg: step }, step).some((turn) => isMultiple(turnDeg - turn, 360));
  }
  const rest = ((turnDeg % step) + step) % step;
  return rest <= TURN_TOLERANCE_DEG || step - rest <= TURN_TOLERANCE_DEG;
}
