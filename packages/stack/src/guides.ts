import { regionRings } from '@underlap/geometry/boolean';
import { clipPolyline, type Polyline, polylineLength } from '@underlap/geometry/clip-polyline';
import { offsetRegions } from '@underlap/geometry/offset';
import type { Region } from '@underlap/geometry/region';
import { boundsOf, contactBetween, doBoundsMeet, partsOn } from './cover.ts';
import type { Part, Sign } from './sign.ts';

/** Shorter stretches do not help to place a part, mm. */
const SHORTEST_GUIDE_MM = 3;

/** A guide need not be truer than this: it is a line to lay a part along by hand, mm. */
export const GUIDE_FIT_MM = 0.02;

/** A placement line on a lower part that vanishes below the upper part. */
export interface Guide {
  readonly onPartId: string;
  readonly forPartId: string;
  /** Open polylines in the sign's frame, mm, dense along curves: fit arcs to them within GUIDE_FIT_MM before writing. */
  readonly lines: readonly Polyline[];
}

/**
 * Placement guides: the outline of every upper part, drawn a little inside it on the surface it is glued to.
 * @param insetMm - how far inside the upper part's outline the line runs, > 0, so that the part hides it.
 * @returns guides bottom first; none where the inset consumes the upper part, where another part lies between, or where the
 * drawing has the outline already.
 * @remarks A line is kept only on the lower part itself, at least `insetMm` from its edge and its holes, and outside the parts that lie between the two.
 */
export function guidesOf(sign: Sign, insetMm: number): Guide[] {
  const insets = new Map<string, Region[]>();
  const insetOf = (part: Part): Region[] => {
    const known = insets.get(part.id) ?? offsetRegions([part.region], -insetMm);
    insets.set(part.id, known);
    return known;
  };
  return sign.parts.flatMap((lower) => guidesOn(sign, lower, insetOf));
}

/** @param insetOf - a part narrowed by the inset: where its own guides run, and where those of others may run on it. */
function guidesOn(sign: Sign, lower: Part, insetOf: (part: Part) => Region[]): Guide[] {
  const above = partsOn(sign, lower.id);
  if (above.length === 0) return [];
  const ground = insetOf(lower);
  return above.flatMap((upper, index) => {
    if (isDrawn(sign, lower, upper) || contactBetween(lower, upper).length === 0) return [];
    const box = boundsOf(upper.region);
    const between = above
      .slice(0, index)
      .flatMap((part) => (doBoundsMeet(box, boundsOf(part.region)) ? [part.region] : []));
    const lines = regionRings(insetOf(upper))
      .flatMap((ring) => clipPolyline(ring, true, ground, 'inside'))
      .flatMap((line) => clipPolyline(line, false, between, 'outside'))
      .filter((line) => polylineLength(line) >= SHORTEST_GUIDE_MM);
    return lines.length === 0 ? [] : [{ onPartId: lower.id, forPartId: upper.id, lines }];
  });
}

/** Does the drawing itself show where the upper part goes? A second line beside it would only confuse. */
function isDrawn(sign: Sign, lower: Part, upper: Part): boolean {
  return sign.matches.some((match) => match.partId === upper.id && match.onPartId === lower.id);
}
