import { unionRegions } from '@underlap/geometry/boolean';
import { orientedContour } from '@underlap/geometry/contour';
import type { Contour, Segment, Shape } from '@underlap/geometry/curve';
import { shapeToRegion } from '@underlap/geometry/flatten';
import type { Point } from '@underlap/geometry/point';
import { isInRegion, type Region } from '@underlap/geometry/region';
import seedrandom from 'seedrandom';
import type { SeamTask } from '../src/task.ts';

/** Shapes and tasks for tests: simple ones by hand, and random ones from a seed. */

export function rectangle(x: number, y: number, width: number, height: number): Contour {
  return polygon([
    { x, y },
    { x: x + width, y },
    { x: x + width, y: y + height },
    { x, y: y + height },
  ]);
}

export function polygon(points: readonly Point[]): Contour {
  const [start, ...rest] = points;
  const segments = [...rest, start!].map((to): Segment => ({ kind: 'line', to }));
  return { start: start!, segments, closed: true };
}

export function circle(x: number, y: number, radius: number): Contour {
  const start = { x: x + radius, y };
  const opposite = { x: x - radius, y };
  const centre = { x, y };
  return {
    start,
    segments: [
      { kind: 'arc', to: opposite, centre, radius, sweep: Math.PI },
      { kind: 'arc', to: start, centre, radius, sweep: Math.PI },
    ],
    closed: true,
  };
}

/** A rectangle with rounded ends, along x, `length` over all. */
export function slot(x: number, y: number, length: number, height: number, turn = 0): Contour {
  const r = height / 2;
  const half = length / 2 - r;
  const at = (dx: number, dy: number) => ({
    x: x + dx * Math.cos(turn) - dy * Math.sin(turn),
    y: y + dx * Math.sin(turn) + dy * Math.cos(turn),
  });
  const start = at(-half, -r);
  return {
    start,
    segments: [
      { kind: 'line', to: at(half, -r) },
      { kind: 'arc', to: at(half, r), centre: at(half, 0), radius: r, sweep: Math.PI },
      { kind: 'line', to: at(-half, r) },
      { kind: 'arc', to: start, centre: at(-half, 0), radius: r, sweep: Math.PI },
    ],
    closed: true,
  };
}

export function shapeOf(outer: Contour, holes: readonly Contour[] = []): Shape {
  return { outer: orientedContour(outer, 1), holes: holes.map((hole) => orientedContour(hole, -1)) };
}

export function regionOf(contour: Contour): Region {
  return shapeToRegion(shapeOf(contour), 0.01);
}

/** A task with workshop defaults: 6 mm, kerf 0.2, landing 2. */
export function taskOf(
  shape: Shape,
  cover: readonly Contour[],
  bed: readonly [number, number],
  more: Partial<SeamTask> = {},
): SeamTask {
  return {
    id: 'part',
    shape,
    region: shapeToRegion(shape, 0.01),
    cover: cover.length > 0 ? unionRegions(cover.map(regionOf)) : [],
    glue: [],
    keepOuts: [],
    avoid: [],
    limits: [{ name: 'bed', width: bed[0], height: bed[1] }],
    thickness: 6,
    kerf: 0.2,
    fit: 0.05,
    landing: 2,
    wishes: { prefer: 'fewest', morePieces: 0, pins: [], forbidden: [], knob: 'auto' },
    ...more,
  };
}

/**
 * A random part with cover, bed and material; the same seed gives the same task.
 * @param largest - width of the largest part, mm.
 */
export function randomTask(seed: string, largest = 620): SeamTask {
  const random = seedrandom(seed);
  const between = (low: number, high: number) => low + random() * (high - low);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!;
  const width = between(220, largest);
  const height = width * between(0.35, 1);
  const outer = pick([blob, scalloped, rounded, ell, star])(random, width, height);
  const part = regionOf(outer);
  const thickness = pick([3, 4, 6, 6, 9, 12]);
  const holes: Contour[] = [];
  const wanted = Math.floor(between(0, 5));
  for (let k = 0; k < wanted; k++) {
    const x = between(-width / 2, width / 2);
    const y = between(-height / 2, height / 2);
    const hole =
      random() < 0.5 ? circle(x, y, between(3, 9)) : slot(x, y, between(20, 40), between(6, 9), between(0, 3));
    const reach = 30;
    const isInside = [0, 1, 2, 3, 4, 5, 6, 7].every((i) =>
      isInRegion(part, x + reach * Math.cos((i * Math.PI) / 4), y + reach * Math.sin((i * Math.PI) / 4)),
    );
    const isApart = holes.every((other) => Math.hypot(other.start.x - x, other.start.y - y) > 75);
    if (isInside && isApart) holes.push(hole);
  }
  const cover: Contour[] = [];
  if (random() < 0.8) {
    const turn = between(-0.4, 0.4);
    cover.push(turnedRectangle(0, between(-0.25, 0.25) * height, width * between(0.6, 1.2), between(30, 90), turn));
  }
  const motifs = Math.floor(between(0, 6));
  for (let k = 0; k < motifs; k++) {
    const x = between(-width / 2, width / 2);
    const y = between(-height / 2, height / 2);
    cover.push(
      random() < 0.5 ? circle(x, y, between(15, 60)) : turnedRectangle(x, y, between(30, 120), between(30, 120), 0),
    );
  }
  const bedWidth = between(200, Math.max(260, 0.95 * width));
  const bed: [number, number] = [bedWidth, Math.max(200, bedWidth * between(0.5, 1))];
  const task = taskOf(shapeOf(outer, holes), cover, bed, {
    id: 'random',
    thickness,
    kerf: pick([0, 0.1, 0.2, 0.3]),
    fit: pick([0, 0.05, 0.1, -0.05]),
    landing: pick([1.5, 2, 3]),
  });
  const limits =
    random() < 0.3
      ? [...task.limits, { name: 'board' as const, width: bed[0] * 1.2, height: bed[1] * 0.95 }]
      : task.limits;
  return { ...task, limits };
}

