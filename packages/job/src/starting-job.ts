import type { Sign } from '@underlap/stack/sign';
import type { Job } from './document.ts';

/**
 * A job file to start from: what is set, and as comments what is often changed. `parseJob` reads it as it stands.
 * @param path - the artwork, relative to the job file. @param sign - its parts are listed, since rules name them.
 */
export function startingJob(job: Job, path: string, sign: Sign): string {
  const { artwork } = job;
  const said = {
    ...(artwork.width === null ? {} : { width: artwork.width }),
    ...(artwork.perInch === null ? {} : { perInch: artwork.perInch }),
    ...(artwork.mode === 'auto' ? {} : { mode: artwork.mode }),
    ...(Object.keys(artwork.colourKey).length === 0 ? {} : { colourKey: artwork.colourKey }),
    ...(Object.keys(artwork.layerKey).length === 0 ? {} : { layerKey: artwork.layerKey }),
    ...(artwork.keepBackground ? { keepBackground: true } : {}),
    ...(artwork.acceptFaults ? { acceptFaults: true } : {}),
    ...(artwork.repair ? {} : { repair: false }),
  };
  const [board] = job.boards;
  const ids = sign.parts.map(({ id }) => id);
  const uses = sign.uses.map(({ name, process }) => `${name}: ${process}`);
  return `{
  // Lengths are millimetres, or text with a unit: "20in".
  "version": ${job.version},
  "artwork": ${JSON.stringify({ file: path, ...said })},
  // Read as a ${sign.mode} drawing; parts, bottom first: ${oneLine(ids.join(', '))}.
  // Colours and layers: ${oneLine(uses.join(', ') || 'none')}. Change one with "colourKey": { "#cc2200": "score" } or "layerKey": { "guides": "score" } in "artwork".

  // The machine: its working area. "margin" is an edge that is not used.
  "bed": { "width": ${job.bed.width}, "height": ${job.bed.height}, "margin": ${job.bed.margin} },
  // What you cut from. Without "count" there are as many as needed; "price" is that of one board.
  "boards": [{ "width": ${board!.width}, "height": ${board!.height}, "price": ${board!.price} }],
  "thickness": ${job.thickness},
  // Width that a cut removes, and the gap between mating edges (negative presses): underlap coupon measures both.
  "kerf": ${job.kerf},
  "fit": ${job.fit},
  // Least distance between cuts, and from a cut to the edge of a board.
  "spacing": ${job.spacing},
  "margin": ${job.margin},
  // Signs made together.
  "batch": ${job.batch}

  // More, when you need it (put a comma after the line above):
  // "output": { "formats": ["svg", "dxf", "pdf"] },
  // "turns": { "default": "quarter" },
  // "seams": { "prefer": "most-hidden" },
  // "costs": { "currency": "EUR", "machineHour": 18, "labourHour": 24 },
}
`;
}

/** Names come from drawings: none may end the comment it stands in. */
function oneLine(text: string): string {
  return text.replace(/[\r\n\u2028\u2029]+/g, ' ');
}
