import type { Choice } from '../sentence/places.tsx';

/** Sides of beds and boards that make sense, mm. */
export const SIDE = { least: 20, most: 20_000 } as const;

export type TurnWord = 'fixed' | 'half' | 'quarter' | 'any';

/** How pieces may be turned, as a sentence goes on after 'turned'. */
export const TURN_CHOICES: readonly Choice<TurnWord>[] = [
  { value: 'fixed', words: 'not at all' },
  { value: 'half', words: 'by half turns' },
  { value: 'quarter', words: 'by quarter turns' },
  { value: 'any', words: 'by any angle' },
];