type Outline = (random: () => number, width: number, height: number) => Contour;

function turnedRectangle(x: number, y: number, width: number, height: number, turn: number): Contour {
  const cos = Math.cos(turn);
  const sin = Math.sin(turn);
  const corner = (dx: number, dy: number) => ({
    x: x + (dx * width * cos - dy * height * sin) / 2,
    y: y + (dx * width * sin + dy * height * cos) / 2,
  });
  return polygon([corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)]);
}

/** A smooth closed curve of cubics through points on a wobbling ellipse. */
const blob: Outline = (random, width, height) => {
  const n = 8 + Math.floor(random() * 6);
  const points = Array.from({ length: n }, (_, k) => {
    const angle = (2 * Math.PI * k) / n;
    const share = 0.78 + 0.22 * random();
    return { x: (share * width * Math.cos(angle)) / 2, y: (share * height * Math.sin(angle)) / 2 };
  });
  const at = (k: number) => points[(k + n) % n]!;
  const segments = points.map((_, k): Segment => {
    const [p0, p1, p2, p3] = [at(k - 1), at(k), at(k + 1), at(k + 2)];
    return {
      kind: 'cubic',
      c1: { x: p1.x + (p2.x - p0.x) / 6, y: p1.y + (p2.y - p0.y) / 6 },
      c2: { x: p2.x - (p3.x - p1.x) / 6, y: p2.y - (p3.y - p1.y) / 6 },
      to: p2,
    };
  });
  return { start: points[0]!, segments, closed: true };
};

/** An ellipse edged with outward arcs. */
const scalloped: Outline = (random, width, height) => {
  const n = 8 + Math.floor(random() * 8);
  const points = Array.from({ length: n }, (_, k) => {
    const angle = (2 * Math.PI * k) / n;
    return { x: 0.45 * width * Math.cos(angle), y: 0.45 * height * Math.sin(angle) };
  });
  const bulge = 0.6 + 0.8 * random();
  const segments = points.map((from, k): Segment => {
    const to = points[(k + 1) % n]!;
    const chord = Math.hypot(to.x - from.x, to.y - from.y);
    const radius = chord / (2 * Math.sin(bulge / 2));
    const off = radius * Math.cos(bulge / 2);
    const mx = (from.x + to.x) / 2;
    const my = (from.y + to.y) / 2;
    const centre = { x: mx - ((to.y - from.y) / chord) * off, y: my + ((to.x - from.x) / chord) * off };
    return { kind: 'arc', to, centre, radius, sweep: bulge };
  });
  return { start: points[0]!, segments, closed: true };
};

const rounded: Outline = (random, width, height) => {
  const r = 5 + random() * 0.3 * height;
  const [x, y] = [width / 2, height / 2];
  const corner = (to: Point, cx: number, cy: number): Segment => ({
    kind: 'arc',
    to,
    centre: { x: cx, y: cy },
    radius: r,
    sweep: Math.PI / 2,
  });
  return {
    start: { x: -x + r, y: -y },
    segments: [
      { kind: 'line', to: { x: x - r, y: -y } },
      corner({ x, y: -y + r }, x - r, -y + r),
      { kind: 'line', to: { x, y: y - r } },
      corner({ x: x - r, y }, x - r, y - r),
      { kind: 'line', to: { x: -x + r, y } },
      corner({ x: -x, y: y - r }, -x + r, y - r),
      { kind: 'line', to: { x: -x, y: -y + r } },
      corner({ x: -x + r, y: -y }, -x + r, -y + r),
    ],
    closed: true,
  };
};

const ell: Outline = (random, width, height) => {
  const [x, y] = [width / 2, height / 2];
  const a = -x + (0.3 + 0.4 * random()) * width;
  const b = -y + (0.3 + 0.4 * random()) * height;
  return polygon([
    { x: -x, y: -y },
    { x, y: -y },
    { x, y: b },
    { x: a, y: b },
    { x: a, y },
    { x: -x, y },
  ]);
};

const star: Outline = (random, width, height) => {
  const n = 5 + Math.floor(random() * 4);
  const inner = 0.55 + 0.3 * random();
  const points = Array.from({ length: 2 * n }, (_, k) => {
    const share = k % 2 === 0 ? 0.5 : 0.5 * inner;
    const angle = (Math.PI * k) / n;
    return { x: share * width * Math.cos(angle), y: share * height * Math.sin(angle) };
  });
  return polygon(points);
};
