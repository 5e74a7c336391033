import type { ThicknessOf } from '@underlap/stack/levels';
import type { Sign } from '@underlap/stack/sign';
import type { Job } from './document.ts';
import { jobForPart } from './stock-of.ts';

/** How thick every part of a sign is, mm: as the stock that it is cut from. What is no part of it, such as a filler to come, is of the stock for everything else. */
export function thicknessesOf(sign: Pick<Sign, 'parts'>, job: Job): ThicknessOf {
  const own = new Map(sign.parts.map((part) => [part.id, jobForPart(job, part).thickness]));
  const rest = jobForPart(job, { id: '', paint: null, layer: null }).thickness;
  return (partId) => own.get(partId) ?? rest;
}
