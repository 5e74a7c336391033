import { segmentPoint, segmentTangent } from '@underlap/geometry/contour';
import type { Shape } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import type { Ring } from '@underlap/geometry/ring';
import type { CutEnd, Face } from './arrangement.ts';
import { cornerDepth } from './corner.ts';
import type { FaceFields } from './fields.ts';
import { sampleField } from './grid.ts';
import { runOn } from './lead-lines.ts';
import type { SeamSizes } from './sizes.ts';
import { type Spine, spineAt } from './spine.ts';

/** Distance between outline samples, mm. */
const SAMPLE_MM = 1.5;

/** Distance between places where a seam may end, mm. */
const TERMINAL_MM = 4;

/** The outline near an end may lean from its tangent by this much, so that the seam meets it at 60 degrees or more. */
const MOST_LEAN = Math.sin((26 * Math.PI) / 180);

/** A drawn line that meets the outline at less than some 66 degrees leads no seam. */
const LEAST_SQUARE = Math.cos((24 * Math.PI) / 180);

/** A corner deeper than this, in radii of the disc, loses more wood than a corner of 53 degrees between straight edges. */
export const MOST_DEPTH = 2;

/** What an end is charged for a corner that is too thin, where it must be taken: as much as 20 mm that show. */
export const THIN_CORNER_COST = 400;

/** Even corners that hold are charged for a disc of 10 mm that does not fit: a seam prefers open places. */
const WIDE_DISC_MM = 5;
const WIDE_DISC_COST = 25;

/** How far along the outline a corner is judged, mm. */
const CORNER_MM = 20;

/** A point of a face's outline in order of travel (face on the left). */
export interface OutlineSample {
  readonly x: number;
  readonly y: number;
  /** Unit tangent. */
  readonly tx: number;
  readonly ty: number;
  /** Distance along the outline, measured by chords. */
  readonly at: number;
  readonly end: CutEnd;
  /** May a seam end here, as far as its own curve is concerned? */
  readonly open: boolean;
  /** Way into the face of a drawn line that meets the outline here, for seams that follow it. */
  readonly line?: Point;
}

/** A place where a seam may end, square to the outline. */
export interface Terminal {
  /** Index in the list of samples. */
  readonly sample: number;
  readonly x: number;
  readonly y: number;
  /** Unit vector into the face: square to the outline, or along the drawn line that is followed. */
  readonly nx: number;
  readonly ny: number;
  readonly end: CutEnd;
  readonly lead: number;
  readonly cost: number;
  /** The outline on both sides of the end, flat x, y, ...: what the corners are judged by. */
  readonly outline: Float64Array;
}

/**
 * The outline of a face as samples with exact parameters.
 * @param junctionClear - on earlier cuts no seam may end nearer than this to another end, mm.
 * @remarks O(length).
 */
export function outlineSamples(
  face: Face,
  shape: Shape,
  spines: readonly Spine[],
  junctions: readonly (readonly number[])[],
  junctionClear: number,
  lines: readonly Ring[] = [],
): OutlineSample[] {
  const drawn = lines.map(runOn);
  const contours = [shape.outer, ...shape.holes];
  const raw: Sample[] = [];
  for (const { edge, forward } of face.loop) {
    const stretch: Sample[] = [];
    if (edge.cut >= 0) {
      const spine = spines[edge.cut]!;
      const count = Math.max(1, Math.round((edge.s1 - edge.s0) / SAMPLE_MM));
      const stops = [0, spine.length, ...(junctions[edge.cut] ?? [])];
      const at = (s: number) => {
        const { x, y, tx, ty } = spineAt(spine, s);
        const open = stops.every((stop) => Math.abs(stop - s) > junctionClear);
        return { x, y, tx, ty, end: { kind: 'cut', cut: edge.cut, s } as const, open };
      };
      stretch.push(...samplesAlong(at, edge.s0, edge.s1, count, drawn));
    } else {
      const contour = contours[edge.contour]!;
      for (const { segment: index, u0, u1 } of edge.origins) {
        const segment = contour.segments[index]!;
        const from = index === 0 ? contour.start : contour.segments[index - 1]!.to;
        const size = chordLength(from, segment.to, segmentPoint(from, segment, (u0 + u1) / 2), u0, u1, from, segment);
        const count = Math.max(1, Math.round(size / SAMPLE_MM));
        const at = (u: number) => {
          const { x, y } = segmentPoint(from, segment, u);
          const tangent = segmentTangent(from, segment, u);
          const end = { kind: 'outline', contour: edge.contour, segment: index, u } as const;
          return { x, y, tx: tangent.x, ty: tangent.y, end, open: true };
        };
        stretch.push(...samplesAlong(at, u0, u1, count, drawn));
      }
    }
    if (forward) raw.push(...stretch);
    else for (const sample of stretch.reverse()) raw.push(reversed(sample));
  }
  const out: OutlineSample[] = [];
  let at = 0;
  raw.forEach((sample, i) => {
    if (i > 0) at += Math.hypot(sample.x - raw[i - 1]!.x, sample.y - raw[i - 1]!.y);
    out.push({ ...sample, at });
  });
  return out;
}

