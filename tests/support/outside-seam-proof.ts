import 'jsts/org/locationtech/jts/monkey.js';
import type { Contour, Shape } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import type { Region } from '@underlap/geometry/region';
import type { Seam, SeamTask, SplitPlan } from '@underlap/seam/task';
import AffineTransformation from 'jsts/org/locationtech/jts/geom/util/AffineTransformation.js';
import WKTReader from 'jsts/org/locationtech/jts/io/WKTReader.js';
import SnapIfNeededOverlayOp from 'jsts/org/locationtech/jts/operation/overlay/snap/SnapIfNeededOverlayOp.js';
import type { JstsGeometry } from './jsts-geometry.ts';

/**
 * A second proof of split plans that shares no geometry code with the planner: curves are turned into points here, areas,
 * overlaps and buffers are those of jsts 2.12 (the JavaScript port of the JTS Topology Suite).
 */

/** What is wrong with a plan; empty when all holds. */
export function proveOutside(task: SeamTask, plan: SplitPlan): string[] {
  const pieces = new Map(plan.pieces.map((piece) => [piece.id, shapeGeometry(piece.shape)]));
  return [
    ...provePartition(task, pieces),
    ...plan.pieces.flatMap((piece) => proveFits(task, piece.id, piece.shape, piece.limitTurnDeg)),
    ...proveLengths(task, plan),
    ...plan.seams.flatMap((seam) => proveLocks(task, seam, pieces)),
  ];
}

/** Chords of curves leave this much along a seam; areas differ by no more, mm2 for each mm of outline. */
const CHORD_MM = 0.002;

function provePartition(task: SeamTask, pieces: ReadonlyMap<string, JstsGeometry>): string[] {
  const out: string[] = [];
  const whole = shapeGeometry(task.shape);
  const all = [...pieces];
  const sum = all.reduce((total, [, piece]) => total + piece.getArea(), 0);
  const allowed = CHORD_MM * all.reduce((total, [, piece]) => total + piece.getLength(), 0) + 0.01;
  if (Math.abs(sum - whole.getArea()) > allowed) {
    out.push(`pieces make ${sum.toFixed(2)} mm2 of ${whole.getArea().toFixed(2)}`);
  }
  for (const [id, piece] of all) {
    if (!piece.isValid()) out.push(`${id} crosses itself`);
    const beyond = piece.getArea() - overlapOf(piece, whole);
    if (beyond > allowed) out.push(`${id} has ${beyond.toFixed(3)} mm2 outside the part`);
  }
  all.forEach(([a, first], index) => {
    for (const [b, second] of all.slice(index + 1)) {
      const overlap = overlapOf(first, second);
      if (overlap > allowed) out.push(`${a} and ${b} overlap by ${overlap.toFixed(3)} mm2`);
    }
  });
  // Nothing outside, no overlap and the same area: the union is the part.
  return out;
}

function proveFits(task: SeamTask, id: string, shape: Shape, turns: Readonly<Record<string, number>>): string[] {
  const points = contourPoints(shape.outer);
  return task.limits.flatMap((limit) => {
    const turn = ((turns[limit.name] ?? 0) * Math.PI) / 180;
    const along = points.map(({ x, y }) => x * Math.cos(turn) - y * Math.sin(turn));
    const across = points.map(({ x, y }) => x * Math.sin(turn) + y * Math.cos(turn));
    const width = Math.max(...along) - Math.min(...along) + task.kerf;
    const height = Math.max(...across) - Math.min(...across) + task.kerf;
    const fits = width <= limit.width + 0.001 && height <= limit.height + 0.001;
    return fits ? [] : [`${id} needs ${width.toFixed(2)} x ${height.toFixed(2)} of a ${limit.name}`];
  });
}

/**
 * How far an edge of what hides or holds may lie from where it is here, mm: the planner's rounded corners and its paths are made of
 * chords within 0.002 each, those of jsts within 0.0003. What is told must lie between the lengths measured with the areas shrunk
 * and grown by this.
 */
