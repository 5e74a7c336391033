/** A kerf beyond this is a misreading, mm: no laser for wood cuts as wide. Common practice, no source. */
export const LARGEST_KERF_MM = 3;

/** Every measure of a seam that follows from the material, mm. */
export interface SeamSizes {
  readonly thickness: number;
  /** Neck of a knob when there is room, and the least it may have. */
  readonly neck: number;
  readonly leastNeck: number;
  /** Radius of the fillets at a knob's foot; never below the kerf, or the beam could not follow them. */
  readonly fillet: number;
  /** Wood left between a knob and everything else (edge, hole, other seam, keep-out). */
  readonly web: number;
  /** Distance wanted between neighbouring knobs. */
  readonly pitch: number;
  /** How far the largest knob stands off the seam. */
  readonly reach: number;
  /** Radius that corners of a seam are rounded with, and the least that is accepted. */
  readonly bend: number;
  readonly leastBend: number;
  /** Straight run-up at the ends of a seam. */
  readonly lead: number;
  /** No knob nearer to an end of its seam, and none nearer to a junction. */
  readonly endClear: number;
  readonly junctionClear: number;
  /** Radius of a disc that must reach all wood but corners: a wedge it cannot enter chars and breaks off. */
  readonly leastDisc: number;
}

/** A neck of 1.6 thicknesses looks right and breaks last; thin sheets get no daintier than 5 mm. Common practice, no source. */
export function seamSizes(thickness: number, kerf: number): SeamSizes {
  const neck = Math.max(1.6 * thickness, 5);
  const leastNeck = Math.max(thickness, 2.5);
  const fillet = Math.max(1, 0.3 * thickness, kerf);
  return {
    thickness,
    neck,
    leastNeck,
    fillet,
    web: Math.max(thickness, 3),
    pitch: Math.max(8 * thickness, 36),
    reach: roundReach(neck, fillet),
    bend: 40,
    leastBend: Math.max(10, 1.5 * thickness),
    lead: 14,
    endClear: 10,
    junctionClear: 15,
    leastDisc: Math.min(5, 0.45 * thickness),
  };
}

/** Head radius of a round knob, as a share of half its neck. */
export const HEAD_SHARE = 1.35;

/** How far a round knob stands off a straight seam. */
export function roundReach(neck: number, fillet: number): number {
  const n = neck / 2;
  const r = HEAD_SHARE * n;
  return roundCentre(n, r, fillet) + r;
}

/** Distance of the head's centre from a straight seam. */
export function roundCentre(n: number, r: number, fillet: number): number {
  return fillet + Math.sqrt((r + fillet) ** 2 - (n + fillet) ** 2);
}
