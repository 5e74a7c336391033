import type { Colour } from '@underlap/artwork/drawing';
import { intersectRegions } from '@underlap/geometry/boolean';
import { regionArea, regionsArea } from '@underlap/geometry/region';
import { coverOf } from './cover.ts';
import { type BuildPlace, gluedOnTopOf } from './levels.ts';
import type { Part, Sign } from './sign.ts';

/** How much of one paint a sign takes, and on which parts it goes. */
export interface PaintNeed {
  /** null = parts without a colour, left bare. */
  readonly paint: Colour | null;
  readonly partIds: readonly string[];
  /** Faces of the parts, mm2. */
  readonly faceAreaMm2: number;
  /** What stays uncovered and is therefore painted, mm2. */
  readonly visibleAreaMm2: number;
  /** What other parts are glued on and stays bare so that glue holds, mm2; what they only hide, with air between, is neither. */
  readonly bareAreaMm2: number;
}

/**
 * Areas by paint colour for one sign, largest visible area first. Edges and second coats are the user's own addition.
 * @param places - of all parts of the sign.
 */
export function paintNeeds(sign: Sign, places: readonly BuildPlace[]): PaintNeed[] {
  const groups = new Map<Colour | null, Part[]>();
  for (const part of sign.parts) groups.set(part.paint, [...(groups.get(part.paint) ?? []), part]);
  return [...groups]
    .map(([paint, parts]) => {
      const faceAreaMm2 = parts.reduce((sum, part) => sum + regionArea(part.region), 0);
      const hiddenAreaMm2 = parts.reduce((sum, part) => sum + hiddenArea(sign, part), 0);
      const glued = parts.flatMap((part) => gluedOnTopOf(places, part.id));
      return {
        paint,
        partIds: parts.map((part) => part.id),
        faceAreaMm2,
        visibleAreaMm2: faceAreaMm2 - hiddenAreaMm2,
        bareAreaMm2: glued.reduce((sum, contact) => sum + contact.areaMm2, 0),
      };
    })
    .sort((first, second) => second.visibleAreaMm2 - first.visibleAreaMm2);
}

function hiddenArea(sign: Sign, part: Part): number {
  const cover = coverOf(sign, part.id);
  return cover.length === 0 ? 0 : regionsArea(intersectRegions([part.region], cover));
}
