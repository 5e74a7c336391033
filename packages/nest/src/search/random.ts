import seedrandom from 'seedrandom';

/** A seeded stream of numbers in [0, 1). */
export type Random = () => number;

/**
 * The sfc32 generator (Doty-Humphrey's Small Fast Counting generator, PractRand), started from seedrandom so that any seed
 * number or text gives a well-mixed state. About 5 ns a number; the same on every machine.
 */
export function seededRandom(seed: string | number): Random {
  const start = seedrandom(`underlap-nest-${seed}`);
  let a = start.int32() | 0;
  let b = start.int32() | 0;
  let c = start.int32() | 0;
  let counter = 1;
  return () => {
    const t = (((a + b) | 0) + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (((c << 21) | (c >>> 11)) + t) | 0;
    return (t >>> 0) / 4294967296;
  };
}

/** Fisher-Yates on the first `count` entries. */
export function shuffle(list: Int32Array, count: number, random: Random): void {
  for (let i = count - 1; i > 0; i--) {
    const j = (random() * (i + 1)) | 0;
    const held = list[i]!;
    list[i] = list[j]!;
    list[j] = held;
  }
}
