import type { Complaint } from '@underlap/artwork/drawing';
import { unionRegions } from '@underlap/geometry/boolean';
import { convexHull } from '@underlap/geometry/hull';
import type { Point } from '@underlap/geometry/point';
import { type Region, regionArea, regionsArea } from '@underlap/geometry/region';
import { isInRing } from '@underlap/geometry/ring';
import { centroidOf } from './centroid.ts';
import { contactBetween } from './cover.ts';
import type { BuildPlace } from './levels.ts';

/** A part that is glued on less than this share of its face rests on a sliver (common practice, no source). */
const LEAST_GLUED_SHARE = 0.25;

/** A part hangs in the air when less than this share of what lies below it touches it (common practice, no source). */
const LEAST_RESTING_SHARE = 0.6;

/** Booleans are exact to some nanometres: a part glued on this share of its face is glued all over. */
const ALL_OF_IT = 1 - 1e-6;

/** How badly a part is supported; null = well. */
export type SupportFault = 'rests-on-sliver' | 'hangs' | 'tips' | 'lies-apart';

/** What one part rests on, in figures. */
export interface Support {
  readonly partId: string;
  readonly fault: SupportFault | null;
  readonly gluedMm2: number;
  /** Glued area / area of its face, 0..1. */
  readonly gluedShare: number;
  /** Area of its underside that has another part below it and does not touch it. */
  readonly hangingMm2: number;
  /** Does its centre of mass lie outside the hull of what it rests on? */
  readonly tips: boolean;
  /** Middle of the faces that touch; null when none does. */
  readonly at: Point | null;
}

/**
 * How every part is supported.
 * @returns one entry a part, in stack order; parts of unknown place and the ground of the sign have no fault.
 * @remarks At most one boolean a part, of what it shares with those below.
 */
export function supportsOf(places: readonly BuildPlace[]): Support[] {
  const joined = joinedToLargest(places);
  return places.map((place, index) => supportOf(place, places.slice(0, index), joined.has(place.part.id)));
}

function supportOf(place: BuildPlace, below: readonly BuildPlace[], isJoined: boolean): Support {
  const { part, gluedTo } = place;
  const faces = gluedTo.flatMap((contact) => contact.regions);
  const gluedMm2 = regionsArea(faces);
  const gluedShare = Math.min(1, gluedMm2 / regionArea(part.region));
  const over = gluedTo.length === 0 || gluedShare >= ALL_OF_IT ? [] : areaOver(part, below);
  // faces that touch are parts of what lies below and do not overlap
  const hangingMm2 = over.length === 0 ? 0 : Math.max(0, regionsArea(over) - gluedMm2);
  const tips = faces.length > 0 && !isOver(faces, centroidOf([part.region]));
  const restingShare = gluedMm2 / (gluedMm2 + hangingMm2);
  const fault = (): SupportFault | null => {
    if (part.place === 'drawn') return null;
    if (!isJoined) return 'lies-apart';
    if (faces.length === 0) return null;
    if (gluedShare < LEAST_GLUED_SHARE) return 'rests-on-sliver';
    if (restingShare < LEAST_RESTING_SHARE) return 'hangs';
    return tips ? 'tips' : null;
  };
  return {
    partId: part.id,
    fault: fault(),
    gluedMm2,
    gluedShare,
    hangingMm2,
    tips,
    at: faces.length === 0 ? null : centroidOf(faces),
  };
}

/** What of a part has another below it, wherever that is. */
function areaOver(part: BuildPlace['part'], below: readonly BuildPlace[]): Region[] {
  const shared: Region[] = [];
  for (const lower of below) {
    if (lower.part.place !== 'assembled') continue;
    const own = contactBetween(lower.part, part);
    // one that lies wholly below says it all, and the largest are at the bottom
    if (own.includes(part.region)) return [part.region];
    shared.push(...own);
  }
  return shared.length < 2 ? shared : unionRegions(shared);
}

