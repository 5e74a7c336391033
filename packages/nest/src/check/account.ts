import type { Layout, NestProblem, Placement, Violation } from '../problem.ts';
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
  return { kind, pieceIds: [], sheet: 0, x: 0, y: 0, amountMm: 0, ...at, message };
}

function checkPieces(problem: NestProblem, layout: Layout): Violation[] {
  const violations: Violation[] = [];
  const wanted = new Map<string, string>();
  for (const part of problem.parts) {
    for (let copy = 1; copy <= part.quantity; copy++) wanted.set(`${part.id}#${copy}`, part.id);
  }
  const seen = new Set<string>();
  layout.sheets.forEach((sheet, index) => {
    for (const p of sheet.placements) {
      const at = { pieceIds: [p.pieceId], sheet: index, x: p.x, y: p.y };
      if (wanted.get(p.pieceId) !== p.partId || p.pieceId !== `${p.partId}#${p.copy}`) {
        violations.push(
          fault('extra', `${p.pieceId} on sheet ${index + 1} is not a piece of part ${p.partId} in this job`, at),
        );
      } else if (seen.has(p.pieceId)) {
        violations.push(fault('extra', `${p.pieceId} is placed a second time on sheet ${index + 1}`, at));
      }
      if (![p.x, p.y, p.turnDeg].every(Number.isFinite)) {
        violations.push(
          fault('outside', `${p.pieceId} on sheet ${index + 1} has a place that is not a number`, {
            ...at,
            x: 0,
            y: 0,
          }),
        );
      }
      seen.add(p.pieceId);
    }
  });
  for (const { pieceId } of layout.unplaced) {
    if (seen.has(pieceId))
      violations.push(fault('extra', `${pieceId} is placed and also listed as unplaced`, { pieceIds: [pieceId] }));
    else if (!wanted.has(pieceId))
      violations.push(
        fault('extra', `${pieceId} is listed as unplaced but is no piece of this job`, { pieceIds: [pieceId] }),
      );
    seen.add(pieceId);
  }
  for (const pieceId of wanted.keys()) {
    if (!seen.has(pieceId)) violations.push(fault('missing', `${pieceId} is on no sheet`, { pieceIds: [pieceId] }));
  }
  return violations;
}

function checkAttitudes(problem: NestProblem, layout: Layout): Violation[] {
  const violations: Violation[] = [];
  const parts = new Map(problem.parts.map((part) => [part.id, part]));
  const grained = new Set(problem.stock.filter((stock) => stock.hasGrain).map((stock) => stock.id));
  layout.sheets.forEach((sheet, index) => {
    for (const p of sheet.placements) {
      const part = parts.get(p.partId);
      if (part === undefined) continue;
      const at = { pieceIds: [p.pieceId], sheet: index, x: p.x, y: p.y };
      if (p.mirrored && !part.mayMirror) {
        violations.push(
          fault('mirror', `${p.pieceId} on sheet ${index + 1} is turned over, which its part does not allow`, at),
        );
      }
      const step =
        typeof part.turns === 'object'
          ? part.turns.stepDeg
          : { fixed: 360, half: 180, quarter: 90, any: 0 }[part.turns];
      const breaksGrain = part.keepsGrain && grained.has(sheet.stockId) && !isStep(p.turnDeg, 180);
      if (!isStep(p.turnDeg, step) || breaksGrain) {
        const why = breaksGrain ? 'which crosses the grain' : 'which its part does not allow';
        violations.push(
          fault('turn', `${p.pieceId} on sheet ${index + 1} is turned by ${p.turnDeg} degrees, ${why}`, at),
        );
      }
    }
  });
  return violations;
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
  for (const part of problem.parts) {
    for (const [i, group] of part.groups.entries()) groupOf.set(`${part.id}#${i + 1}`, group);
  }
  const home = new Map<string, number>();
  const violations: Violation[] = [];
  layout.sheets.forEach((sheet, index) => {
    for (const p of sheet.placements) {
      const group = groupOf.get(p.pieceId);
      if (group === undefined) continue;
      const first = home.get(group);
      if (first === undefined) home.set(group, index);
      else if (first !== index) {
        const message = `${p.pieceId} of group ${group} is on sheet ${index + 1}, the group began on sheet ${first + 1}`;
        violations.push(fault('group', message, { pieceIds: [p.pieceId], sheet: index, x: p.x, y: p.y }));
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
      Math.hypot(p.x - pin.x, p.y - pin.y) <= CHECK_TOLERANCE_MM &&
      p.mirrored === pin.mirrored &&
      isStep(p.turnDeg - pin.turnDeg, 360);
    const sheet = layout.sheets[pin.sheet];
    if (sheet === undefined || sheet.stockId !== pin.stockId || !sheet.placements.some(isThere)) {
      const message = `${pin.pieceId} was pinned to sheet ${pin.sheet + 1} at ${told(pin.x)}, ${told(pin.y)} and is not there`;
      violations.push(fault('pinned', message, { pieceIds: [pin.pieceId], sheet: pin.sheet, x: pin.x, y: pin.y }));
    }
  }
  return violations;
}
