import type { Colour, DrawnShape, Process } from '@underlap/artwork/drawing';

/** Which colour stands for which process; colours that are not named are decided by the geometry. */
export type ColourProcesses = Readonly<Record<Colour, Process>>;

/** What a shape is there for, and whether the user or the geometry said so. */
export interface Usage {
  readonly process: Process;
  readonly toldBy: 'user' | 'geometry';
}

/**
 * What the beam does along a shape: the user's word for its fill or stroke colour, else the proposal for its stroke colour,
 * else cut.
 * @param proposals - processes inferred from the whole drawing, by stroke colour.
 */
export function usageOf(shape: DrawnShape, told: ColourProcesses, proposals: ColourProcesses): Usage {
  const own = toldFor(shape.fill, told) ?? toldFor(shape.stroke, told);
  if (own !== null) return { process: own, toldBy: 'user' };
  const proposed = shape.fill === null ? toldFor(shape.stroke, proposals) : null;
  return { process: proposed ?? 'cut', toldBy: 'geometry' };
}

function toldFor(colour: Colour | null, processes: ColourProcesses): Process | null {
  return colour === null ? null : (processes[colour] ?? null);
}
