import { regionsArea } from '@underlap/geometry/region';
import { contactBetween } from './cover.ts';
import type { Part, Sign } from './sign.ts';

/** A smaller overlap is a drawing's imprecision, not a part lying on another, mm2. */
export const LEAST_CONTACT_MM2 = 0.5;

/** Where a part stands in the build. */
export interface BuildPlace {
  readonly part: Part;
  /** 0 = lies on nothing; else one more than the highest part it touches from above. */
  readonly level: number;
  /** Parts whose visible surface it is glued to, with the glued area; bottom first. */
  readonly gluedTo: readonly { readonly partId: string; readonly areaMm2: number }[];
}

/**
 * The level of every part and what it is glued to: a part rests on the top of whatever lies highest below it.
 * @returns one entry a part, in stack order.
 * @remarks One boolean per pair of parts whose bounding boxes meet.
 */
export function buildPlaces(sign: Sign): BuildPlace[] {
  const places: BuildPlace[] = [];
  for (const [index, part] of sign.parts.entries()) {
    const below =
      part.place === 'drawn' ? [] : places.slice(0, index).filter((other) => other.part.place === 'assembled');
    const contacts = below
      .map((other) => ({ other, areaMm2: regionsArea(contactBetween(other.part, part)) }))
      .filter((contact) => contact.areaMm2 >= LEAST_CONTACT_MM2);
    const top = Math.max(-1, ...contacts.map((contact) => contact.other.level));
    places.push({
      part,
      level: top + 1,
      gluedTo: contacts
        .filter((contact) => contact.other.level === top)
        .map((contact) => ({ partId: contact.other.part.id, areaMm2: contact.areaMm2 })),
    });
  }
  return places;
}
