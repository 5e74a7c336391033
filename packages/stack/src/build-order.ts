import { buildPlaces } from './levels.ts';
import type { Sign } from './sign.ts';

/** One step at the gluing bench. */
export interface BuildStep {
  readonly step: number;
  readonly partId: string;
  readonly name: string;
  /** Empty for a part that is the ground of the sign. */
  readonly onto: readonly string[];
  readonly glueAreaMm2: number;
}

/**
 * The order in which a sign is glued, from the backer up: level by level, within a level as drawn.
 * @returns one step a part whose place is known; parts of unknown place come last with nothing to glue onto.
 */
export function buildOrder(sign: Sign): BuildStep[] {
  const names = new Map(sign.parts.map((part) => [part.id, part.name]));
  return buildPlaces(sign)
    .map((place, index) => ({ place, index }))
    .sort(
      (first, second) =>
        Number(first.place.part.place === 'drawn') - Number(second.place.part.place === 'drawn') ||
        first.place.level - second.place.level ||
        first.index - second.index,
    )
    .map(({ place }, index) => ({
      step: index + 1,
      partId: place.part.id,
      name: place.part.name,
      onto: place.gluedTo.map((contact) => names.get(contact.partId) ?? contact.partId),
      glueAreaMm2: place.gluedTo.reduce((sum, contact) => sum + contact.areaMm2, 0),
    }));
}
