import type { Complaint } from '@underlap/artwork/drawing';
import { intersectRegions } from '@underlap/geometry/boolean';
import { contourBounds } from '@underlap/geometry/contour';
import { distancePointToRing } from '@underlap/geometry/distance';
import { FLATTEN_TOLERANCE_MM, flattenContour, shapeToRegion } from '@underlap/geometry/flatten';
import { offsetRegions } from '@underlap/geometry/offset';
import type { Point } from '@underlap/geometry/point';
import { type Region, regionArea } from '@underlap/geometry/region';
import { reversedRing } from '@underlap/geometry/ring';
import { type Hang, hangFrom, type Mass, massOf } from '@underlap/shop/hanging';
import { bearingOf, placeSlots, slotContour, slotFaults, slotRegion } from '@underlap/shop/slots';
import { coverOf } from '@underlap/stack/cover';
import { type BuildPlace, buildPlaces } from '@underlap/stack/levels';
import type { Part, Sign } from '@underlap/stack/sign';
import type { Job } from './document.ts';
import type { SplitResult } from './stages.ts';
import { jobForPart } from './stock-of.ts';
import { thicknessesOf } from './thickness.ts';

/** A drawn hole that a nail or hook goes through, mm (common practice, no source). */
const LEAST_HOLE_MM = 2;
const MOST_HOLE_MM = 60;

/** The sign with the slots that the job asks for cut into its lowest part, and a complaint for each that has no good place. */
export function withSlots(sign: Sign, job: Job): Sign {
  const { hanging } = job.shop;
  if (hanging.slots === 0 && hanging.at.length === 0) return sign;
  const places = buildPlaces(sign, thicknessesOf(sign, job));
  const ground = groundOf(places);
  const mass = massOfSign(sign, job);
  if (ground === null || mass === null) return sign;
  const cover = coverOf(sign, ground.id);
  const count = hanging.slots === 1 ? 1 : 2;
  const found =
    hanging.at.length > 0
      ? hanging.at
      : placeSlots(ground.region, cover, hanging, count, mass.centre).map(({ at }) => at);
  const complaints = [
    ...(found.length === 0 ? [noRoom(ground, hanging.slots)] : []),
    ...found.flatMap((at) => slotFaults(ground.region, cover, hanging, at).map((why) => misplaced(ground, at, why))),
  ];
  const fit = found.filter((at) => slotFaults(ground.region, [], { ...hanging, clear: 0 }, at).length === 0);
  if (fit.length === 0) return { ...sign, complaints: [...sign.complaints, ...complaints] };
  const shape = { ...ground.shape, holes: [...ground.shape.holes, ...fit.map((at) => slotContour(hanging, at))] };
  const hung: Part = { ...ground, shape, region: shapeToRegion(shape, FLATTEN_TOLERANCE_MM) };
  return {
    ...sign,
    parts: sign.parts.map((part) => (part === ground ? hung : part)),
    slots: fit.map((at) => ({ partId: ground.id, at })),
    complaints: [...sign.complaints, ...complaints],
  };
}

/** Where no seam of a part may go: its added slots, grown by what stays around them. */
export function slotKeepOuts(sign: Sign, partId: string, job: Job): Region[] {
  const { hanging } = job.shop;
  const own = (sign.slots ?? []).filter((slot) => slot.partId === partId);
  return own.length === 0
    ? []
    : offsetRegions(
        own.map(({ at }) => slotRegion(hanging, at)),
        hanging.clear,
      );
}

/** A slot or a drawn hole that the sign can hang from. */
export interface HangPoint {
  readonly at: Point;
  readonly bearing: Point;
  readonly by: 'slot' | 'drawn';
}

/** How one sign hangs. */
export interface Hanging extends Hang {
  readonly mass: Mass;
  readonly points: readonly HangPoint[];
  /** Where slots of the job's kind belong, so that it hangs straight; empty when it does, or there is no room. */
  readonly belong: readonly Point[];
  /** Least distance from an added slot to a seam, mm; null without seams or slots. */
  readonly seamMm: number | null;
}

