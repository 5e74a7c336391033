import { intersectRegions, subtractRegions } from '@underlap/geometry/boolean';
import { offsetRegions } from '@underlap/geometry/offset';
import { type Region, regionBounds } from '@underlap/geometry/region';
import { type Bounds, type Ring, ringBounds } from '@underlap/geometry/ring';
import { type Face, faceRegion } from './arrangement.ts';
import { distanceField, type Grid, gridOver, rasterMask, ringsOf } from './grid.ts';
import { heldRegions } from './held.ts';
import { leadLines, linesToAvoid } from './lead-lines.ts';
import { RouteMemory } from './route-memory.ts';
import type { SeamSizes } from './sizes.ts';
import type { SeamTask } from './task.ts';

/** Distances beyond this do not matter to any cost, mm. */
const FAR_MM = 200;

/**
 * Slivers of the part that show beside a cover narrower than this are not told apart from its edge, mm: the width of a thin kerf.
 */
const SLIVER_MM = 0.1;

/** What one mm of seam costs where it shows, next to 1 where it is well hidden. */
const VISIBLE_COST = 20;
/** ... where it is covered, but too close to the cover's edge for glue to bridge it. */
const THIN_COVER_COST = 12;

/** ... and more for every mm that is hidden, but that no glued part holds: twice as dear as a hidden one, nowhere near one that shows. */
const LOOSE_COST = 1;

/**
 * A mm along a drawn line: the line was there before, but the knobs beside it still show. Grid points this near to it count, in
 * steps: every place of the line then lies between such points.
 */
const LED_COST = 3;
export const LED_STEPS = 0.75;

/** A seam that runs this near beside a drawn line looks like a slip, mm: dearer by this factor. */
const BESIDE_LINE_MM = 8;
const BESIDE_LINE_FACTOR = 1.3;

/** Holes this long, or this wide both ways, are cut-outs that seams may end on; smaller ones are for screws and hangers, mm. */
const LONG_OPENING_MM = 60;
const WIDE_OPENING_MM = 40;

function isOpening(ring: Ring): boolean {
  const box = ringBounds(ring);
  const sides = [box.maxX - box.minX, box.maxY - box.minY];
  return Math.max(...sides) >= LONG_OPENING_MM || Math.min(...sides) >= WIDE_OPENING_MM;
}

/** The regions a seam must know of, once per task. */
export interface SeamGround {
  readonly part: Region;
  /** What of the part shows, and what is covered. */
  readonly bare: readonly Region[];
  readonly covered: readonly Region[];
  /** Indices of the part's holes that are large enough for seams to end on. */
  readonly openings: readonly number[];
  /** The other holes, keep-outs and forbidden zones as rings. */
  readonly obstacles: readonly Ring[];
  readonly keepOuts: readonly Region[];
  readonly avoid: readonly Ring[];
  /** Drawn lines that seams may follow. */
  readonly lead: readonly Ring[];
  /** Where a glued part would hold a seam; null when nothing is glued on. */
  readonly held: readonly Region[] | null;
  readonly landing: number;
}

/** @remarks Three booleans, O(n log n). */
export function seamGround(task: SeamTask): SeamGround {
  const part = [task.region];
  const covered = intersectRegions(part, [...task.cover]);
  // Grown by a hair so that a cover flush with the part's edge leaves no sliver that would count as showing.
  const grown = task.cover.length > 0 ? offsetRegions([...task.cover], SLIVER_MM / 2) : [];
  const bare = grown.length > 0 ? subtractRegions(part, grown) : part;
  const keepOuts = [...task.keepOuts, ...task.wishes.forbidden];
  const openings = task.region.holes.flatMap((hole, index) => (isOpening(hole) ? [index] : []));
  return {
    part: task.region,
    bare,
    covered,
    openings,
    obstacles: [...task.region.holes.filter((_, index) => !openings.includes(index)), ...ringsOf(keepOuts)],
    keepOuts,
    avoid: linesToAvoid(task),
    lead: leadLines(task),
    held: task.glue.length > 0 ? heldRegions(task) : null,
    landing: task.landing,
  };
}

/** What a seam may cost at every grid point of a part, before anything is known of faces. */
export interface PartFields {
  readonly grid: Grid;
  /** How deep under the cover, mm: distance to what shows; negative where it shows. */
  readonly depth: Float32Array;
  /** Cells on a drawn line that may lead the seam: 1; null where there is no such line. */
  readonly led: Float32Array | null;
  /** Distance to holes and keep-outs; 0 inside them. */
  readonly clear: Float32Array;
  /** Cost of one mm of seam from cover, keep-outs and lines to avoid; Infinity where no seam may run. */
  readonly cost: Float32Array;
}

