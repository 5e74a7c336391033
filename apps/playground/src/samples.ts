import type { Job } from '@underlap/job/document';
import type { WordKey } from './words/catalogue.ts';

/** A design that comes with the page: its artwork and its job file as text. */
export interface Sample {
  readonly name: WordKey & `sample.${string}`;
  /** The name of its drawing. */
  readonly drawing: string;
  load(): Promise<{ readonly job: string; readonly artwork: string }>;
}

/** The first one is open when a new user comes; the others are fetched when they are asked for. */
export const SAMPLES: readonly [Sample, ...Sample[]] = [
  {
    name: 'sample.harbour',
    drawing: 'harbour-sign.svg',
    load: async () => ({
      job: (await import('../../../samples/harbour-sign.job.json?raw')).default,
      artwork: (await import('../../../samples/harbour-sign.svg?raw')).default,
    }),
  },
  {
    name: 'sample.round',
    drawing: 'round-sign.svg',
    load: async () => ({
      job: (await import('../../../samples/round-sign.job.json?raw')).default,
      artwork: (await import('../../../samples/round-sign.svg?raw')).default,
    }),
  },
  {
    name: 'sample.wide',
    drawing: 'wide-sign.svg',
    load: async () => ({
      job: (await import('../../../samples/wide-sign.job.json?raw')).default,
      artwork: (await import('../../../samples/wide-sign.svg?raw')).default,
    }),
  },
];

/** Is this job one of the samples, with whatever conditions? Known by the name of its drawing, or of the file that its job names. */
export function isSample({ artwork }: Job): boolean {
  return SAMPLES.some(({ drawing }) => drawing === artwork.name || drawing === artwork.file);
}
