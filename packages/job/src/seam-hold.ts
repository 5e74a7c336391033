import type { Region } from '@underlap/geometry/region';
import { HeldMeasure } from '@underlap/seam/held';
import type { Seam, SplitPlan } from '@underlap/seam/task';

type Stretch = readonly [number, number];

/** What holds one seam together besides its knobs. */
export interface SeamHold {
  /** Held by what is glued on top, or by a rear plate, mm; at most the seam's length. */
  readonly heldMm: number;
  /** What of it rear plates alone hold, mm. */
  readonly byPlateMm: number;
  /** Stretches that are held, as [from, to] along the path, mm. */
  readonly held: readonly Stretch[];
}

/**
 * How much of every seam of a plan is held.
 * @param part - the part as drawn, mm; plates lie behind it.
 * @param landing - how far a glued face must reach beyond the seam, mm.
 * @param isPlated - are the plan's rear plates cut and glued on?
 * @returns one entry a seam.
 */
export function seamHolds(plan: SplitPlan, part: Region, landing: number, isPlated: boolean): SeamHold[] {
  const measure =
    isPlated && plan.plates.length > 0
      ? new HeldMeasure({ region: part, landing, glue: plan.plates.map((region) => ({ partId: 'plate', region })) })
      : null;
  return plan.seams.map((seam) => holdOf(seam, measure));
}

function holdOf(seam: Seam, plates: HeldMeasure | null): SeamHold {
  const held = united([...seam.held, ...(plates?.stretches(seam.path) ?? [])]);
  const heldMm = held.reduce((sum, [from, to]) => sum + to - from, 0);
  return { heldMm, byPlateMm: Math.max(0, heldMm - seam.heldLengthMm), held };
}

/** The stretches in order, those that overlap or meet made one. */
function united(stretches: readonly Stretch[]): Stretch[] {
  const out: [number, number][] = [];
  for (const [from, to] of [...stretches].sort((a, b) => a[0] - b[0])) {
    const last = out[out.length - 1];
    if (last !== undefined && from <= last[1]) last[1] = Math.max(last[1], to);
    else out.push([from, to]);
  }
  return out;
}