/** Is the point above the convex hull of the faces? */
function isOver(faces: readonly Region[], point: Point): boolean {
  const hull = convexHull(Float64Array.from(faces.flatMap((face) => [...face.outer])));
  return hull.length >= 6 && isInRing(hull, point.x, point.y);
}

/** Ids of the parts that glue joins, by whatever way, to the largest part that lies on the ground. */
function joinedToLargest(places: readonly BuildPlace[]): ReadonlySet<string> {
  const ground = places.filter((place) => place.part.place === 'assembled' && place.gluedTo.length === 0);
  if (ground.length === 0) return new Set();
  const areaOf = (place: BuildPlace): number => regionArea(place.part.region);
  const largest = ground.reduce((best, next) => (areaOf(next) > areaOf(best) ? next : best));
  const joined = new Set([largest.part.id]);
  const neighbours = new Map<string, string[]>();
  const link = (from: string, to: string): void => void neighbours.set(from, [...(neighbours.get(from) ?? []), to]);
  for (const { part, gluedTo } of places) {
    for (const { partId } of gluedTo) {
      link(part.id, partId);
      link(partId, part.id);
    }
  }
  for (const id of joined) for (const next of neighbours.get(id) ?? []) joined.add(next);
  return joined;
}

/**
 * The same for people: what rests badly, on what, with how much area, where, and what helps.
 * @param supports - of the same places.
 */
export function supportComplaints(places: readonly BuildPlace[], supports: readonly Support[]): Complaint[] {
  const names = new Map(places.map(({ part }) => [part.id, part.name]));
  const apart = supports.filter((support) => support.fault === 'lies-apart');
  // Many parts beside one another are a kit, not a sign that lost its letters.
  const isKit = apart.length > places.length / 2;
  return supports.flatMap((support, index) => {
    const told = words(support, places[index]!, names, isKit);
    if (told === null || support.fault === null) return [];
    const { part } = places[index]!;
    const at = support.at ?? centroidOf([part.region]);
    return [{ code: support.fault, ...told, place: { element: part.drawnAt.element, at } }];
  });
}

function words(
  support: Support,
  { part, gluedTo }: BuildPlace,
  names: ReadonlyMap<string, string>,
  isKit: boolean,
): Pick<Complaint, 'severity' | 'message'> | null {
  const onto = listOf(gluedTo.map((contact) => names.get(contact.partId) ?? contact.partId));
  const rests = `${part.name} rests on ${onto} with`;
  const share = `${areaWords(support.gluedMm2)} of its ${areaWords(regionArea(part.region))}`;
  const middle = support.tips ? ' and its middle lies beside what it rests on' : '';
  const below = gluedTo.length === 1 ? 'that part' : 'those parts';
  const helps =
    support.hangingMm2 > 0
      ? `Move it, draw it below ${below}, or put a filler under it (artwork.fillers in the job, --fillers ${part.id}).`
      : `Let more of it lie on ${onto}.`;
  switch (support.fault) {
    case null:
      return null;
    case 'lies-apart':
      return {
        severity: isKit ? 'note' : 'warning',
        message: `${part.name} lies on nothing and is joined to nothing: move it onto the sign, or cut it as a sign of its own.`,
      };
    case 'rests-on-sliver':
      return { severity: 'warning', message: `${rests} only ${share}${middle}. ${helps}` };
    case 'hangs':
      return {
        severity: 'warning',
        message: `${rests} ${share}${middle}; ${areaWords(support.hangingMm2)} of it hang in the air above lower parts. ${helps}`,
      };
    case 'tips':
      return {
        severity: 'note',
        message: `${rests} ${share}${middle}: hold it until the glue has set, or let more of it lie on ${onto}.`,
      };
  }
}

function areaWords(mm2: number): string {
  const cm2 = mm2 / 100;
  return `${cm2.toFixed(cm2 < 10 ? 1 : 0)} cm2`;
}

function listOf(names: readonly string[]): string {
  return names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names[names.length - 1]}`;
}
