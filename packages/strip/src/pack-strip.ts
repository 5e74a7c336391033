import { Jigsaw } from '@underlap/nest/gapless/jigsaw';
import { scatterAll } from '@underlap/nest/search/disturb';
import { Layout } from '@underlap/nest/search/layout';
import { Meter } from '@underlap/nest/search/meter';
import { Model } from '@underlap/nest/search/model';
import { seededRandom } from '@underlap/nest/search/random';
import { Separator } from '@underlap/nest/search/separator';
import { clampAll, emptySnapshot, restore, save } from '@underlap/nest/search/snapshot';
import { putSpots, spotsOf } from '@underlap/nest/search/spots';
import type { Obstacle, SearchBudget, SearchEnd, SearchHooks, SearchInput, Spot } from '@underlap/nest/search/task';
import { shrinkStrip } from './shrink.ts';

/** Pieces on a strip from x = 0 to the right and of given height (y from 0), as short as possible. */
export interface StripInput extends SearchInput {
  readonly height: number;
  /** Regions to keep clear of; absent = none. */
  readonly obstacles?: readonly Obstacle[];
}

export interface StripResult {
  /** Largest x reached by a piece; Infinity when nothing valid was found. */
  readonly length: number;
  readonly spots: readonly Spot[];
  readonly evaluations: number;
  readonly endedBy: SearchEnd;
}

/** Density at which pieces are scattered first; a longer strip costs time, a shorter one a failure. */
const FIRST_DENSITY = 0.7;
/** Placements of exact matching tried at the length of the bound: a jigsaw is found within a few hundred. */
const JIGSAW_TRIES = 600;
const STRIP = [0];
const onlyStrip = () => STRIP;

/**
 * Shortest strip: exact matching at the length of the bound, then separation at ever shorter lengths.
 * @param incumbent - a valid layout of all items to start from, or null. The result is never longer.
 * @throws Error when a piece is higher than the strip in every pose.
 * @public
 * @remarks Deterministic for a seed when the budget's evaluations end it. Memory: bodies^2 * 16 bytes and the fields' limit.
 */
export function packStrip(
  input: StripInput,
  budget: SearchBudget,
  hooks: SearchHooks,
  incumbent: readonly Spot[] | null = null,
): StripResult {
  const obstacles = input.obstacles ?? [];
  const model = new Model(input, obstacles, hooks.noFits);
  const strip = (length: number) => ({ minX: 0, minY: 0, maxX: length, maxY: input.height, obstacles: [], price: 1 });
  const layout = new Layout(
    model,
    [strip(1)],
    obstacles.map(() => 0),
  );
  const meter = new Meter(layout, budget, hooks);
  const random = seededRandom(hooks.seed);
  const separator = new Separator(layout, input.tolerance, random, meter.isOver);
  const { bound, room } = lengthBound(layout, input.height);
  // Long enough for all pieces in a row.
  let far = bound;
  for (const [pose] of model.itemPoses) far += model.forms[model.poses[pose!]!.form]!.diameter + input.spacing;

  const best = emptySnapshot(layout);
  let bestLength = Infinity;
  const keep = (): void => {
    const used = usedLength(layout, obstacles.length === 0);
    if (!(used < bestLength)) return;
    bestLength = used;
    save(layout, best, 0);
    hooks.onBetter?.(spotsOf(layout), used, layout.evaluations);
    if (used <= bound * (1 + 1e-9)) meter.end('bound');
  };
  const setLength = (length: number): void => {
    layout.boards[0] = strip(length);
    clampAll(layout);
    layout.refreshAll();
  };

  if (incumbent !== null) {
    layout.boards[0] = strip(Math.max(far, ...incumbent.map((spot) => 2 * Math.abs(spot.x))));
    putSpots(layout, incumbent);
    // The incumbent may use slots of no play, which a run on a lattice finds.
    model.seeSlots(input.tolerance);
    layout.refreshAll();
    if (layout.total(input.tolerance) === 0) keep();
    model.seeSlots(0);
  }
  if (!meter.isOver() && obstacles.length === 0 && input.spacing === 0) {
    const jigsaw = new Jigsaw(
      model,
      Array.from({ length: layout.items }, (_, i) => i),
      2 * input.tolerance,
      random,
    );
    const places = jigsaw.fill({ minX: 0, minY: 0, maxX: bound, maxY: input.height }, JIGSAW_TRIES, 0);
    if (places !== null && places.length === layout.items) {
      layout.boards[0] = strip(bound * (1 + 1e-9));
      for (const place of places) layout.put(place.item, 0, place.pose, place.x, place.y);
      layout.refreshAll();
      if (layout.total(input.tolerance) === 0) keep();
    }
  }
  if (bestLength === Infinity) {
    if (obstacles.length === 0) {
      layout.boards[0] = strip(far);
      stackInColumns(layout, input.height, input.spacing);
      layout.refreshAll();
      keep();
    }
    const taken = model.obstaclePoses.reduce((sum, { pose }) => sum + model.forms[model.poses[pose]!.form]!.area, 0);
    let length = Math.max(bound, (room + taken) / input.height / FIRST_DENSITY);
    layout.boards[0] = strip(length);
    scatterAll(layout, random);
    while (!meter.isOver() && length < bestLength) {
      setLength(length);
      if (separator.separate(onlyStrip, { stalledPasses: 40, strikes: 1 })) {
        keep();
        break;
      }
      length *= 1.08;
    }
    if (bestLength === Infinity) {
      return { length: Infinity, spots: [], evaluations: layout.evaluations, endedBy: meter.ended ?? 'settled' };
    }
  }
  shrinkStrip({
    layout,
    separator,
    meter,
    random,
    best,
    bound,
    height: input.height,
    setLength,
    keep,
    bestLength: () => bestLength,
  });
  layout.boards[0] = strip(bestLength * (1 + 1e-12));
  restore(layout, best);
  return {
    length: bestLength,
    spots: spotsOf(layout),
    evaluations: layout.evaluations,
    endedBy: meter.ended ?? 'settled',
  };
}

