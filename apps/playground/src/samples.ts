import type { WordKey } from './words/catalogue.ts';

/** A design that comes with the page: its artwork and its job file as text. */
export interface Sample {
  readonly name: WordKey & `sample.${string}`;
  load(): Promise<{ readonly job: string; readonly artwork: string }>;
}

/** The first one is open when a new user comes; the others are fetched when they are asked for. */
export const SAMPLES: readonly [Sample, ...Sample[]] = [
  {
    name: 'sample.harbour',
    load: async () => ({
      job: (await import('../../../samples/harbour-sign.job.json?raw')).default,
      artwork: (await import('../../../samples/harbour-sign.svg?raw')).default,
    }),
  },
  {
    name: 'sample.round',
    load: async () => ({
      job: (await import('../../../samples/round-sign.job.json?raw')).default,
      artwork: (await import('../../../samples/round-sign.svg?raw')).default,
    }),
  },
  {
    name: 'sample.wide',
    load: async () => ({
      job: (await import('../../../samples/wide-sign.job.json?raw')).default,
      artwork: (await import('../../../samples/wide-sign.svg?raw')).default,
    }),
  },
];
