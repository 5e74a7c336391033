import { intersectRegions } from '@underlap/geometry/boolean';
import type { Contour, Segment } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import type { SeamTask } from '@underlap/seam/task';
import { circle, polygon, rectangle, regionOf, shapeOf, slot, taskOf } from '../../packages/seam/testing/fixtures.ts';

/** Ten kinds of sign (and a plank and a hoop) as makers cut them, drawn for the tests: the large part, and what is glued on it. */

/** Beds that makers own, mm; on the last one material passes through. */
export const BEDS = {
  '520x320': [520, 320],
  '400x400': [400, 400],
  '300x200': [300, 200],
  '305x508': [305, 508],
  '600x300 through': [Number.POSITIVE_INFINITY, 300],
} as const satisfies Record<string, readonly [number, number]>;
export type BedName = keyof typeof BEDS;

interface Design {
  readonly outline: Contour;
  readonly holes: readonly Contour[];
  readonly cover: readonly Contour[];
  /** Scored lines of the drawing. */
  readonly marks?: readonly (readonly [number, number, number, number])[];
}

export const DESIGNS = {
  oval: () => ({
    outline: ellipse(0, 0, 280, 190),
    holes: [circle(-200, -60, 3), circle(200, -60, 3)],
    cover: [ribbon(-270, 270, 0, 70), circle(0, -120, 45), circle(-90, 120, 35), circle(90, 120, 35)],
  }),
  /** Long and low: quarters go in only when they lie askew. */
  longOval: () => ({
    outline: ellipse(0, 0, 320, 165),
    holes: [circle(-230, -70, 3), circle(230, -70, 3)],
    cover: [ribbon(-335, 335, 10, 64), circle(-120, -90, 40), circle(120, 100, 40)],
  }),
  /** Long arms round a small middle. */
  slimStar: () => ({
    outline: starOf(5, 330, 0.42),
    holes: [circle(0, -250, 4)],
    cover: [circle(0, 0, 90)],
  }),
  arch: () => ({
    outline: arch(600, 150, 258),
    holes: [circle(300, -232, 6)],
    cover: [rectangle(90, -90, 420, 55), circle(300, 80, 55)],
    marks: [75, 150, 225, 300, 375, 450, 525].map((x) => [x, 150, x, archTop(x, 600, 258)] as const),
  }),
  shield: () => ({
    outline: shield(480, 560),
    holes: [],
    cover: [rectangle(-250, -110, 500, 70), circle(0, 90, 90)],
  }),
  star: () => ({
    outline: starOf(5, 290, 0.5),
    holes: [circle(0, -240, 4)],
    cover: [circle(0, 0, 100), rectangle(-180, 20, 360, 50)],
  }),
  /** Eight points, 600 across: three pieces would leave one of them a mere tip. */
  windRose: () => ({
    outline: starOf(8, 300, 0.45),
    holes: [circle(0, 0, 20)],
    cover: [circle(0, 0, 110)],
  }),
  ring: () => ({
    outline: circle(0, 0, 280),
    holes: [circle(0, 0, 225)],
    cover: [ribbon(-290, 290, 200, 60)],
  }),
  house: () => ({
    outline: house(),
    holes: [
      rectangle(130, 250, 70, 90),
      rectangle(290, 250, 70, 90),
      rectangle(205, 395, 80, 110),
      circle(245, 150, 28),
    ],
    cover: [rectangle(100, 355, 290, 30), rectangle(20, 400, 60, 60), rectangle(410, 400, 60, 60)],
  }),
  /** The same house with six windows and a door that leave narrow webs only. */
  windows: () => ({
    outline: house(),
    holes: [
      ...[120, 210, 300].flatMap((x) => [rectangle(x, 235, 70, 70), rectangle(x, 325, 70, 70)]),
      rectangle(205, 415, 80, 90),
    ],
    cover: [rectangle(100, 306, 290, 18)],
  }),
  plaque: () => ({
    outline: plaque(610, 406, 40),
    holes: [circle(30, 203, 3), circle(580, 203, 3)],
    cover: [rectangle(60, 170, 490, 66), circle(305, 100, 50), circle(305, 310, 50)],
  }),
  silhouette: () => ({
    outline: whale(),
    holes: [circle(100, 150, 6), slot(300, 60, 30, 8)],
    cover: [ribbon(40, 480, 160, 60)],
  }),
  porch: () => ({
    outline: plaque(914, 240, 25),
    holes: [circle(30, 120, 3), circle(884, 120, 3)],
    cover: [
      rectangle(90, 70, 120, 100),
      rectangle(250, 70, 110, 100),
      rectangle(400, 70, 120, 100),
      rectangle(560, 70, 110, 100),
      rectangle(710, 70, 110, 100),
    ],
  }),
  door: () => ({
    outline: circle(0, 0, 203),
    holes: [circle(0, -185, 4)],
    cover: [ribbon(-215, 215, 0, 80), circle(-70, 105, 40), circle(70, 105, 40)],
  }),
  plank: () => ({
    outline: rectangle(0, 0, 900, 180),
    holes: [circle(20, 90, 3), circle(880, 90, 3)],
    cover: [circle(450, 90, 60)],
  }),
  hoop: () => ({
    outline: circle(0, 0, 203),
    holes: [circle(0, 0, 173)],
    cover: [],
  }),
} as const satisfies Record<string, () => Design>;
export type DesignName = keyof typeof DESIGNS;