/** No strip is shorter than its area asks for, or than the narrowest pose of its widest piece. */
function lengthBound(layout: Layout, height: number): { bound: number; room: number } {
  const { model } = layout;
  let area = 0;
  let room = 0;
  let least = 0;
  for (let i = 0; i < layout.items; i++) {
    const poses = Array.from(model.itemPoses[i]!, (pose) => model.poses[pose]!);
    area += model.forms[poses[0]!.form]!.area;
    room += model.forms[poses[0]!.form]!.room;
    const widths = poses.filter((p) => p.maxY - p.minY <= height * (1 + 1e-9)).map((p) => p.maxX - p.minX);
    if (widths.length === 0) throw new Error(`item ${i} is higher than the strip in every pose`);
    least = Math.max(least, Math.min(...widths));
  }
  return { bound: Math.max(least, area / height), room };
}

/** A valid layout at once, whatever its length: bounding boxes stacked in columns, wide ones first. */
function stackInColumns(layout: Layout, height: number, spacing: number): void {
  const { model } = layout;
  const chosen = Array.from({ length: layout.items }, (_, item) => {
    const fitting = [...model.itemPoses[item]!].filter((pose) => layout.fits(pose, 0));
    const width = (pose: number) => model.poses[pose]!.maxX - model.poses[pose]!.minX;
    const pose = fitting.reduce((best, other) => (width(other) < width(best) ? other : best));
    return { item, pose, width: width(pose) };
  });
  chosen.sort((a, b) => b.width - a.width || a.item - b.item);
  let x = 0;
  let y = 0;
  let column = 0;
  for (const { item, pose, width } of chosen) {
    const own = model.poses[pose]!;
    const tall = own.maxY - own.minY;
    if (y > 0 && y + tall > height) {
      x += column + spacing;
      y = 0;
      column = 0;
    }
    // A piece as high as the strip may exceed it by rounding: it is kept in the middle as everywhere else.
    layout.put(item, 0, pose, x - own.minX, Math.min(y, Math.max(0, height - tall)) - own.minY);
    y += tall + spacing;
    column = Math.max(column, width);
  }
}

/** Extent in x of the layout; where nothing is fixed it is also moved to start at 0. */
function usedLength(layout: Layout, mayShift: boolean): number {
  let low = mayShift ? Infinity : 0;
  let high = -Infinity;
  for (let i = 0; i < layout.items; i++) {
    const pose = layout.model.poses[layout.pose[i]!]!;
    if (mayShift) low = Math.min(low, layout.x[i]! + pose.minX);
    high = Math.max(high, layout.x[i]! + pose.maxX);
  }
  if (low !== 0) for (let i = 0; i < layout.items; i++) layout.x[i]! -= low;
  return high - low;
}
