import { contourEnd, reversedContour } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import type { SheetPath } from './sheet-drawing.ts';
import { shortWay, type Visit } from './short-way.ts';

/** Vertices of a closed contour that are tried as its starting point; more make the order slower, hardly shorter. */
const MOST_ENTRIES = 16;

/** Above this many paths the first order follows strips across the sheet instead of the nearest path, whose cost grows with the square. */
const MOST_NEAREST = 2000;

/** The order is bettered, then the starting points for that order; a second and third time with the new starting points. */
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

/**
 * The paths in an order of short travel from `from`, ending anywhere.
 * Closed contours may start at another of their vertices and open ones may be travelled backwards; the curves stay exact.
 * @remarks See `shortWay`; the starting points of a given order are the best there are (dynamic programming).
 */
export function inTravelOrder(paths: readonly SheetPath[], from: Point): SheetPath[] {
  const stops = paths.map((path) => ({ path, entries: entriesOf(path.contour) }));
  let visits = stops.length > MOST_NEAREST ? inStrips(stops) : nearestNext(stops, from);
  let chosen = visits.map(({ stop, entry }) => ({ stop, entry }));
  for (let round = 0; round < ROUNDS && stops.length > 1; round++) {
    const entryOf = new Map(visits.map(({ stop, entry }) => [stop, entry]));
    const way = shortWay(
      stops.map((stop, index) => wayStop(stop, entryOf.get(index)!)),
      from,
      visits.map(({ stop, entry }): Visit => ({ stop, reversed: entry.turn < 0 })),
    );
    visits = bestEntries(
      way.map(({ stop, reversed }) => ({ stop, entry: visited(stops[stop]!, entryOf.get(stop)!, reversed) })),
      stops,
      from,
    );
    if (lengthOf(visits, from) >= lengthOf(chosen, from) - 1e-9 && round > 0) break;
    chosen = visits;
  }
  if (stops.length === 1) chosen = bestEntries(visits, stops, from);
  return chosen.map(({ stop, entry }) => travelled(stops[stop]!, entry));
}

interface Chosen {
  readonly stop: number;
  readonly entry: Entry;
}

function wayStop(stop: Stop, entry: Entry) {
  if (stop.path.contour.closed) return { enter: entry.at, leave: entry.out, isOpen: false };
  const forward = stop.entries[0]!;
  return { enter: forward.at, leave: forward.out, isOpen: true };
}

function visited(stop: Stop, entry: Entry, reversed: boolean): Entry {
  return stop.path.contour.closed ? entry : stop.entries[reversed ? 1 : 0]!;
}

function lengthOf(visits: readonly Chosen[], from: Point): number {
  let at = from;
  let sum = 0;
  for (const { entry } of visits) {
    sum += distance(at, entry.at);
    at = entry.out;
  }
  return sum;
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

function nearestNext(stops: readonly Stop[], from: Point): Chosen[] {
  const left = stops.map((_, index) => index);
  const visits: Chosen[] = [];
  let at = from;
  while (left.length > 0) {
    let bestIndex = 0;
    let bestEntry = stops[left[0]!]!.entries[0]!;
    let least = Infinity;
    for (let index = 0; index < left.length; index++) {
      for (const entry of stops[left[index]!]!.entries) {
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

/** Up and down in strips: within a small factor of the best for any even spread of stops. */
function inStrips(stops: readonly Stop[]): Chosen[] {
  const points = stops.map((stop) => stop.entries[0]!.at);
  const minX = points.reduce((least, point) => Math.min(least, point.x), Infinity);
  const maxX = points.reduce((most, point) => Math.max(most, point.x), -Infinity);
  const strips = Math.max(1, Math.round(Math.sqrt(stops.length / 3)));
  const stripOf = (point: Point) => Math.min(strips - 1, Math.floor(((point.x - minX) / (maxX - minX || 1)) * strips));
  return points
    .map((point, stop) => ({ stop, strip: stripOf(point), y: point.y }))
    .sort((a, b) => a.strip - b.strip || (a.strip % 2 === 0 ? a.y - b.y : b.y - a.y) || a.stop - b.stop)
    .map(({ stop }) => ({ stop, entry: stops[stop]!.entries[0]! }));
}

/** With the order settled, the starting points of closed contours that make the way shortest, all at once. */
function bestEntries(visits: readonly Chosen[], stops: readonly Stop[], from: Point): Chosen[] {
  const choices = visits.map(({ stop, entry }) => (stops[stop]!.path.contour.closed ? stops[stop]!.entries : [entry]));
  let costs = [0];
  let ends: readonly Point[] = [from];
  const back = choices.map((entries) => {
    const best = entries.map((entry) => {
      let least = Infinity;
      let by = 0;
      for (const [k, end] of ends.entries()) {
        const cost = costs[k]! + distance(end, entry.at);
        if (cost < least - 1e-12) {
          least = cost;
          by = k;
        }
      }
      return { least, by };
    });
    costs = best.map(({ least }) => least);
    ends = entries.map((entry) => entry.out);
    return best.map(({ by }) => by);
  });
  let at = costs.indexOf(Math.min(...costs));
  const chosen: Chosen[] = [];
  for (let i = visits.length - 1; i >= 0; i--) {
    chosen.push({ stop: visits[i]!.stop, entry: choices[i]![at]! });
    at = back[i]![at]!;
  }
  return chosen.reverse();
}

function travelled({ path }: Stop, entry: Entry): SheetPath {
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