const EDGE_MM = 0.005;

/** Stretches and gaps below 0.02 mm are not told apart by the planner: so much for each. */
const SPECK_MM = 0.02;

/** Chords within 0.002 mm of an arc of 4 mm, the least head of a knob, are shorter by this share. */
const CHORD_SHARE = 1.7e-4;

function proveLengths(task: SeamTask, plan: SplitPlan): string[] {
  const out: string[] = [];
  const cover = task.cover.map(regionGeometry);
  const part = regionGeometry(task.region);
  const held = task.glue.flatMap(({ region }) => {
    const rest = part.difference(regionGeometry(region).buffer(0.02, 64));
    return [rest.isEmpty() ? part : part.difference(rest.buffer(task.landing + 0.02, 64))];
  });
  // Long straight lines of the drawing, as wide as a burnt line.
  const drawn = (task.marks ?? []).map((mark) => lineGeometry(pairs(mark)).buffer(0.3, 64));
  for (const seam of plan.seams) {
    const line = lineGeometry(contourPoints(seam.path));
    const short = CHORD_SHARE * seam.lengthMm;
    if (Math.abs(line.getLength() - seam.lengthMm) > SPECK_MM + short) {
      out.push(`${seam.id} is ${line.getLength().toFixed(2)} mm long, not ${seam.lengthMm.toFixed(2)}`);
    }
    const shown = cover.reduce((rest, area) => (rest.isEmpty() ? rest : rest.difference(area)), line);
    for (const [what, told, of, areas, stretches] of [
      ['hidden', seam.hiddenLengthMm, line, cover, seam.visible.length],
      ['held', seam.heldLengthMm, line, held, seam.held.length],
      ['along drawn lines', seam.ledLengthMm, shown, drawn, seam.visible.length + 2 * seam.knobs.length],
    ] as const) {
      const measure = (by: number) =>
        lengthWithin(
          of,
          areas.map((area) => (by === 0 ? area : area.buffer(by, 16))),
        );
      const allowed = SPECK_MM * (stretches + 1) + short;
      const found = measure(0);
      if (Math.abs(found - told) <= allowed) continue;
      if (told >= measure(-EDGE_MM) - allowed && told <= measure(EDGE_MM) + allowed) continue;
      out.push(`${seam.id}: ${told.toFixed(2)} mm told as ${what}, measured ${found.toFixed(2)}`);
    }
  }
  return out;
}

function lengthWithin(line: JstsGeometry, areas: readonly JstsGeometry[]): number {
  let rest = line;
  for (const area of areas) if (!rest.isEmpty()) rest = rest.difference(area);
  return line.getLength() - rest.getLength();
}

/** How far one side is moved, mm, and in how many directions. */
const MOVE_MM = 0.3;
const DIRECTIONS = 24;

/**
 * Moved in any direction, the two sides of a seam with locking knobs must collide at every knob: one flank of the head at least
 * meets its socket over most of the overhang.
 */
function proveLocks(task: SeamTask, seam: Seam, pieces: ReadonlyMap<string, JstsGeometry>): string[] {
  const [a, b] = seam.between.map((id) => pieces.get(id)!);
  const out: string[] = [];
  for (const knob of seam.knobs) {
    if (knob.kind === 'step') continue;
    const half = knob.head / 2 + 2;
    const window = rectangleGeometry(knob.centre, half + 1);
    const inner = rectangleGeometry(knob.centre, half);
    const fixed = clip(b!, window);
    const loose = clip(a!, inner);
    const wanted = 0.9 * MOVE_MM * ((knob.head - knob.neck) / 2);
    for (let k = 0; k < DIRECTIONS; k++) {
      const angle = (2 * Math.PI * k) / DIRECTIONS;
      const overlap = overlapOf(moved(loose, MOVE_MM * Math.cos(angle), MOVE_MM * Math.sin(angle)), fixed);
      if (overlap >= wanted) continue;
      out.push(
        `${seam.id} gives way at ${knob.centre.x.toFixed(0)}, ${knob.centre.y.toFixed(0)} towards ${15 * k} degrees`,
      );
      break;
    }
  }
  if (seam.knobs.some((knob) => knob.kind !== 'step' && knob.head - knob.neck < 0.48 + 2 * task.fit)) {
    out.push(`${seam.id} has a knob without overhang`);
  }
  return out;
}

