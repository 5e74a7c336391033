import type { Layout } from '@underlap/nest/search/layout';
import { type Random, shuffle } from '@underlap/nest/search/random';
import { PAD, type RasterSpace } from './raster-space.ts';

/** Additions of a penalty map that take about as long as one part-position evaluation, and are counted as one. */
const ADDITIONS_PER_EVALUATION = 1600;
/** What stands in numbers of a map that belong to no place; larger than any sum of penalties. */
const NOWHERE = 1e30;
/**
 * Growth of an overlapping pair's weight: LEAST + SPREAD * depth / deepest; decay of the others. Slower than off the raster, where
 * overlaps must also be pressed out to the last bit.
 */
const GROWTH_LEAST = 1.1;
const GROWTH_SPREAD = 0.5;
const DECAY = 0.95;
/** Weights are scaled back to 1 at this size; maps are in single precision. */
const WEIGHT_LIMIT = 1e9;

/**
 * Guided local search on a raster: a move looks at every place in every pose and takes the best, which costs no more than a few
 * dozen evaluations of single places, because the depth tables of the other pieces are simply added up into one map.
 * The measure and the weights are those of the Separator.
 */
export class RasterSearch {
  readonly space: RasterSpace;
  readonly #layout: Layout;
  readonly #random: Random;
  readonly #n: number;
  /** Least corner of each piece's box, units, and its pose. */
  readonly #u: Int32Array;
  readonly #v: Int32Array;
  readonly #pose: Int32Array;
  readonly #weight: Float64Array;
  readonly #depth: Float64Array;
  readonly #order: Int32Array;
  readonly #best: { readonly u: Int32Array; readonly v: Int32Array; readonly pose: Int32Array };
  #bestTotal = Infinity;
  #map = -1;
  #mapRoom = 0;

  constructor(layout: Layout, space: RasterSpace, random: Random) {
    const n = layout.items;
    this.space = space;
    this.#layout = layout;
    this.#random = random;
    this.#n = n;
    this.#u = new Int32Array(n);
    this.#v = new Int32Array(n);
    this.#pose = new Int32Array(n);
    this.#weight = new Float64Array(n * n);
    this.#depth = new Float64Array(n * n);
    this.#order = new Int32Array(n);
    this.#best = { u: new Int32Array(n), v: new Int32Array(n), pose: new Int32Array(n) };
  }

  /** Sum of depths of the best places seen by the last `separate`, in the layout's unit of length. */
  get bestTotal(): number {
    return this.#bestTotal * this.space.unit;
  }

  /**
   * Take the layout's places to the raster, separate there, and put the best places seen back into the layout (whose depths are
   * not brought up to date).
   * @param stalledPasses - passes without a lower total that end it.
   * @returns whether all pieces are apart.
   */
  separate(stalledPasses: number, shouldStop: () => boolean): boolean {
    this.#take();
    const isApart = this.#run(stalledPasses, shouldStop);
    this.#give();
    return isApart;
  }

  #take(): void {
    const layout = this.#layout;
    const { model } = layout;
    const { space } = this;
    const { minX, minY } = layout.boards[0]!;
    for (let i = 0; i < this.#n; i++) {
      const list = model.itemPoses[i]!;
      const present = model.poses[layout.pose[i]!]!;
      let index = layout.pose[i]!;
      // A free turn has no table: the first listed pose of the same form stands in.
      if (present.isFree) index = list.find((own) => model.poses[own]!.form === present.form) ?? list[0]!;
      if (this.#across(index) < 1 || this.#up(index) < 1)
        index = list.find((p) => this.#across(p) > 0 && this.#up(p) > 0) ?? index;
      const pose = model.poses[index]!;
      this.#pose[i] = index;
      const u = Math.round((layout.x[i]! + pose.minX - minX) / space.unit);
      const v = Math.round((layout.y[i]! + pose.minY - minY) / space.unit);
      this.#u[i] = Math.max(0, Math.min(u, this.#across(index) - 1));
      this.#v[i] = Math.max(0, Math.min(v, this.#up(index) - 1));
    }
  }

  #give(): void {
    const layout = this.#layout;
    const { unit } = this.space;
    const { minX, minY } = layout.boards[0]!;
    const { u, v, pose } = this.#best;
    for (let i = 0; i < this.#n; i++) {
      const own = layout.model.poses[pose[i]!]!;
      layout.put(i, 0, pose[i]!, minX + u[i]! * unit - own.minX, minY + v[i]! * unit - own.minY);
    }
  }