type Sample = Omit<OutlineSample, 'at'>;

/** Evenly spaced samples of a stretch, and one more wherever a drawn line meets it. */
function samplesAlong(
  at: (u: number) => Sample,
  u0: number,
  u1: number,
  count: number,
  lines: readonly Ring[],
): Sample[] {
  const out: Sample[] = [];
  const placeOf = (k: number) => u0 + ((u1 - u0) * (k + 0.5)) / count;
  for (let k = 0; k < count; k++) {
    const here = at(placeOf(k));
    const before = out[out.length - 1];
    if (before !== undefined) out.push(...meetings(at, before, here, placeOf(k - 1), placeOf(k), lines));
    out.push(here);
  }
  return out;
}

/** Halvings of a stretch of 1.5 mm until the place is exact to a millionth. */
const HALVINGS = 24;

function meetings(
  at: (u: number) => Sample,
  before: Sample,
  after: Sample,
  from: number,
  to: number,
  lines: readonly Ring[],
): Sample[] {
  const out: Sample[] = [];
  for (const line of lines) {
    for (let i = 0; i + 3 < line.length; i += 2) {
      const [ax, ay] = [line[i]!, line[i + 1]!];
      const [dx, dy] = [line[i + 2]! - ax, line[i + 3]! - ay];
      const sideOf = ({ x, y }: Sample) => dx * (y - ay) - dy * (x - ax);
      const along = ({ x, y }: Sample) => ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy);
      const isBefore = sideOf(before) > 0;
      if (isBefore === sideOf(after) > 0 || along(before) < 0 || along(before) > 1) continue;
      let [low, high] = [from, to];
      for (let k = 0; k < HALVINGS; k++) {
        const middle = (low + high) / 2;
        if (sideOf(at(middle)) > 0 === isBefore) low = middle;
        else high = middle;
      }
      const meeting = at((low + high) / 2);
      const size = Math.hypot(dx, dy);
      // Into the face: on the left of travel along its outline.
      const sign = dy * meeting.tx - dx * meeting.ty > 0 ? 1 : -1;
      out.push({ ...meeting, line: { x: (sign * dx) / size, y: (sign * dy) / size } });
    }
  }
  return out;
}

function reversed(sample: Sample): Sample {
  const back = { ...sample, tx: -sample.tx, ty: -sample.ty };
  return sample.line === undefined ? back : { ...back, line: { x: -sample.line.x, y: -sample.line.y } };
}

/** The edge of a whole hole as samples, wood on the left of travel like a face's own outline. O(length). */
export function holeSamples(shape: Shape, hole: number, lines: readonly Ring[]): OutlineSample[] {
  const curve = shape.holes[hole]!;
  const origins = curve.segments.map((_, segment) => ({ segment, u0: 0, u1: 1 }));
  const edge = { id: 0, curve, cut: -1, s0: 0, s1: 0, contour: hole + 1, origins, line: new Float64Array() };
  const face = { loop: [{ edge, forward: true }], outer: edge.line, holes: [], holeRings: [] };
  return outlineSamples(face, shape, [], [], 0, lines);
}

/**
 * Places on the outline where a seam can begin square to it: no corner near, a free run-up into the face, and wood enough
 * between the two.
 * @param mayBeThin - places with a thin corner are kept, at a price: for faces that offer no other.
 * @remarks O(samples).
 */
export function terminalsOf(
  samples: readonly OutlineSample[],
  fields: FaceFields,
  sizes: SeamSizes,
  edgeClear: number,
  mayBeThin: boolean,
): Terminal[] {
  const out: Terminal[] = [];
  let next = -Infinity;
  for (let i = 0; i < samples.length; i++) {
    const sample = samples[i]!;
    const { line } = sample;
    if (!sample.open || (sample.at < next && line === undefined)) continue;
    const lean = leanPenalty(samples, i);
    if (lean === null) continue;
    const { x: nx, y: ny } = line ?? { x: -sample.ty, y: sample.tx };
    if (sample.tx * ny - sample.ty * nx < LEAST_SQUARE) continue;
    const outline = outlineAround(samples, i);
    const thin = thinPenalty(outline, sample, { x: nx, y: ny }, sizes);
    if (thin >= THIN_CORNER_COST && !mayBeThin) continue;
    const lead = freeLead(sample, nx, ny, fields, sizes, edgeClear);
    if (lead === null) continue;
    next = sample.at + TERMINAL_MM;
    out.push({
      sample: i,
      x: sample.x,
      y: sample.y,
      nx,
      ny,
      end: sample.end,
      lead: lead.length,
      cost: lead.cost + lean + thin + (sizes.lead - lead.length) * 2,
      outline,
    });
  }
  return out;
}

