import { type CopyRef, copyName } from '../copy.ts';
import type { Layout, NestPiece, NestProblem, Placement, Violation } from '../problem.ts';
import { CHECK_TOLERANCE_MM, told } from './tolerance.ts';

/** How far a turn may be from an allowed one, degrees: rounding of written files. */
const TURN_TOLERANCE_DEG = 1e-6;

/** Everything about a layout that can be counted: pieces, turns, mirrors, groups, stock, pins. */
export function checkAccount(problem: NestProblem, layout: Layout): Violation[] {
  return [
    ...checkPieces(problem, layout),
    ...checkAttitudes(problem, layout),
    ...checkGroups(problem, layout),
    ...checkStock(problem, layout),
    ...checkPins(problem, layout),
  ];
}

function fault(kind: Violation['kind'], message: string, at: Partial<Violation> = {}): Violation {
  return { kind, copies: [], sheet: 0, x: 0, y: 0, amountMm: 0, ...at, message };
}

function checkPieces(problem: NestProblem, layout: Layout): Violation[] {
  const violations: Violation[] = [];
  const wanted = new Map<string, CopyRef>();
  for (const { id: pieceId, quantity } of problem.pieces) {
    for (let copy = 1; copy <= quantity; copy++) wanted.set(copyName({ pieceId, copy }), { pieceId, copy });
  }
  const seen = new Set<string>();
  layout.sheets.forEach((sheet, index) => {
    for (const p of sheet.placements) {
      const name = copyName(p);
      const at = { copies: [copyOf(p)], sheet: index, x: p.x, y: p.y };
      if (!wanted.has(name)) {
        violations.push(fault('extra', `${name} on sheet ${index + 1} is no copy that this job asks for`, at));
      } else if (seen.has(name)) {
        violations.push(fault('extra', `${name} is placed a second time on sheet ${index + 1}`, at));
      }
      if (![p.x, p.y, p.turnDeg].every(Number.isFinite)) {
        violations.push(
          fault('outside', `${name} on sheet ${index + 1} has a place that is not a number`, {
            ...at,
            x: 0,
            y: 0,
          }),
        );
      }
      seen.add(name);
    }
  });
  for (const entry of layout.unplaced) {
    const name = copyName(entry);
    const at = { copies: [copyOf(entry)] };
    if (seen.has(name)) violations.push(fault('extra', `${name} is placed and also listed as unplaced`, at));
    else if (!wanted.has(name))
      violations.push(fault('extra', `${name} is listed as unplaced but is no copy of this job`, at));
    seen.add(name);
  }
  for (const [name, copy] of wanted) {
    if (!seen.has(name)) violations.push(fault('missing', `${name} is on no sheet`, { copies: [copy] }));
  }
  return violations;
}

function checkAttitudes(problem: NestProblem, layout: Layout): Violation[] {
  const violations: Violation[] = [];
  const pieces = new Map(problem.pieces.map((piece) => [piece.id, piece]));
  const grained = new Set(problem.stock.filter((stock) => stock.hasGrain).map((stock) => stock.id));
  layout.sheets.forEach((sheet, index) => {
    for (const p of sheet.placements) {
      const piece = pieces.get(p.pieceId);
      if (piece === undefined) continue;
      const at = { copies: [copyOf(p)], sheet: index, x: p.x, y: p.y };
      if (p.mirrored && !piece.mayMirror) {
        violations.push(
          fault('mirror', `${copyName(p)} on sheet ${index + 1} is turned over, which its piece does not allow`, at),
        );
      }
      const breaksGrain = piece.keepsGrain && grained.has(sheet.stockId) && !isStep(p.turnDeg, 180);
      if (!keepsTurnRule(piece, p) || breaksGrain) {
        const why = breaksGrain ? 'which crosses the grain' : `which its rule does not allow${fromBase(piece)}`;
        violations.push(
          fault('turn', `${copyName(p)} on sheet ${index + 1} is turned by ${p.turnDeg} degrees, ${why}`, at),
        );
      }
    }
  });
  return violations;
}

/** Is the turn one of the rule, counted from the base turn? Mirrored, turns of the own frame run the other way. */
function keepsTurnRule({ turns, baseTurnDeg }: NestPiece, { turnDeg, mirrored }: Placement): boolean {
  const step = typeof turns === 'object' ? turns.stepDeg : { fixed: 360, half: 180, quarter: 90, any: 0 }[turns];
  return isStep(mirrored ? turnDeg + baseTurnDeg : turnDeg - baseTurnDeg, step);
}