  /** Places for a pose along the strip and across it. */
  #across(pose: number): number {
    const { minX, maxX } = this.#layout.boards[0]!;
    const own = this.#layout.model.poses[pose]!;
    return this.space.places(maxX - minX, own.maxX - own.minX);
  }

  #up(pose: number): number {
    const { minY, maxY } = this.#layout.boards[0]!;
    const own = this.#layout.model.poses[pose]!;
    return this.space.places(maxY - minY, own.maxY - own.minY);
  }

  #run(stalledPasses: number, shouldStop: () => boolean): boolean {
    this.#weight.fill(1);
    for (let i = 0; i < this.#n; i++) this.#refresh(i);
    this.#keep(this.#total());
    let stalled = 0;
    while (this.#bestTotal > 0 && stalled < stalledPasses) {
      let count = 0;
      for (let i = 0; i < this.#n; i++) if (this.#overlaps(i)) this.#order[count++] = i;
      shuffle(this.#order, count, this.#random);
      for (let k = 0; k < count; k++) if (this.#overlaps(this.#order[k]!)) this.#move(this.#order[k]!);
      const total = this.#total();
      if (total < this.#bestTotal) {
        stalled = 0;
        this.#keep(total);
      } else stalled++;
      if (shouldStop()) break;
      this.#reweigh();
    }
    return this.#bestTotal === 0;
  }

  #keep(total: number): void {
    this.#bestTotal = total;
    this.#best.u.set(this.#u);
    this.#best.v.set(this.#v);
    this.#best.pose.set(this.#pose);
  }

  #refresh(i: number): void {
    const n = this.#n;
    for (let j = 0; j < n; j++) {
      if (j === i) continue;
      const d = this.#pairDepth(i, j);
      this.#depth[i * n + j] = d;
      this.#depth[j * n + i] = d;
    }
  }

  #pairDepth(i: number, j: number): number {
    const { wide, high, kernel } = this.space;
    const a = this.#pose[i]!;
    const b = this.#pose[j]!;
    const du = this.#u[j]! - this.#u[i]! - 1 + wide[b]!;
    const dv = this.#v[j]! - this.#v[i]! - 1 + high[b]!;
    const columns = wide[a]! + wide[b]! - 1;
    if (du < 0 || dv < 0 || du >= columns || dv >= high[a]! + high[b]! - 1) return 0;
    const at = this.space.table(a, b) + dv * (columns + PAD) + du;
    return kernel.numbers[at]!;
  }

  #overlaps(i: number): boolean {
    const row = i * this.#n;
    for (let j = row; j < row + this.#n; j++) if (this.#depth[j]! > 0) return true;
    return false;
  }

  #total(): number {
    const n = this.#n;
    let sum = 0;
    for (let i = 0; i < n; i++) for (let j = i + 1; j < n; j++) sum += this.#depth[i * n + j]!;
    return sum;
  }

  /** Put an item at the best of all places in all its poses; ties are broken at random. */
  #move(item: number): void {
    const n = this.#n;
    const { space } = this;
    const { kernel } = space;
    const layout = this.#layout;
    const random = this.#random;
    const row = item * n;
    let best = 0;
    for (let j = 0; j < n; j++) best += this.#depth[row + j]! * this.#weight[row + j]! * layout.factor[j]!;
    let bestU = this.#u[item]!;
    let bestV = this.#v[item]!;
    let bestPose = this.#pose[item]!;
    let ties = 0;
    let added = 0;
    for (const pose of layout.model.itemPoses[item]!) {
      const across = this.#across(pose);
      const up = this.#up(pose);
      if (across < 1 || up < 1) continue;
      const stride = across + PAD;
      const fours = (stride * up + 3) >> 2;
      const map = this.#blank(4 * fours, across, up);
      added += stride * up + this.#addAll(item, pose, map, across, up);
      if (kernel.least(map, fours) > best) continue;
      const { numbers } = kernel;
      for (let k = 0; k < stride * up; k++) {
        const value = numbers[map + k]!;
        if (value > best) continue;
        if (value < best) {
          best = value;
          ties = 0;
        }
        ties++;
        if (ties === 1 || random() * ties < 1) {
          bestV = (k / stride) | 0;
          bestU = k - bestV * stride;
          bestPose = pose;
        }
      }
    }
    layout.evaluations += 1 + Math.round(added / ADDITIONS_PER_EVALUATION);
    if (bestU === this.#u[item]! && bestV === this.#v[item]! && bestPose === this.#pose[item]!) return;
    this.#u[item] = bestU;
    this.#v[item] = bestV;
    this.#pose[item] = bestPose;
    this.#refresh(item);
  }

  /** Add the weighted tables of all other pieces to a map. */
  #addAll(item: number, pose: number, map: number, across: number, up: number): number {
    const n = this.#n;
    const { space } = this;
    const { kernel } = space;
    const { factor } = this.#layout;
    const row = item * n;
    const wide = space.wide[pose]!;
    const high = space.high[pose]!;
    const stride = across + PAD;
    let added = 0;
    for (let j = 0; j < n; j++) {
      if (j === item) continue;
      const other = this.#pose[j]!;
      const columns = space.wide[other]! + wide - 1;
      const rows = space.high[other]! + high - 1;
      const left = this.#u[j]! + 1 - wide;
      const low = this.#v[j]! + 1 - high;
      const c0 = left < 0 ? -left : 0;
      const c1 = left + columns > across ? across - left : columns;
      const r0 = low < 0 ? -low : 0;
      const r1 = low + rows > up ? up - low : rows;
      if (c1 <= c0 || r1 <= r0) continue;
      const from = space.table(other, pose) + r0 * (columns + PAD) + c0;
      const fours = (c1 - c0 + 3) >> 2;
      const weight = this.#weight[row + j]! * factor[j]!;
      kernel.add(map + (low + r0) * stride + left + c0, from, stride, columns + PAD, fours, r1 - r0, weight);
      added += 4 * fours * (r1 - r0);
    }
    return added;
  }

  /** A map of zeros, `count` numbers; those that belong to no place are too large to be the least. */
  #blank(count: number, across: number, up: number): number {
    const { kernel } = this.space;
    if (count > this.#mapRoom) {
      this.#map = kernel.reserve(2 * count + 4);
      this.#mapRoom = 2 * count;
    }
    const { numbers } = kernel;
    const end = this.#map + count;
    numbers.fill(0, this.#map, end);
    const stride = across + PAD;
    const rowsEnd = this.#map + up * stride;
    for (let at = this.#map + across; at < rowsEnd; at += stride) {
      numbers[at] = NOWHERE;
      numbers[at + 1] = NOWHERE;
      numbers[at + 2] = NOWHERE;
    }
    for (let at = rowsEnd; at < end; at++) numbers[at] = NOWHERE;
    return this.#map;
  }

  #reweigh(): void {
    const depth = this.#depth;
    const weight = this.#weight;
    let deepest = 0;
    for (let k = 0; k < depth.length; k++) if (depth[k]! > deepest) deepest = depth[k]!;
    let largest = 0;
    for (let k = 0; k < depth.length; k++) {
      const d = depth[k]!;
      let w = weight[k]!;
      if (d > 0) w *= GROWTH_LEAST + (GROWTH_SPREAD * d) / deepest;
      else if (w > 1) w = Math.max(1, w * DECAY);
      else continue;
      if (w > largest) largest = w;
      weight[k] = w;
    }
    if (largest > WEIGHT_LIMIT)
      for (let k = 0; k < weight.length; k++) weight[k] = Math.max(1, weight[k]! / WEIGHT_LIMIT);
  }
}
