/**
 * The kinds of knobs. A further one is an entry here, its outline in `knob-profile.ts`, its sizes in `place-knobs.ts` and its words
 * on the page (`split.knob-...`).
 */
export const KNOB_KINDS = {
  round: { locks: true },
  dovetail: { locks: true },
  /** Keeps the pieces from sliding along the seam; they can be pulled apart. */
  step: { locks: false },
} as const;

export type KnobKind = keyof typeof KNOB_KINDS;

/** A kind, or whichever holds best where it stands. */
export type KnobWish = 'auto' | KnobKind;

export const KNOB_WISHES = ['auto', ...(Object.keys(KNOB_KINDS) as KnobKind[])] as const;

/** Is its head wider than its neck, so that it cannot be pulled out? */
export function locks({ kind }: { readonly kind: KnobKind }): boolean {
  return KNOB_KINDS[kind].locks;
}
