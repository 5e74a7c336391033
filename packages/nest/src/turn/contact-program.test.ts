import { describe, expect, it } from 'vitest';
import { solveContacts } from './contact-program.ts';
import { ContactRows, NO_BODY } from './contact-rows.ts';

/** A row of gaps along x: body a (and b, to its left, or the wall). */
function row(rows: ContactRows, a: number, b: number, gap: number, slopeA: number, far = 0): void {
  const at = 6 * rows.push(a, b, gap, far);
  rows.slope.fill(0, at, at + 6);
  rows.slope[at] = slopeA;
  if (b !== NO_BODY) rows.slope[at + 3] = -slopeA;
}

describe('solveContacts', () => {
  it('pushes a row of bodies together and the wall after them', () => {
    const rows = new ContactRows();
    row(rows, 0, NO_BODY, 0.3, 1);
    row(rows, 1, 0, 0.2, 1);
    row(rows, 1, NO_BODY, 0.1, -1, 1);
    const moves = new Float64Array(5);
    const column = Int32Array.of(0, 2);
    const mayTurn = new Uint8Array(2);
    solveContacts({ rows, column, mayTurn, columns: 5, lengthCost: 1, penalty: 20, reach: 1 }, moves);
    expect(moves[0]).toBeCloseTo(-0.3, 3);
    expect(moves[2]).toBeCloseTo(-0.5, 3);
    expect(moves[4]).toBeCloseTo(-0.6, 3);
  });

  it('opens an overlap and leaves no more closed than it must within its reach', () => {
    const rows = new ContactRows();
    row(rows, 0, NO_BODY, 0.05, 1);
    row(rows, 1, 0, -0.4, 1);
    const moves = new Float64Array(4);
    const column = Int32Array.of(0, 2);
    const program = { rows, column, mayTurn: new Uint8Array(2), columns: 4, lengthCost: 0, penalty: 20 };
    solveContacts({ ...program, reach: 1 }, moves);
    expect(moves[2]! - moves[0]!).toBeGreaterThan(0.399);
    // Within a reach of 0.1 body 0 can give way by 0.05 to the wall and body 1 by 0.1: 0.25 stay closed, here or at the wall.
    solveContacts({ ...program, reach: 0.1 }, moves);
    const closed = 0.4 - (moves[2]! - moves[0]!) + Math.max(0, -0.05 - moves[0]!);
    expect(closed).toBeCloseTo(0.25, 3);
  });
});