/** @returns null when the sign has no part whose place is known. */
export function hangingOf(sign: Sign, split: SplitResult, job: Job): Hanging | null {
  const mass = massOfSign(sign, job);
  const ground = groundOf(buildPlaces(sign, thicknessesOf(sign, job)));
  if (mass === null || ground === null) return null;
  const { hanging } = job.shop;
  const cover = coverOf(sign, ground.id);
  const slots = (sign.slots ?? []).map(({ at }): HangPoint => ({ at, bearing: bearingOf(hanging, at), by: 'slot' }));
  const drawn = slots.length > 0 ? { free: [], covered: [] } : drawnHoles(ground, cover, mass.centre);
  const points = slots.length > 0 ? slots : drawn.free;
  const hang = hangFrom(
    points.map(({ bearing }) => bearing),
    mass.centre,
  );
  const belong = hang.isStraight
    ? []
    : placeSlots(ground.region, cover, hanging, points.length === 1 ? 1 : 2, mass.centre).map(({ at }) => at);
  const covered = drawn.covered.map(
    ({ at }) =>
      `The hole at ${at.x.toFixed(0)}, ${at.y.toFixed(0)} mm lies below another part: nothing can hang from it.`,
  );
  return {
    ...hang,
    words: [...hang.words, ...covered, ...(hang.isStraight ? [] : belongWords(belong))],
    mass,
    points,
    belong,
    seamMm: seamDistance(sign, split, job),
  };
}

function belongWords(belong: readonly Point[]): string[] {
  if (belong.length === 0) return ['There is no room for slots above its centre of mass.'];
  const at = belong.map(({ x, y }) => `${x.toFixed(0)}, ${y.toFixed(0)} mm`).join(' and ');
  return [`To hang straight, ${belong.length === 1 ? 'a slot belongs' : 'slots belong'} at ${at}.`];
}

function massOfSign(sign: Sign, job: Job): Mass | null {
  const densities = new Map(sign.parts.map((part) => [part.id, jobForPart(job, part).shop.densityKgM3]));
  return massOf(
    buildPlaces(sign, thicknessesOf(sign, job)),
    thicknessesOf(sign, job),
    (id) => densities.get(id) ?? job.shop.densityKgM3,
  );
}

/** The largest part that lies on nothing. */
function groundOf(places: readonly BuildPlace[]): Part | null {
  const ground = places.filter(({ part, gluedTo }) => part.place === 'assembled' && gluedTo.length === 0);
  return ground.reduce<Part | null>(
    (best, { part }) => (best === null || regionArea(part.region) > regionArea(best.region) ? part : best),
    null,
  );
}

/** Small drawn holes above the centre of mass, by whether something lies over them. */
function drawnHoles(
  ground: Part,
  cover: readonly Region[],
  centre: Point,
): { readonly free: HangPoint[]; readonly covered: HangPoint[] } {
  const free: HangPoint[] = [];
  const covered: HangPoint[] = [];
  for (const hole of ground.shape.holes) {
    const { minX, minY, maxX, maxY } = contourBounds(hole);
    const isSmall =
      Math.min(maxX - minX, maxY - minY) >= LEAST_HOLE_MM && Math.max(maxX - minX, maxY - minY) <= MOST_HOLE_MM;
    const at = { x: (minX + maxX) / 2, y: (minY + maxY) / 2 };
    if (!isSmall || at.y >= centre.y) continue;
    const point: HangPoint = { at, bearing: { x: at.x, y: minY }, by: 'drawn' };
    const ring = reversedRing(flattenContour(hole, FLATTEN_TOLERANCE_MM));
    const isFree = intersectRegions([{ outer: ring, holes: [] }], cover).length === 0;
    (isFree ? free : covered).push(point);
  }
  return { free, covered };
}

function noRoom(ground: Part, slots: number): Complaint {
  return {
    code: 'no-room-for-slots',
    severity: 'warning',
    message: `${ground.name} has no room for ${slots === 1 ? 'a slot' : 'slots'} above the centre of mass, clear of edges and of what lies on it: make them smaller, or ask for less wood around them (shop.hanging)`,
    place: { element: ground.drawnAt.element, at: null },
  };
}

function misplaced(ground: Part, at: Point, why: string): Complaint {
  return {
    code: 'slot-misplaced',
    severity: 'error',
    message: `the slot at ${at.x.toFixed(1)}, ${at.y.toFixed(1)} mm ${why}`,
    place: { element: ground.drawnAt.element, at },
  };
}

function seamDistance(sign: Sign, split: SplitResult, job: Job): number | null {
  const distances = (sign.slots ?? []).flatMap(({ partId, at }) => {
    const slot = slotRegion(job.shop.hanging, at).outer;
    const plan = split.parts.find((part) => part.partId === partId)?.plan;
    return (plan?.seams ?? []).flatMap((seam) => {
      const line = flattenContour(seam.path, FLATTEN_TOLERANCE_MM);
      return Array.from({ length: line.length / 2 }, (_, k) =>
        distancePointToRing(line[2 * k]!, line[2 * k + 1]!, slot),
      );
    });
  });
  return distances.length === 0 ? null : Math.min(...distances);
}
