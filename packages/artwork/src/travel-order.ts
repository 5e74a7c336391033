import { contourEnd, reversedContour } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import type { SheetPath } from './sheet-drawing.ts';

/** Vertices of a closed contour that are tried as its starting point; more make the order slower, hardly shorter. */
const MOST_ENTRIES = 16;

/** Up to this many paths the order is improved by reversing stretches of it, whose cost grows with the square. */
const MOST_IMPROVED = 1500;

/** Passes of one kind of improvement, and rounds of all kinds: nearly all is gained in the first two. */
const MOST_PASSES = 6;
const ROUNDS = 3;

/** One path with the ways into it. Closed paths end where they begin; open ones leave at the other end. */
interface Stop {
  readonly path: SheetPath;
  readonly entries: readonly Entry[];
}

interface Entry {
  readonly at: Point;
  readonly out: Point;
  /** Segment index a closed contour starts at, or -1 for an open contour travelled backwards. */
  readonly turn: number;
}

interface Visit {
  readonly stop: Stop;
  readonly entry: Entry;
}

/** Length travelled with the beam off from `from` through the paths in their order, mm. */
export function travelLength(paths: readonly SheetPath[], from: Point): number {
  let sum = 0;
  let at = from;
  for (const { contour } of paths) {
    sum += distance(at, contour.start);
    at = contourEnd(contour);
  }
  return sum;
}

/**
 * The paths in an order of short travel from `from`: nearest next, then stretches reversed and single
 * paths moved while that shortens the way.
 * Closed contours may start at another of their vertices and open ones may be travelled backwards; the curves stay exact.
 * @remarks O(n^2) for n paths; above 1,500 paths nearest-next alone.
 */
export function inTravelOrder(paths: readonly SheetPath[], from: Point): SheetPath[] {
  const stops = paths.map((path) => ({ path, entries: entriesOf(path.contour) }));
  let visits = nearestNext(stops, from);
  for (let round = 0; round < ROUNDS; round++) {
    if (visits.length <= MOST_IMPROVED) {
      reverseStretches(visits, from);
      moveSingles(visits, from);
    }
    visits = chooseEntries(visits, from);
  }
  return visits.map(travelled);
}

function entriesOf(contour: Contour): Entry[] {
  if (!contour.closed) {
    const end = contourEnd(contour);
    return [
      { at: contour.start, out: end, turn: 0 },
      { at: end, out: contour.start, turn: -1 },
    ];
  }
  const count = contour.segments.length;
  const step = Math.max(1, Math.ceil(count / MOST_ENTRIES));
  const entries: Entry[] = [{ at: contour.start, out: contour.start, turn: 0 }];
  for (let turn = step; turn < count; turn += step) {
    const at = contour.segments[turn - 1]!.to;
    entries.push({ at, out: at, turn });
  }
  return entries;
}

function nearestNext(stops: readonly Stop[], from: Point): Visit[] {
  const left = [...stops];
  const visits: Visit[] = [];
  let at = from;
  while (left.length > 0) {
    let bestIndex = 0;
    let bestEntry = left[0]!.entries[0]!;
    let least = Infinity;
    for (let index = 0; index < left.length; index++) {
      for (const entry of left[index]!.entries) {
        const d = distance(at, entry.at);
        if (d < least) {
          least = d;
          bestIndex = index;
          bestEntry = entry;
        }
      }
    }
    // Keeping the rest in its order makes ties independent of history.
    const [stop] = left.splice(bestIndex, 1);
    visits.push({ stop: stop!, entry: bestEntry });
    at = bestEntry.out;
  }
  return visits;
}

/** 2-opt on the open way from `from`: the end is free, so reversing the tail costs nothing behind it. */
function reverseStretches(visits: Visit[], from: Point): void {
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    let isBetter = false;
    for (let i = 0; i < visits.length - 1; i++) {
      const before = i === 0 ? from : visits[i - 1]!.entry.out;
      for (let j = i + 1; j < visits.length; j++) {
        const first = visits[i]!.entry;
        const last = visits[j]!.entry;
        const after = visits[j + 1]?.entry.at;
        const was = distance(before, first.at) + (after ? distance(last.out, after) : 0);
        const willBe = distance(before, last.out) + (after ? distance(first.at, after) : 0);
        if (willBe < was - 1e-9) {
          const run = visits
            .slice(i, j + 1)
            .reverse()
            .map(turnedRound);
          visits.splice(i, run.length, ...run);
          isBetter = true;
        }
      }
    }
    if (!isBetter) return;
  }
}

/** Or-opt with single paths: each is taken out and put, either way round, where it lengthens the way least. */
function moveSingles(visits: Visit[], from: Point): void {
  const gapAt = (index: number) => {
    const before = index === 0 ? from : visits[index - 1]!.entry.out;
    const after = visits[index]?.entry.at;
    return { before, after };
  };
  for (let i = 0; i < visits.length; i++) {
    const [visit] = visits.splice(i, 1) as [Visit];
    const added = (index: number, { entry }: Visit): number => {
      const { before, after } = gapAt(index);
      const through = distance(before, entry.at) + (after ? distance(entry.out, after) : 0);
      return through - (after ? distance(before, after) : 0);
    };
    let best = { index: i, visit, cost: added(i, visit) - 1e-9 };
    for (let index = 0; index <= visits.length; index++) {
      for (const candidate of [visit, turnedRound(visit)]) {
        const cost = added(index, candidate);
        if (cost < best.cost) best = { index, visit: candidate, cost };
      }
    }
    visits.splice(best.index, 0, best.visit);
  }
}

function turnedRound({ stop, entry }: Visit): Visit {
  if (stop.path.contour.closed) return { stop, entry };
  return { stop, entry: stop.entries.find((other) => other !== entry) ?? entry };
}

/** With the order settled, each closed contour starts where it lies best between its neighbours. */
function chooseEntries(visits: readonly Visit[], from: Point): Visit[] {
  const chosen: Visit[] = [];
  let at = from;
  visits.forEach((visit, index) => {
    const next = visits[index + 1]?.entry.at;
    let best = visit.entry;
    if (visit.stop.path.contour.closed) {
      const way = (entry: Entry) => distance(at, entry.at) + (next ? distance(entry.out, next) : 0);
      for (const entry of visit.stop.entries) if (way(entry) < way(best) - 1e-9) best = entry;
    }
    chosen.push({ stop: visit.stop, entry: best });
    at = best.out;
  });
  return chosen;
}

function travelled({ stop, entry }: Visit): SheetPath {
  const { path } = stop;
  if (entry.turn === 0) return path;
  if (entry.turn < 0) return { ...path, contour: reversedContour(path.contour) };
  const { segments } = path.contour;
  const contour: Contour = {
    start: entry.at,
    segments: [...segments.slice(entry.turn), ...segments.slice(0, entry.turn)],
    closed: true,
  };
  return { ...path, contour };
}

function distance(a: Point, b: Point): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}
