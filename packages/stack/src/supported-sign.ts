import { type FillerChoice, withFillers } from './fillers.ts';
import { buildPlaces, type ThicknessOf } from './levels.ts';
import type { Sign } from './sign.ts';
import { supportComplaints, supportsOf } from './support.ts';

/**
 * A sign that stands: with the fillers that were asked for, and with a complaint for every part that still rests badly.
 * @remarks Levels are worked out twice only where fillers are added.
 */
export function supportedSign(sign: Sign, fillers: FillerChoice, thicknessOf: ThicknessOf): Sign {
  const places = buildPlaces(sign, thicknessOf);
  const supports = supportsOf(places);
  const hanging = supports
    .filter(({ fault }) => fault === 'rests-on-sliver' || fault === 'hangs')
    .map(({ partId }) => partId);
  const filled = withFillers(sign, fillers, hanging, thicknessOf);
  const after = filled === sign ? places : buildPlaces(filled, thicknessOf);
  const told = supportComplaints(after, filled === sign ? supports : supportsOf(after));
  return { ...filled, complaints: [...filled.complaints, ...told] };
}