function fromBase({ baseTurnDeg }: NestPiece): string {
  return baseTurnDeg === 0 ? '' : ` (it counts from ${told(baseTurnDeg)} degrees)`;
}

/** The reference alone, of what may hold more. */
function copyOf({ pieceId, copy }: CopyRef): CopyRef {
  return { pieceId, copy };
}

/** Is the turn k steps of the rule away from 0, full circles aside? */
function isStep(turnDeg: number, step: number): boolean {
  if (step === 0) return true;
  for (let k = 0; k < 360; k++) {
    const off = (((turnDeg - k * step) % 360) + 360) % 360;
    if (off < TURN_TOLERANCE_DEG || 360 - off < TURN_TOLERANCE_DEG) return true;
  }
  return false;
}

function checkGroups(problem: NestProblem, layout: Layout): Violation[] {
  const groupOf = new Map<string, string>();
  for (const { id: pieceId, groups } of problem.pieces) {
    for (const [i, group] of groups.entries()) groupOf.set(copyName({ pieceId, copy: i + 1 }), group);
  }
  const home = new Map<string, number>();
  const violations: Violation[] = [];
  layout.sheets.forEach((sheet, index) => {
    for (const p of sheet.placements) {
      const group = groupOf.get(copyName(p));
      if (group === undefined) continue;
      const first = home.get(group);
      if (first === undefined) home.set(group, index);
      else if (first !== index) {
        const message = `${copyName(p)} of group ${group} is on sheet ${index + 1}, the group began on sheet ${first + 1}`;
        violations.push(fault('group', message, { copies: [copyOf(p)], sheet: index, x: p.x, y: p.y }));
      }
    }
  });
  return violations;
}

function checkStock(problem: NestProblem, layout: Layout): Violation[] {
  const violations: Violation[] = [];
  const used = new Map<string, number>();
  layout.sheets.forEach((sheet, index) => {
    const stock = problem.stock.find((s) => s.id === sheet.stockId);
    if (stock === undefined) {
      violations.push(
        fault('stock', `sheet ${index + 1} is cut from ${sheet.stockId}, which is not in stock`, { sheet: index }),
      );
      return;
    }
    const size = sizeOf(stock.outline.outer);
    if (
      Math.abs(size.width - sheet.width) > CHECK_TOLERANCE_MM ||
      Math.abs(size.height - sheet.height) > CHECK_TOLERANCE_MM
    ) {
      const message = `sheet ${index + 1} says ${told(sheet.width)} x ${told(sheet.height)} mm, board ${stock.id} is ${told(size.width)} x ${told(size.height)} mm`;
      violations.push(fault('stock', message, { sheet: index }));
    }
    const count = (used.get(stock.id) ?? 0) + 1;
    used.set(stock.id, count);
    if (stock.count !== null && count === stock.count + 1) {
      violations.push(
        fault(
          'stock',
          `more boards ${stock.id} are used than the ${stock.count} in stock, from sheet ${index + 1} on`,
          { sheet: index },
        ),
      );
    }
  });
  return violations;
}

function sizeOf(ring: Float64Array): { width: number; height: number } {
  let width = Number.NEGATIVE_INFINITY;
  let height = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < ring.length; i += 2) {
    width = Math.max(width, ring[i]!);
    height = Math.max(height, ring[i + 1]!);
  }
  return { width, height };
}

function checkPins(problem: NestProblem, layout: Layout): Violation[] {
  const violations: Violation[] = [];
  for (const pin of problem.pinned) {
    const isThere = (p: Placement) =>
      p.pieceId === pin.pieceId &&
      p.copy === pin.copy &&
      Math.hypot(p.x - pin.x, p.y - pin.y) <= CHECK_TOLERANCE_MM &&
      p.mirrored === pin.mirrored &&
      isStep(p.turnDeg - pin.turnDeg, 360);
    const sheet = layout.sheets[pin.sheet];
    if (sheet === undefined || sheet.stockId !== pin.stockId || !sheet.placements.some(isThere)) {
      const message = `${copyName(pin)} was pinned to sheet ${pin.sheet + 1} at ${told(pin.x)}, ${told(pin.y)} and is not there`;
      violations.push(fault('pinned', message, { copies: [copyOf(pin)], sheet: pin.sheet, x: pin.x, y: pin.y }));
    }
  }
  return violations;
}