/** @remarks O(cells): four distance maps. */
export function partFields(ground: SeamGround, sizes: SeamSizes, step: number): PartFields {
  const box = regionBounds(ground.part);
  const grid = gridOver(box.minX, box.minY, box.maxX, box.maxY, step);
  const total = grid.cols * grid.rows;
  const bareRings = ringsOf(ground.bare);
  const depth = distanceField(grid, bareRings, true, FAR_MM);
  const isBare = rasterMask(grid, bareRings);
  for (let i = 0; i < total; i++) if (isBare[i]) depth[i] = -depth[i]!;
  const clear = distanceField(grid, ground.obstacles, true, FAR_MM);
  for (const region of ground.keepOuts) {
    const inside = rasterMask(grid, [region.outer, ...region.holes]);
    for (let i = 0; i < total; i++) if (inside[i]) clear[i] = 0;
  }
  const away = ground.avoid.length > 0 ? distanceField(grid, ground.avoid, false, FAR_MM) : null;
  const beside = ground.lead.length > 0 ? distanceField(grid, ground.lead, false, FAR_MM) : null;
  const led = beside?.map((distance) => (distance <= LED_STEPS * step ? 1 : 0)) ?? null;
  const isHeld = ground.held === null ? null : heldMask(grid, ground.held);
  const cost = new Float32Array(total);
  const least = sizes.web + step / 2;
  for (let i = 0; i < total; i++) {
    if (clear[i]! < least) {
      cost[i] = Infinity;
      continue;
    }
    let each = coverCost(depth[i]!, ground.landing, sizes.reach);
    if (isHeld !== null && !isHeld[i] && depth[i]! > 0) each += LOOSE_COST;
    if (led?.[i] === 1) each = Math.min(each, LED_COST);
    else if (beside !== null && beside[i]! < BESIDE_LINE_MM) each *= BESIDE_LINE_FACTOR;
    if (clear[i]! < least + sizes.reach) each *= 1.3;
    if (away !== null && away[i]! < 20) each *= 3 - away[i]! / 10;
    cost[i] = each;
  }
  return { grid, depth, led, clear, cost };
}

/** Regions of several glued faces may overlap where a caller says so: each is drawn on its own. */
function heldMask(grid: Grid, regions: readonly Region[]): Uint8Array {
  const mask = new Uint8Array(grid.cols * grid.rows);
  for (const region of regions) {
    const own = rasterMask(grid, [region.outer, ...region.holes]);
    for (let i = 0; i < mask.length; i++) if (own[i]) mask[i] = 1;
  }
  return mask;
}

/** The same for one face: cost with its edges, and where it lies. */
export interface FaceFields {
  readonly grid: Grid;
  /** Distance to the face's outline from inside; negative outside. */
  readonly edge: Float32Array;
  readonly part: PartFields;
  /** Cost of one mm; Infinity outside, in keep-outs and too near the face's edge. */
  readonly cost: Float32Array;
  readonly memory: RouteMemory;
}

/** Where a face lies on a grid: what its fields are made of, whatever seams keep clear of. */
export interface FacePlace {
  readonly part: PartFields;
  /** Distance to the face's outline from inside; negative outside. */
  readonly edge: Float32Array;
  readonly memory: RouteMemory;
}

/** @remarks O(cells of the face's box): one distance map. */
export function facePlace(whole: PartFields, face: Face): FacePlace {
  const region = faceRegion(face);
  const part = croppedFields(whole, regionBounds(region));
  const rings = [region.outer, ...region.holes];
  const edge = distanceField(part.grid, rings, true, FAR_MM);
  const inside = rasterMask(part.grid, rings);
  for (let i = 0; i < edge.length; i++) if (!inside[i]) edge[i] = -edge[i]!;
  return { part, edge, memory: new RouteMemory(edge.length) };
}

/** @param edgeClear - a seam keeps this far from the face's outline but for its own ends, mm. */
export function faceFields({ part, edge, memory }: FacePlace, sizes: SeamSizes, edgeClear: number): FaceFields {
  const cost = new Float32Array(edge.length);
  const roomy = sizes.reach + sizes.web + 2;
  for (let i = 0; i < cost.length; i++) {
    const away = edge[i]!;
    if (away < edgeClear) cost[i] = Infinity;
    else cost[i] = part.cost[i]! * (away < roomy ? 1 + (roomy - away) / roomy : 1);
  }
  return { grid: part.grid, edge, part, cost, memory };
}

/** The part of the fields around a box; a copy, so that a search on a small face touches little memory. */
function croppedFields(part: PartFields, box: Bounds): PartFields {
  const { grid } = part;
  const c0 = Math.max(0, Math.floor((box.minX - grid.x0) / grid.step) - 2);
  const r0 = Math.max(0, Math.floor((box.minY - grid.y0) / grid.step) - 2);
  const c1 = Math.min(grid.cols, Math.ceil((box.maxX - grid.x0) / grid.step) + 3);
  const r1 = Math.min(grid.rows, Math.ceil((box.maxY - grid.y0) / grid.step) + 3);
  const cols = c1 - c0;
  const rows = r1 - r0;
  const crop = (field: Float32Array) => {
    const out = new Float32Array(cols * rows);
    for (let r = 0; r < rows; r++) {
      const from = (r0 + r) * grid.cols + c0;
      out.set(field.subarray(from, from + cols), r * cols);
    }
    return out;
  };
  return {
    grid: { x0: grid.x0 + c0 * grid.step, y0: grid.y0 + r0 * grid.step, step: grid.step, cols, rows },
    depth: crop(part.depth),
    led: part.led === null ? null : crop(part.led),
    clear: crop(part.clear),
    cost: crop(part.cost),
  };
}

function coverCost(depth: number, landing: number, reach: number): number {
  if (depth <= 0) return VISIBLE_COST;
  if (depth < landing) return THIN_COVER_COST;
  const room = depth - landing;
  if (room < reach) return 1.4 + 3 * (1 - room / reach);
  return 1 + 0.4 * Math.max(0, 1 - (room - reach) / 15);
}
