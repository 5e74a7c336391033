import { contourArea, contourBounds, contourEnd } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import { flattenContour } from '@underlap/geometry/flatten';
import type { Point } from '@underlap/geometry/point';
import { type Bounds, isInRing } from '@underlap/geometry/ring';
import type { SheetStyle } from './process-style.ts';
import { CUTTING_ORDER, type SheetDrawing, type SheetPath, type SheetProcess } from './sheet-drawing.ts';
import { inTravelOrder } from './travel-order.ts';

/** Chords for the question 'does this piece lie in that hole', mm: spacing is always far larger. */
const CONTAINMENT_TOLERANCE = 0.05;

/** Limits between small, middling and large pieces, mm2: a letter, a motif, a banner. */
const SIZE_CLASSES_MM2 = [1500, 15_000];

/** Paths of one process that are run one after another. */
export interface CuttingGroup {
  readonly process: SheetProcess;
  readonly isNumbers: boolean;
  /** 0 for the innermost pieces and for all marks. */
  readonly round: number;
  /** In the order they are run. */
  readonly paths: readonly SheetPath[];
}

/** Drawings are never changed in place: the files in every format and the times in the report follow one and the same order. */
const known = new WeakMap<SheetDrawing, Map<string, readonly CuttingGroup[]>>();

/**
 * The sheet's paths in the order they are run: marks, then holes, then outlines, each group with short travel, starting at
 * the sheet's upper left corner. Part numbers form a group of their own just before the other paths of their process.
 * Outlines of small pieces come before those of large ones: a large piece that comes free lets the board sag or shift.
 * @remarks About O(n^2) for n paths of one group; worked out once for a drawing, whatever the format.
 */
export function cuttingGroups(sheet: SheetDrawing, style: SheetStyle): readonly CuttingGroup[] {
  const orders = known.get(sheet) ?? new Map<string, readonly CuttingGroup[]>();
  known.set(sheet, orders);
  const key = `${style.rounds} ${style.showsNumbers}`;
  const groups = orders.get(key) ?? groupsOf(sheet, style);
  orders.set(key, groups);
  return groups;
}

function groupsOf(sheet: SheetDrawing, style: Pick<SheetStyle, 'rounds' | 'showsNumbers'>): readonly CuttingGroup[] {
  const roundOf = style.rounds === 'nested-first' ? roundsByNesting(sheet.paths) : () => 0;
  const lastRound = sheet.paths.reduce((last, path) => Math.max(last, isCut(path) ? roundOf(path.pieceId) : 0), 0);
  const groups: CuttingGroup[] = [];
  let head: Point = { x: 0, y: 0 };
  for (let round = 0; round <= lastRound; round++) {
    for (const process of CUTTING_ORDER) {
      for (const isNumbers of [true, false]) {
        if (isNumbers && !style.showsNumbers) continue;
        const members = sheet.paths.filter(
          (path) =>
            path.process === process &&
            (path.role === 'number') === isNumbers &&
            (isCut(path) ? roundOf(path.pieceId) : 0) === round,
        );
        if (members.length === 0) continue;
        const paths: SheetPath[] = [];
        for (const some of process === 'cut-outer' ? smallFirst(members) : [members]) {
          paths.push(...inTravelOrder(some, endOf(paths, head)));
        }
        head = endOf(paths, head);
        groups.push({ process, isNumbers, round, paths });
      }
    }
  }
  return groups;
}

/** Outlines in classes of size, the smallest first; within a class the way decides. */
function smallFirst(paths: readonly SheetPath[]): SheetPath[][] {
  const classOf = (path: SheetPath) => {
    const area = path.contour.closed ? Math.abs(contourArea(path.contour)) : 0;
    return SIZE_CLASSES_MM2.filter((limit) => area > limit).length;
  };
  const classes = Array.from({ length: SIZE_CLASSES_MM2.length + 1 }, (): SheetPath[] => []);
  for (const path of paths) classes[classOf(path)]!.push(path);
  return classes.filter((members) => members.length > 0);
}

function endOf(paths: readonly SheetPath[], otherwise: Point): Point {
  const last = paths.at(-1);
  return last === undefined ? otherwise : contourEnd(last.contour);
}

/** How many pieces lie in holes of other pieces: worth a word to whoever cuts the sheet. */
export function nestedPieces(paths: readonly SheetPath[]): string[] {
  return [...containers(paths)].filter(([, holders]) => holders.size > 0).map(([piece]) => piece);
}

function isCut(path: SheetPath): boolean {
  return path.process === 'cut-inner' || path.process === 'cut-outer';
}

/** Round of a piece: 0 when nothing lies in its holes, else one more than the latest piece in them. */
function roundsByNesting(paths: readonly SheetPath[]): (pieceId: string) => number {
  const holdersOf = containers(paths);
  const rounds = new Map<string, number>();
  // Contents raise the round of their holders; nesting is never deeper than the number of pieces.
  const raise = (piece: string, round: number, depth: number): void => {
    if ((rounds.get(piece) ?? -1) >= round || depth > holdersOf.size) return;
    rounds.set(piece, round);
    for (const holder of holdersOf.get(piece) ?? []) raise(holder, round + 1, depth + 1);
  };
  for (const piece of holdersOf.keys()) raise(piece, 0, 0);
  return (piece) => rounds.get(piece) ?? 0;
}

/** For every piece the pieces in whose holes it lies. */
function containers(paths: readonly SheetPath[]): Map<string, Set<string>> {
  const holes = paths
    .filter((path) => path.process === 'cut-inner' && path.contour.closed && path.contour.segments.length > 0)
    .map((path) => ({ piece: path.pieceId, contour: path.contour, bounds: contourBounds(path.contour) }));
  const rings = new Map<Contour, Float64Array>();
  const found = new Map<string, Set<string>>();
  for (const path of paths) {
    if (path.process !== 'cut-outer') continue;
    const holders = found.get(path.pieceId) ?? new Set<string>();
    found.set(path.pieceId, holders);
    for (const hole of holes) {
      if (hole.piece === path.pieceId || !isInBounds(path.contour.start, hole.bounds)) continue;
      const ring = rings.get(hole.contour) ?? flattenContour(hole.contour, CONTAINMENT_TOLERANCE);
      rings.set(hole.contour, ring);
      if (isInRing(ring, path.contour.start.x, path.contour.start.y)) holders.add(hole.piece);
    }
  }
  return found;
}

function isInBounds(point: Point, box: Bounds): boolean {
  return point.x >= box.minX && point.x <= box.maxX && point.y >= box.minY && point.y <= box.maxY;
}
