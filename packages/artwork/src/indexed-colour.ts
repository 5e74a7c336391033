import type { Colour } from './drawing.ts';

/** Brightness of the five pairs of each hue, of 255. */
const LEVELS: readonly number[] = [255, 189, 129, 104, 79];

const NAMED: readonly string[] = [
  '#ff0000',
  '#ffff00',
  '#00ff00',
  '#00ffff',
  '#0000ff',
  '#ff00ff',
  '#000000',
  '#808080',
  '#c0c0c0',
];
const GREYS: readonly string[] = ['#333333', '#505050', '#696969', '#828282', '#bebebe', '#ffffff'];

/**
 * The colour of a DXF colour number 1..255: nine named ones, 24 hues of 15 degrees in five levels (odd numbers half
 * saturated), six greys. Number 7 is 'black or white, whichever shows'; on a drawing it is black.
 * @remarks Values from memory of the usual table; programs differ by some steps in the darker levels.
 */
export function indexedColour(index: number): Colour {
  if (index >= 1 && index <= 9) return NAMED[index - 1]!;
  if (index >= 250 && index <= 255) return GREYS[index - 250]!;
  if (!Number.isInteger(index) || index < 10 || index > 249) return '#000000';
  const hue = ((Math.floor(index / 10) - 1) * 15) / 60;
  const level = LEVELS[Math.floor((index % 10) / 2)]!;
  const floor = index % 2 === 1 ? 2 / 3 : 0;
  const channel = (offset: number): number => {
    // Distance round the colour wheel (in sixths) to the channel's own hue: full within one sixth, none beyond two.
    const away = Math.abs(((hue - offset + 9) % 6) - 3);
    const share = Math.min(1, Math.max(0, 2 - away));
    return Math.floor(level * (floor + (1 - floor) * share));
  };
  return `#${[channel(0), channel(2), channel(4)].map((value) => value.toString(16).padStart(2, '0')).join('')}`;
}

/** The colour number 1..249 that lies nearest (sum of squares in RGB) and is not taken yet. O(1). */
export function nearestIndex(colour: Colour, taken: ReadonlySet<number>): number {
  const wanted = channels(colour);
  let best = 7;
  let least = Infinity;
  for (let index = 1; index < 250; index++) {
    if (taken.has(index)) continue;
    const got = channels(indexedColour(index));
    const off = got.reduce((sum, value, i) => sum + (value - wanted[i]!) ** 2, 0);
    if (off < least) {
      least = off;
      best = index;
    }
  }
  return best;
}

function channels(colour: Colour): number[] {
  return [1, 3, 5].map((at) => Number.parseInt(colour.slice(at, at + 2), 16));
}
