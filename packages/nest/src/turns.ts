import type { NestPiece, TurnRule } from './problem.ts';

/** How far a turn may be from one that the rule names and still count as it, degrees: rounding of written files. */
const TURN_TOLERANCE_DEG = 1e-6;

/** Steps that stand for free rotation where a list of turns is needed, degrees. */
export const FREE_TURN_STEP_DEG = 15;

/** What decides on the turns of a piece. */
export type Turning = Pick<NestPiece, 'turns' | 'baseTurnDeg' | 'keepsGrain'>;

/** A turn of the rule as a turn of the piece's own frame, degrees in [0, 360): turned over, the base turn counts backwards. */
export function ownTurn({ baseTurnDeg }: Pick<Turning, 'baseTurnDeg'>, byRuleDeg: number, mirrored: boolean): number {
  const turn = mirrored ? byRuleDeg - baseTurnDeg : byRuleDeg + baseTurnDeg;
  return ((turn % 360) + 360) % 360;
}

/** The way back: a turn of the own frame as counted from the base turn, degrees in [0, 360). */
export function turnByRule({ baseTurnDeg }: Pick<Turning, 'baseTurnDeg'>, turnDeg: number, mirrored: boolean): number {
  return ownTurn({ baseTurnDeg: -baseTurnDeg }, turnDeg, mirrored);
}

/**
 * The turns that a piece may take on a board, degrees of its own frame in [0, 360), in the order of the rule.
 * @param freeStepDeg - what to step 'any' by; the result is then a sample of what is allowed, not all of it.
 * @returns at least one turn, unless the grain forbids every turn of the rule.
 */
export function turnsOf(
  piece: Turning,
  boardHasGrain: boolean,
  mirrored = false,
  freeStepDeg = FREE_TURN_STEP_DEG,
): number[] {
  const turns = listedTurns(piece.turns, freeStepDeg).map((turn) => ownTurn(piece, turn, mirrored));
  return piece.keepsGrain && boardHasGrain ? turns.filter((turn) => isMultiple(turn, 180)) : turns;
}

/** Is a turn of the own frame one that the piece's rule and the board's grain allow? */
export function isTurnAllowed(piece: Turning, boardHasGrain: boolean, turnDeg: number, mirrored = false): boolean {
  if (!Number.isFinite(turnDeg)) return false;
  if (piece.keepsGrain && boardHasGrain && !isMultiple(turnDeg, 180)) return false;
  return isMultiple(turnByRule(piece, turnDeg, mirrored), stepOf(piece.turns));
}

/** Does a piece lie at a right angle to its base turn? */
export function isSquare(piece: Pick<Turning, 'baseTurnDeg'>, turnDeg: number, mirrored: boolean): boolean {
  return isMultiple(turnByRule(piece, turnDeg, mirrored), 90);
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