/** The seam task of one design on one bed: 6 mm stock, kerf 0.2, landing 3, everything on top glued where it touches. */
export function corpusTask(
  name: DesignName,
  bed: BedName | readonly [number, number],
  more: Partial<SeamTask> = {},
): SeamTask {
  const design: Design = DESIGNS[name]();
  const size = typeof bed === 'string' ? BEDS[bed] : bed;
  const task = taskOf(shapeOf(design.outline, design.holes), design.cover, size, { id: name, landing: 3 });
  const parts = design.cover.map((contour, index) => {
    const id = `${name}-on-top-${index + 1}`;
    return { id, name: id, region: regionOf(contour) };
  });
  return {
    ...task,
    coverParts: parts,
    glue: parts.flatMap(({ id, region }) =>
      intersectRegions([task.region], [region]).map((face) => ({ partId: id, region: face })),
    ),
    marks: (design.marks ?? []).map((line) => Float64Array.from(line)),
    ...more,
  };
}

function curve(c1: Point, c2: Point, to: Point): Segment {
  return { kind: 'cubic', c1, c2, to };
}

/** Four cubics: within 0.03 % of the true ellipse. */
function ellipse(x: number, y: number, rx: number, ry: number): Contour {
  const k = 0.5522847498;
  const at = (dx: number, dy: number) => ({ x: x + dx * rx, y: y + dy * ry });
  return {
    start: at(1, 0),
    segments: [
      curve(at(1, k), at(k, 1), at(0, 1)),
      curve(at(-k, 1), at(-1, k), at(-1, 0)),
      curve(at(-1, -k), at(-k, -1), at(0, -1)),
      curve(at(k, -1), at(1, -k), at(1, 0)),
    ],
    closed: true,
  };
}

/** A waving band from x0 to x1. */
function ribbon(x0: number, x1: number, y: number, height: number): Contour {
  const w = (x1 - x0) / 3;
  const h = height / 2;
  const wave = 18;
  return {
    start: { x: x0, y: y - h },
    segments: [
      curve({ x: x0 + w, y: y - h - wave }, { x: x1 - w, y: y - h + wave }, { x: x1, y: y - h }),
      { kind: 'line', to: { x: x1, y: y + h } },
      curve({ x: x1 - w, y: y + h + wave }, { x: x0 + w, y: y + h - wave }, { x: x0, y: y + h }),
      { kind: 'line', to: { x: x0, y: y - h } },
    ],
    closed: true,
  };
}

/** Straight sides `side` high below y = 0 (drawn downwards), half an ellipse above. */
function arch(width: number, side: number, rise: number): Contour {
  const k = 0.5522847498;
  const r = width / 2;
  return {
    start: { x: 0, y: side },
    segments: [
      { kind: 'line', to: { x: 0, y: 0 } },
      curve({ x: 0, y: -k * rise }, { x: r - k * r, y: -rise }, { x: r, y: -rise }),
      curve({ x: r + k * r, y: -rise }, { x: width, y: -k * rise }, { x: width, y: 0 }),
      { kind: 'line', to: { x: width, y: side } },
      { kind: 'line', to: { x: 0, y: side } },
    ],
    closed: true,
  };
}

