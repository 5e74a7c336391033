import { fitArcs } from '@underlap/geometry/arc-fit';
import { intersectRegions, subtractRegions } from '@underlap/geometry/boolean';
import type { Shape } from '@underlap/geometry/curve';
import { FLATTEN_TOLERANCE_MM, shapeToRegion } from '@underlap/geometry/flatten';
import { offsetRegions } from '@underlap/geometry/offset';
import { type Region, regionArea } from '@underlap/geometry/region';
import { boundsOf, doBoundsMeet } from './cover.ts';
import { type BuildPlace, buildPlaces, type ThicknessOf } from './levels.ts';
import type { Part, Sign } from './sign.ts';

/** A filler stays this far inside the part that it carries, so that it does not show, mm. */
const INSET_MM = 1.5;

/** Room between a filler and the parts that it lies beside, mm: it is laid in by hand. */
const BESIDE_MM = 0.5;

/** Tongues narrower than twice this are not worth a cut, mm. */
const OPEN_MM = 4;

/** A smaller filler carries nothing, mm2. */
const LEAST_FILLER_MM2 = 100;

/** A gap must take a filler's thickness within this, mm. */
const SAME_HEIGHT_MM = 1e-6;

/** Layers of fillers below one part; more is a drawing that wants another order. */
const MOST_LAYERS = 4;

/** Which parts are given fillers: none, all that hang in the air, or the named ones. */
export type FillerChoice = 'none' | 'all' | readonly string[];

/**
 * What a filler below a part would look like: the part's face drawn in a little, where it has air below it, less the parts that it
 * rests on.
 * @param thickness - of the filler, mm: a gap that is thinner takes none.
 * @returns disjoint regions in the sign's frame, one layer, lying on the highest faces below the gap; empty where none is needed.
 * @remarks A handful of offsets and booleans, O(n log n).
 */
export function fillerRegions(places: readonly BuildPlace[], partId: string, thickness: number): Region[] {
  const index = places.findIndex((place) => place.part.id === partId);
  const place = places[index];
  if (place === undefined || place.gluedTo.length === 0) return [];
  const box = boundsOf(place.part.region);
  const near = places
    .slice(0, index)
    .filter(({ part }) => part.place === 'assembled' && doBoundsMeet(box, boundsOf(part.region)));
  const highestGround = place.bottomMm - thickness + SAME_HEIGHT_MM;
  const face = offsetRegions([place.part.region], -INSET_MM);
  if (face.length === 0) return [];
  const tops = [...new Set(near.map((lower) => lower.topMm).filter((top) => top <= highestGround))];
  for (const top of tops.sort((a, b) => b - a)) {
    const found = fillerOn(face, near, top);
    if (found.length > 0) return found;
  }
  return [];
}

/** What can lie on the faces at one height, below `face` and beside whatever is higher. */
function fillerOn(face: readonly Region[], near: readonly BuildPlace[], topMm: number): Region[] {
  const grounds = near.filter((lower) => Math.abs(lower.topMm - topMm) < SAME_HEIGHT_MM);
  const beside = near.filter((lower) => lower.topMm > topMm + SAME_HEIGHT_MM);
  const on = intersectRegions(face, grounds.map(regionOf));
  const room = beside.length === 0 ? on : subtractRegions(on, offsetRegions(beside.map(regionOf), BESIDE_MM));
  const opened = offsetRegions(offsetRegions(room, -OPEN_MM), OPEN_MM);
  return opened.filter((region) => regionArea(region) >= LEAST_FILLER_MM2);
}

const regionOf = (place: BuildPlace): Region => place.part.region;

/**
 * The sign with fillers as parts of their own, each below the part that hangs in the air.
 * @param hanging - ids of the parts that a complaint speaks of; 'all' means these.
 * @returns a new sign; the same one when nothing is added.
 */
export function withFillers(
  sign: Sign,
  choice: FillerChoice,
  hanging: readonly string[],
  thicknessOf: ThicknessOf,
): Sign {
  const wanted = choice === 'none' ? [] : choice === 'all' ? hanging : choice;
  let parts = sign.parts;
  for (const partId of wanted) {
    let count = 0;
    for (let layer = 0; layer < MOST_LAYERS; layer++) {
      const index = parts.findIndex((part) => part.id === partId);
      const carried = parts[index];
      if (carried === undefined) break;
      const ids = new Set(parts.map((part) => part.id));
      const firstId = fillerId(partId, count + 1);
      const regions = fillerRegions(buildPlaces({ ...sign, parts }, thicknessOf), partId, thicknessOf(firstId));
      const fillers = regions.map((region) => fillerPart(carried, region, ++count)).filter(({ id }) => !ids.has(id));
      if (fillers.length === 0) break;
      parts = [...parts.slice(0, index), ...fillers, ...parts.slice(index)];
    }
  }
  return parts === sign.parts ? sign : { ...sign, parts };
}

function fillerId(partId: string, count: number): string {
  return `${partId}-filler-${count}`;
}

function fillerPart(carried: Part, region: Region, count: number): Part {
  const shape: Shape = {
    outer: fitArcs(region.outer, FLATTEN_TOLERANCE_MM),
    holes: region.holes.map((hole) => fitArcs(hole, FLATTEN_TOLERANCE_MM)),
  };
  return {
    id: fillerId(carried.id, count),
    name: `${carried.name}, filler ${count}`,
    layer: carried.layer,
    shape,
    region: shapeToRegion(shape, FLATTEN_TOLERANCE_MM),
    paint: null,
    marks: [],
    place: 'assembled',
    drawnAt: carried.drawnAt,
  };
}