function overlapOf(a: JstsGeometry, b: JstsGeometry): number {
  return SnapIfNeededOverlayOp.intersection(a, b).getArea();
}

function clip(a: JstsGeometry, b: JstsGeometry): JstsGeometry {
  return SnapIfNeededOverlayOp.intersection(a, b);
}

function moved(geometry: JstsGeometry, dx: number, dy: number): JstsGeometry {
  return AffineTransformation.translationInstance(dx, dy).transform(geometry);
}

function regionGeometry(region: Region): JstsGeometry {
  return polygonGeometry(pairs(region.outer), region.holes.map(pairs));
}

function pairs(flat: Float64Array): Point[] {
  return Array.from({ length: flat.length / 2 }, (_, k) => ({ x: flat[2 * k]!, y: flat[2 * k + 1]! }));
}

function shapeGeometry(shape: Shape): JstsGeometry {
  return polygonGeometry(contourPoints(shape.outer), shape.holes.map(contourPoints));
}

function rectangleGeometry({ x, y }: Point, half: number): JstsGeometry {
  const corners = [
    { x: x - half, y: y - half },
    { x: x + half, y: y - half },
    { x: x + half, y: y + half },
    { x: x - half, y: y + half },
  ];
  return polygonGeometry(corners, []);
}

function polygonGeometry(outer: readonly Point[], holes: readonly (readonly Point[])[]): JstsGeometry {
  const ring = (points: readonly Point[]) => `(${[...points, points[0]!].map(({ x, y }) => `${x} ${y}`).join(', ')})`;
  return new WKTReader().read(`POLYGON (${[outer, ...holes].map(ring).join(', ')})`);
}

function lineGeometry(points: readonly Point[]): JstsGeometry {
  return new WKTReader().read(`LINESTRING (${points.map(({ x, y }) => `${x} ${y}`).join(', ')})`);
}

/** Points of a contour, its curves as chords within CHORD_MM; a closed one ends before its start comes again. */
function contourPoints(contour: Contour): Point[] {
  const out: Point[] = [contour.start];
  let from = contour.start;
  for (const segment of contour.segments) {
    const start = from;
    if (segment.kind === 'line') out.push(segment.to);
    else if (segment.kind === 'arc') {
      const { centre, radius, sweep } = segment;
      const first = Math.atan2(start.y - centre.y, start.x - centre.x);
      const steps = Math.max(2, Math.ceil(Math.abs(sweep) / (2 * Math.acos(Math.max(0, 1 - CHORD_MM / radius)))));
      for (let k = 1; k < steps; k++) {
        const angle = first + (sweep * k) / steps;
        out.push({ x: centre.x + radius * Math.cos(angle), y: centre.y + radius * Math.sin(angle) });
      }
      out.push(segment.to);
    } else if (segment.kind === 'ellipse') {
      throw new Error('the drawings proven here have no arcs of ellipses');
    } else {
      const { c1, c2, to } = segment;
      const steps = 200;
      for (let k = 1; k < steps; k++) {
        const t = k / steps;
        const u = 1 - t;
        const mix = (p: number, q: number, r: number, s: number) =>
          u * u * u * p + 3 * u * u * t * q + 3 * u * t * t * r + t * t * t * s;
        out.push({ x: mix(start.x, c1.x, c2.x, to.x), y: mix(start.y, c1.y, c2.y, to.y) });
      }
      out.push(to);
    }
    from = segment.to;
  }
  const last = out[out.length - 1]!;
  const isBack = Math.hypot(last.x - contour.start.x, last.y - contour.start.y) < 1e-7;
  return contour.closed && isBack ? out.slice(0, -1) : out;
}
