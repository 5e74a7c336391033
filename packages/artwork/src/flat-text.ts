/**
 * The pieces as one text. A template keeps its pieces and the tree of their joints, three times the bytes, for as long as the
 * text lives; drawings of many thousand elements keep a few such words for each.
 */
export function flatText(...pieces: readonly (string | number)[]): string {
  return pieces.join('');
}
