/** "1 board", "2 boards": a count with its word, whose plural ends in s. */
export function counted(count: number, word: string): string {
  return `${count} ${word}${count === 1 ? '' : 's'}`;
}
