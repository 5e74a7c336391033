import type { Process } from '@underlap/artwork/drawing';

/** Words of the trade in the names of layers, groups and colours of lines, and the process they stand for. */
const WORDS: readonly (readonly [RegExp, Process])[] = [
  [/^(?:deep|deepscore)$/, 'deep-score'],
  [/^(?:score|scored|scores|scoring|guide|guides|guideline|guidelines|placement|placements)$/, 'score'],
  [/^(?:engrave|engraved|engraves|engraving|engravings|etch|etched|etching)$/, 'engrave'],
  [/^(?:cut|cuts|cutting|cutline|cutlines|hole|holes|inner|inside|interior|outer)$/, 'cut'],
];

/**
 * The process that a layer's name speaks of: 'Score lines', '02_score', 'cuts'.
 * @returns null when the name speaks of none, or of several ('cut and score').
 */
export function processByName(layer: string | null): Process | null {
  if (layer === null) return null;
  const words = layer
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .toLowerCase()
    .split(/[^a-z]+/)
    .filter((word) => word !== '');
  const named = new Set(words.flatMap((word) => WORDS.find(([pattern]) => pattern.test(word))?.[1] ?? []));
  // 'deep score' is one process in two words.
  if (named.has('deep-score')) named.delete('score');
  const [only] = named;
  return named.size === 1 ? only! : null;
}
