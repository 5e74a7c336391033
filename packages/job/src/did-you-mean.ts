import { distance } from 'fastest-levenshtein';

/** A word with more than this share of its letters wrong is another word; two letters that changed places count as two. */
const MOST_WRONG = 0.4;
const SHORT_WORD = 3;

/**
 * The known word that was probably meant.
 * @returns ', did you mean "kerf"?' or '' when nothing is near; letter case does not count.
 */
export function didYouMean(word: string, known: Iterable<string>): string {
  const near = nearest(word, known);
  return near === null ? '' : `, did you mean "${near}"?`;
}

/** The nearest word within two fifths of wrong letters, first of equals; null when none is. O(words x letters^2). */
export function nearest(word: string, known: Iterable<string>): string | null {
  let best: string | null = null;
  let least = word.length <= SHORT_WORD ? 1 : Math.max(2, Math.floor(word.length * MOST_WRONG));
  for (const candidate of known) {
    const wrong = distance(word.toLowerCase(), candidate.toLowerCase());
    if (wrong < least || (wrong === least && best === null)) {
      best = candidate;
      least = wrong;
    }
  }
  return best;
}
