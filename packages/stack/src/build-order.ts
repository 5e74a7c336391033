import type { BuildPlace } from './levels.ts';

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
 * @param places - of all parts, in stack order.
 * @returns one step a part whose place is known; parts of unknown place come last with nothing to glue onto.
 */
export function buildOrder(places: readonly BuildPlace[]): BuildStep[] {
  const names = new Map(places.map(({ part }) => [part.id, part.name]));
  return places
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
