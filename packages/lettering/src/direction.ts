import bidiFactory from 'bidi-js';

const bidi = bidiFactory();

/** Characters that run one way, in the order in which they stand on the line from left to right. */
export interface DirectedRun {
  readonly text: string;
  /** Index of its first character in the whole text, UTF-16. */
  readonly from: number;
  readonly direction: 'ltr' | 'rtl';
}

/**
 * Cut a line into runs of one direction and put them in visual order (Unicode Bidirectional Algorithm, UAX #9, by bidi-js).
 * @param base - direction of the whole line; `auto` takes it from the first strong character.
 */
export function visualRuns(text: string, base: 'ltr' | 'rtl' | 'auto'): DirectedRun[] {
  if (text === '') return [];
  const levels = bidi.getEmbeddingLevels(text, base);
  const runs: (DirectedRun & { readonly level: number })[] = [];
  for (let from = 0; from < text.length; ) {
    const level = levels.levels[from] ?? 0;
    let to = from + 1;
    while (to < text.length && levels.levels[to] === level) to++;
    runs.push({ text: text.slice(from, to), from, direction: level % 2 === 0 ? 'ltr' : 'rtl', level });
    from = to;
  }
  // Rule L2: from the highest level down, every stretch of runs at that level or above is reversed.
  const highest = Math.max(...runs.map(({ level }) => level));
  for (let level = highest; level > 0; level--) {
    for (let from = 0; from < runs.length; from++) {
      if (runs[from]!.level < level) continue;
      let to = from;
      while (to + 1 < runs.length && runs[to + 1]!.level >= level) to++;
      runs.splice(from, to - from + 1, ...runs.slice(from, to + 1).reverse());
      from = to;
    }
  }
  return runs.map(({ text: words, from, direction }) => ({ text: words, from, direction }));
}