function thinPenalty(outline: Float64Array, at: Point, way: Point, sizes: SeamSizes): number {
  if (cornerDepth(outline, at, way, sizes.leastDisc) > MOST_DEPTH) return THIN_CORNER_COST;
  return WIDE_DISC_COST * Math.max(0, cornerDepth(outline, at, way, WIDE_DISC_MM) - MOST_DEPTH);
}

/** The outline some way before and after a sample. */
function outlineAround(samples: readonly OutlineSample[], index: number): Float64Array {
  const n = samples.length;
  const count = Math.min(Math.ceil(CORNER_MM / SAMPLE_MM), Math.floor((n - 1) / 2));
  const out = new Float64Array(4 * count + 2);
  for (let k = -count; k <= count; k++) {
    const { x, y } = samples[(index + k + n) % n]!;
    out[2 * (k + count)] = x;
    out[2 * (k + count) + 1] = y;
  }
  return out;
}

/** Null when the outline bends away within 2 mm; a growing cost when it does within 4 or 7 mm. */
function leanPenalty(samples: readonly OutlineSample[], index: number): number | null {
  const here = samples[index]!;
  let cost = 0;
  for (const [reach, price] of [
    [2.2, null],
    [4.5, 12],
    [8, 8],
  ] as const) {
    for (const way of [1, -1]) {
      const there = walk(samples, index, way, reach);
      const dx = there.x - here.x;
      const dy = there.y - here.y;
      const size = Math.hypot(dx, dy);
      if (size < 1e-9) continue;
      const along = (way * (dx * here.tx + dy * here.ty)) / size;
      const across = Math.abs(dx * here.ty - dy * here.tx) / size;
      if (along <= 0 || across > MOST_LEAN) {
        if (price === null) return null;
        cost += price;
      }
    }
  }
  return cost;
}

function walk(samples: readonly OutlineSample[], index: number, way: number, reach: number): OutlineSample {
  const n = samples.length;
  const here = samples[index]!;
  let k = index;
  let gone = 0;
  for (let step = 0; step < n && gone < reach; step++) {
    const before = samples[k]!;
    k = (k + way + n) % n;
    gone += Math.hypot(samples[k]!.x - before.x, samples[k]!.y - before.y);
  }
  return samples[k] ?? here;
}

function freeLead(
  at: Point,
  nx: number,
  ny: number,
  fields: FaceFields,
  sizes: SeamSizes,
  edgeClear: number,
): { length: number; cost: number } | null {
  for (const length of [sizes.lead, 10, 7]) {
    if (length < edgeClear) continue;
    let cost = 0;
    let free = true;
    const steps = Math.ceil(length / 2);
    for (let k = 1; k <= steps && free; k++) {
      const d = (length * k) / steps;
      const x = at.x + d * nx;
      const y = at.y + d * ny;
      const edge = sampleField(fields.grid, fields.edge, x, y);
      // Another stretch of outline nearer than the one we started from would leave a sliver.
      if (edge < Math.min(0.75 * d, edgeClear) - 0.3 * fields.grid.step) free = false;
      const each = sampleField(fields.grid, fields.part.cost, x, y);
      if (!(each < Infinity)) free = false;
      cost += (each * length) / steps;
    }
    if (free) return { length, cost };
  }
  return null;
}

function chordLength(
  from: Point,
  to: Point,
  middle: Point,
  u0: number,
  u1: number,
  start: Point,
  segment: Parameters<typeof segmentPoint>[1],
): number {
  if (segment.kind === 'line') return Math.hypot(to.x - from.x, to.y - from.y) * (u1 - u0);
  const a = segmentPoint(start, segment, u0);
  const b = segmentPoint(start, segment, u1);
  const q1 = segmentPoint(start, segment, u0 + (u1 - u0) / 4);
  const q3 = segmentPoint(start, segment, u0 + (3 * (u1 - u0)) / 4);
  return (
    Math.hypot(q1.x - a.x, q1.y - a.y) +
    Math.hypot(middle.x - q1.x, middle.y - q1.y) +
    Math.hypot(q3.x - middle.x, q3.y - middle.y) +
    Math.hypot(b.x - q3.x, b.y - q3.y)
  );
}