function archTop(x: number, width: number, rise: number): number {
  const r = width / 2;
  return -rise * Math.sqrt(1 - ((x - r) / r) ** 2);
}

function shield(width: number, height: number): Contour {
  const [x, y] = [width / 2, height / 2];
  return {
    start: { x: -x, y: -y },
    segments: [
      curve({ x: -0.5 * x, y: -y + 30 }, { x: -0.3 * x, y: -y + 30 }, { x: 0, y: -y }),
      curve({ x: 0.3 * x, y: -y + 30 }, { x: 0.5 * x, y: -y + 30 }, { x, y: -y }),
      curve({ x: x + 10, y: 0.2 * y }, { x: 0.6 * x, y: 0.7 * y }, { x: 0, y }),
      curve({ x: -0.6 * x, y: 0.7 * y }, { x: -x - 10, y: 0.2 * y }, { x: -x, y: -y }),
    ],
    closed: true,
  };
}

function starOf(points: number, radius: number, inner: number): Contour {
  return polygon(
    Array.from({ length: 2 * points }, (_, k) => {
      const r = k % 2 === 0 ? radius : radius * inner;
      const angle = (Math.PI * k) / points - Math.PI / 2;
      return { x: r * Math.cos(angle), y: r * Math.sin(angle) };
    }),
  );
}

/** A gabled house 520 high with a chimney, a tree on either side and a strip of ground. */
function house(): Contour {
  return polygon([
    { x: 0, y: 520 },
    { x: 0, y: 470 },
    { x: 15, y: 470 },
    { x: 5, y: 400 },
    { x: 30, y: 330 },
    { x: 60, y: 330 },
    { x: 85, y: 400 },
    { x: 95, y: 215 },
    { x: 70, y: 215 },
    { x: 245, y: 40 },
    { x: 320, y: 110 },
    { x: 320, y: 0 },
    { x: 365, y: 0 },
    { x: 365, y: 155 },
    { x: 420, y: 215 },
    { x: 395, y: 215 },
    { x: 405, y: 400 },
    { x: 430, y: 330 },
    { x: 460, y: 330 },
    { x: 485, y: 400 },
    { x: 475, y: 470 },
    { x: 490, y: 470 },
    { x: 490, y: 520 },
  ]);
}

/** A rectangle with round bites out of its corners. */
function plaque(width: number, height: number, bite: number): Contour {
  const corner = (to: Point, centre: Point): Segment => ({
    kind: 'arc',
    to,
    centre,
    radius: bite,
    sweep: -Math.PI / 2,
  });
  return {
    start: { x: bite, y: 0 },
    segments: [
      { kind: 'line', to: { x: width - bite, y: 0 } },
      corner({ x: width, y: bite }, { x: width, y: 0 }),
      { kind: 'line', to: { x: width, y: height - bite } },
      corner({ x: width - bite, y: height }, { x: width, y: height }),
      { kind: 'line', to: { x: bite, y: height } },
      corner({ x: 0, y: height - bite }, { x: 0, y: height }),
      { kind: 'line', to: { x: 0, y: bite } },
      corner({ x: bite, y: 0 }, { x: 0, y: 0 }),
    ],
    closed: true,
  };
}

/** A whale from the side, 620 long: a broad body, a waist and a tail fin. */
function whale(): Contour {
  return {
    start: { x: 0, y: 180 },
    segments: [
      curve({ x: 0, y: 60 }, { x: 120, y: 0 }, { x: 260, y: 10 }),
      curve({ x: 380, y: 18 }, { x: 450, y: 90 }, { x: 520, y: 120 }),
      curve({ x: 545, y: 90 }, { x: 550, y: 40 }, { x: 600, y: 10 }),
      curve({ x: 615, y: 60 }, { x: 600, y: 110 }, { x: 580, y: 150 }),
      curve({ x: 600, y: 190 }, { x: 620, y: 220 }, { x: 610, y: 280 }),
      curve({ x: 560, y: 260 }, { x: 540, y: 220 }, { x: 520, y: 205 }),
      curve({ x: 420, y: 300 }, { x: 300, y: 330 }, { x: 190, y: 320 }),
      curve({ x: 80, y: 310 }, { x: 0, y: 270 }, { x: 0, y: 180 }),
    ],
    closed: true,
  };
}
