import type { Guide } from './guide-of.ts';
import type { Report } from './report-schema.ts';

/**
 * The parts in the order in which the build guide lays them, each with the number of its step there.
 * @param named - a part's id as it is unique in the job.
 * @returns parts of unknown place last: the guide has no step for them.
 */
export function reportBuildOrder({ steps, input }: Guide, named: (partId: string) => string): Report['buildOrder'] {
  const places = new Map(input.places.map((place) => [place.part.id, place]));
  const laid = steps.flatMap(({ kind, partIds }, at) =>
    kind === 'lay' ? partIds.map((partId) => ({ partId, step: at + 1 })) : [],
  );
  const known = new Set(laid.map(({ partId }) => partId));
  const unknown = [...places.keys()].filter((id) => !known.has(id)).map((partId) => ({ partId, step: null }));
  return [...laid, ...unknown].map(({ partId, step }) => {
    const { part, gluedTo } = places.get(partId)!;
    return {
      step,
      part: named(partId),
      name: part.name,
      onto: gluedTo.map((contact) => named(contact.partId)),
      glueAreaMm2: gluedTo.reduce((sum, contact) => sum + contact.areaMm2, 0),
    };
  });
}
