import { regionRings } from '@underlap/geometry/boolean';
import { offsetRegions } from '@underlap/geometry/offset';
import { type Region, regionsArea } from '@underlap/geometry/region';
import { ringPerimeter } from '@underlap/geometry/ring';
import { contactBetween } from './cover.ts';
import type { Part, Sign } from './sign.ts';

/** A smaller overlap is a drawing's imprecision, not a part lying on another, mm2. */
const LEAST_CONTACT_MM2 = 0.5;

/** Nor does a part climb on another for an overlap that is narrower than this all along, mm: about what a cut takes away. */
const LEAST_CONTACT_WIDTH_MM = 0.3;

/** Faces nearer than this in height touch, mm: sums of thicknesses are not exact. */
const SAME_HEIGHT_MM = 1e-6;

/** Chords of the narrowing that only asks whether anything is left, mm. */
const COARSE_MM = 0.05;

/** How thick a part is, mm. */
export type ThicknessOf = (partId: string) => number;

/** All parts of one thickness: which faces touch does not depend on which. */
export const ONE_THICKNESS: ThicknessOf = () => 1;

/** A face that is glued: part of the top of `partId`, in the sign's frame. */
export interface Contact {
  readonly partId: string;
  readonly regions: readonly Region[];
  readonly areaMm2: number;
}

/** Where a part stands in the build. */
export interface BuildPlace {
  readonly part: Part;
  /** 0 = lies on nothing; else one more than the part it rests on. */
  readonly level: number;
  /** Height of its faces above the ground, mm. */
  readonly bottomMm: number;
  readonly topMm: number;
  /** Parts whose top touches its underside, with the faces that do; bottom first. */
  readonly gluedTo: readonly Contact[];
}

/**
 * How high every part lies and which faces touch. A part rests on whatever is highest below it, and touches only what ends
 * exactly at its underside: where it spans something lower there is air, and no glue.
 * @param thicknessOf - mm, > 0, by part.
 * @returns one entry a part, in stack order. Parts of unknown place lie on nothing and carry nothing.
 * @remarks One boolean per pair of parts whose bounding boxes meet and that are high enough to matter.
 */
export function buildPlaces(sign: Sign, thicknessOf: ThicknessOf): BuildPlace[] {
  const places: BuildPlace[] = [];
  for (const part of sign.parts) places.push(placeOn(places, part, thicknessOf(part.id)));
  return places;
}

/** The place of one more part on those already there. */
function placeOn(places: readonly BuildPlace[], part: Part, thickness: number): BuildPlace {
  const gluedTo: { readonly index: number; readonly contact: Contact }[] = [];
  let bottomMm = 0;
  let level = 0;
  if (part.place === 'assembled') {
    const highestFirst = places
      .map((place, index) => ({ place, index }))
      .filter(({ place }) => place.part.place === 'assembled')
      .sort((a, b) => b.place.topMm - a.place.topMm || a.index - b.index);
    for (const { place, index } of highestFirst) {
      if (gluedTo.length > 0 && place.topMm < bottomMm - SAME_HEIGHT_MM) break;
      const contact = contactOn(place.part, part);
      if (contact === null) continue;
      if (gluedTo.length === 0) bottomMm = place.topMm;
      level = Math.max(level, place.level + 1);
      gluedTo.push({ index, contact });
    }
  }
  return {
    part,
    level,
    bottomMm,
    topMm: bottomMm + thickness,
    gluedTo: gluedTo.sort((a, b) => a.index - b.index).map(({ contact }) => contact),
  };
}

/** Where one part would lie on another; null where they only meet along an edge. */
function contactOn(lower: Part, upper: Part): Contact | null {
  const regions = contactBetween(lower, upper);
  const areaMm2 = regionsArea(regions);
  if (areaMm2 < LEAST_CONTACT_MM2) return null;
  if (!isWide(regions, areaMm2) && offsetRegions(regions, -LEAST_CONTACT_WIDTH_MM / 2, COARSE_MM).length === 0)
    return null;
  return { partId: lower.id, regions, areaMm2 };
}

/**
 * Is something left of the regions for certain when they are narrowed by half the least width? What lies that near an outline is at
 * most a strip along its edges and a disc at each of its corners.
 */
function isWide(regions: readonly Region[], areaMm2: number): boolean {
  const reach = LEAST_CONTACT_WIDTH_MM / 2;
  const near = regionRings(regions).reduce(
    (sum, ring) => sum + ringPerimeter(ring) * reach + (ring.length / 2) * Math.PI * reach ** 2,
    0,
  );
  return areaMm2 > near;
}

/** The faces of other parts that are glued to the top of this one, bottom first; `partId` is the upper part's. */
export function gluedOnTopOf(places: readonly BuildPlace[], partId: string): Contact[] {
  return places.flatMap((place) =>
    place.gluedTo
      .filter((contact) => contact.partId === partId)
      .map((contact) => ({ ...contact, partId: place.part.id })),
  );
}
