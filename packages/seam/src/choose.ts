import type { PlannedPlan } from './finish.ts';
import type { SeamWishes, SplitPlan } from './task.ts';

/** Visible lengths that differ by less than this count as equal, mm: nobody sees the difference. */
const SAME_VISIBLE_MM = 5;

/** Held lengths that differ by less than this count as equal, mm: less than the landing on both sides of one knob. */
const SAME_HELD_MM = 10;

/** At most this many plans are offered. */
const MOST_PLANS = 3;

type Merit = SplitPlan['merits'][number];

/**
 * Say what each plan is best at, drop those that are best at nothing new, and put the user's preference first.
 * @returns never empty when `plans` is not.
 */
export function choosePlans(plans: readonly PlannedPlan[], wishes: SeamWishes): PlannedPlan[] {
  if (plans.length === 0) return [];
  const fewest = Math.min(...plans.map(piecesCounted));
  const wanted = Math.max(fewest + wishes.morePieces, wishes.leastPieces ?? 1);
  const byMerit: Record<Merit, (a: PlannedPlan, b: PlannedPlan) => number> = {
    fewest: (a, b) =>
      bareSeams(a) - bareSeams(b) ||
      Math.abs(piecesCounted(a) - wanted) - Math.abs(piecesCounted(b) - wanted) ||
      chips(a) - chips(b) ||
      missedPins(a) - missedPins(b) ||
      visibleStep(a) - visibleStep(b) ||
      looseStep(a) - looseStep(b) ||
      quality(a) - quality(b),
    'most-hidden': (a, b) =>
      bareSeams(a) - bareSeams(b) ||
      chips(a) - chips(b) ||
      missedPins(a) - missedPins(b) ||
      visibleStep(a) - visibleStep(b) ||
      looseStep(a) - looseStep(b) ||
      a.plan.pieces.length - b.plan.pieces.length ||
      quality(a) - quality(b),
    strongest: (a, b) =>
      bareSeams(a) - bareSeams(b) ||
      chips(a) - chips(b) ||
      missedPins(a) - missedPins(b) ||
      b.strength - a.strength ||
      quality(a) - quality(b),
  };
  const merits = new Map<PlannedPlan, Merit[]>();
  const award = (merit: Merit) => {
    const best = [...plans].sort(byMerit[merit])[0]!;
    merits.set(best, [...(merits.get(best) ?? []), merit]);
  };
  award('fewest');
  award('most-hidden');
  award('strongest');
  const order = [...plans].sort(byMerit[wishes.prefer]);
  const offered = order.filter((entry) => merits.has(entry));
  // One plan with a piece more is always worth a look where it hides more.
  for (const entry of order) {
    if (offered.length >= MOST_PLANS) break;
    const isNew = offered.every((other) => !isLike(entry, other));
    if (!offered.includes(entry) && isNew) offered.push(entry);
  }
  return offered.map((entry, index) => ({
    ...entry,
    plan: { ...entry.plan, id: `plan-${index + 1}`, merits: merits.get(entry) ?? [] },
  }));
}

/** Pieces, a crumb for two: nobody cuts one by hand where the same number of fair pieces does. */
function piecesCounted({ plan, crumbs }: PlannedPlan): number {
  return plan.pieces.length + crumbs;
}

/** Long seams without a knob: worse than a piece more. */
function bareSeams(entry: PlannedPlan): number {
  return entry.bareSeams;
}

function chips(entry: PlannedPlan): number {
  return entry.chips;
}

function missedPins(entry: PlannedPlan): number {
  return entry.missedPins;
}

/** What shows and was not drawn: a seam along a drawn line shows nothing new. */
function visibleStep({ plan }: PlannedPlan): number {
  return Math.round((plan.visibleLengthMm - plan.ledLengthMm) / SAME_VISIBLE_MM);
}

/**
 * Seam that no glued part holds. After what shows: a seam in sight stays in sight, while a loose one is mended from behind by a
 * plate or a filler. Before length and balance: those are looks and habit. Counted as the loose length, not the held share, since
 * a longer seam is not better for being held in part.
 */
function looseStep({ plan }: PlannedPlan): number {
  return Math.round((plan.visibleLengthMm + plan.hiddenLengthMm - plan.heldLengthMm) / SAME_HELD_MM);
}

/** Among equals: short seams and even pieces. */
function quality(entry: PlannedPlan): number {
  const length = entry.plan.seams.reduce((sum, seam) => sum + seam.lengthMm, 0);
  return length * (1.5 - 0.5 * entry.plan.balance);
}

function isLike(a: PlannedPlan, b: PlannedPlan): boolean {
  return (
    a.plan.pieces.length === b.plan.pieces.length &&
    Math.abs(a.plan.visibleLengthMm - b.plan.visibleLengthMm) < 20 &&
    Math.abs(a.plan.balance - b.plan.balance) < 0.1
  );
}
