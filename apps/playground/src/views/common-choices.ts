import type { Choice } from '../sentence/places.tsx';
import type { WordKey } from '../words/catalogue.ts';
import type { Say } from '../words/say.ts';

/** Sides of beds and boards that make sense, mm. */
export const SIDE = { least: 20, most: 20_000 } as const;

export type TurnWord = 'fixed' | 'half' | 'quarter' | 'any';

const TURN_WORDS = {
  fixed: 'turn.fixed',
  half: 'turn.half',
  quarter: 'turn.quarter',
  any: 'turn.any',
} as const satisfies Readonly<Record<TurnWord, WordKey>>;

/** How pieces may be turned, as a sentence goes on after 'turned'. */
export function turnChoices(say: Say): readonly Choice<TurnWord>[] {
  return (['fixed', 'half', 'quarter', 'any'] as const).map((value) => ({ value, words: say.t(TURN_WORDS[value]) }));
}
