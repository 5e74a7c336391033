import type { ColourKey } from '@underlap/artwork/colour-key';
import type { Colour, DrawnShape, Process } from '@underlap/artwork/drawing';

/** What a shape is there for, and whether the user or the geometry said so. */
export interface Usage {
  readonly process: Process | 'ignore';
  readonly toldBy: 'user' | 'geometry';
}

/**
 * What the beam does along a shape: the user's word for its fill or stroke colour, else the proposal for its stroke colour,
 * else cut. A colour that is paint marks a part, which is cut.
 * @param proposals - processes inferred from the whole drawing, by stroke colour; they speak for shapes without a fill only.
 */
export function usageOf(shape: DrawnShape, told: ColourKey, proposals: Readonly<Record<Colour, Process>>): Usage {
  const own = toldFor(shape.fill, told) ?? toldFor(shape.stroke, told);
  if (own !== null) return { process: own === 'paint' ? 'cut' : own, toldBy: 'user' };
  const proposed = shape.fill === null && shape.stroke !== null ? proposals[shape.stroke] : undefined;
  return { process: proposed ?? 'cut', toldBy: 'geometry' };
}

function toldFor(colour: Colour | null, key: ColourKey): ColourKey[string] | null {
  return colour === null ? null : (key[colour] ?? null);
}
