import { subtractRegions } from '@underlap/geometry/boolean';
import type { Contour } from '@underlap/geometry/curve';
import { offsetRegions } from '@underlap/geometry/offset';
import type { Region } from '@underlap/geometry/region';
import type { GlueFace, SeamTask } from './task.ts';
import { CoverMeasure } from './visible.ts';

/** Gaps of the glue narrower than twice this are rounding at a shared edge, not wood without glue, mm. */
const HAIR_MM = 0.02;

/** Rounded corners of what is held, mm. */
const ARC_MM = 0.002;

/**
 * Where a seam would be held: all of the part's wood within the landing lies on one glued face.
 * @returns disjoint or overlapping regions, one or more for each face; nothing of the part's own edge is lost, since there is no
 * wood beyond it to hold.
 * @remarks Two offsets and two booleans a face, O(n log n).
 */
export function heldRegions(task: Pick<SeamTask, 'region' | 'glue' | 'landing'>): Region[] {
  return task.glue.flatMap((face) => heldBy(face, task.region, task.landing));
}

function heldBy({ region }: GlueFace, part: Region, landing: number): Region[] {
  const rest = subtractRegions([part], offsetRegions([region], HAIR_MM, ARC_MM));
  if (rest.length === 0) return [part];
  return subtractRegions([part], offsetRegions(rest, landing + HAIR_MM, ARC_MM));
}

/** Measures how much of a path is held by glued parts. Build once per task, then ask for any number of paths. */
export class HeldMeasure {
  private readonly faces: CoverMeasure | null;

  /** @param regions - what `heldRegions` tells of the task, where it is known already. */
  constructor(task: Pick<SeamTask, 'region' | 'glue' | 'landing'>, regions: readonly Region[] = heldRegions(task)) {
    this.faces = regions.length > 0 ? new CoverMeasure(regions) : null;
  }

  /** Stretches of the path that are held, as [from, to] along it, mm; those of two faces that overlap are one stretch. */
  stretches(path: Contour): (readonly [number, number])[] {
    return this.faces?.hidden(path) ?? [];
  }
}
