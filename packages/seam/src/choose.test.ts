import { describe, expect, it } from 'vitest';
import { choosePlans } from './choose.ts';
import type { PlannedPlan } from './finish.ts';
import type { SeamWishes, SplitPiece, SplitPlan } from './task.ts';

const WISHES: SeamWishes = { prefer: 'fewest', morePieces: 0, pins: [], forbidden: [], knob: 'auto' };

function planned(
  name: string,
  { pieces = 2, shows = 0, loose = 0, hidden = 300, ...judged }: Record<string, number>,
): PlannedPlan & { readonly name: string } {
  const plan: SplitPlan = {
    id: name,
    merits: [],
    pieces: Array.from({ length: pieces }, () => ({}) as SplitPiece),
    provenFewest: false,
    seams: [],
    visibleLengthMm: shows,
    ledLengthMm: judged.led ?? 0,
    hiddenLengthMm: hidden,
    heldLengthMm: hidden + shows - loose,
    leastNeckMm: 6,
    balance: judged.balance ?? 1,
    plates: [],
    remarks: [],
  };
  const cutPlan = { cuts: [], pieces, cost: 0, bareMm: shows };
  return { name, plan, cutPlan, bareSeams: 0, strength: 1, chips: 0, crumbs: 0, missedPins: 0, ...judged };
}

const order = (plans: readonly PlannedPlan[], wishes: Partial<SeamWishes> = {}) =>
  choosePlans(plans, { ...WISHES, ...wishes }).map((entry) => (entry as ReturnType<typeof planned>).name);

describe('which plan comes first', () => {
  it('fewest pieces, unless a long seam would stay without a knob', () => {
    expect(order([planned('three', { pieces: 3 }), planned('two', { shows: 200 })])[0]).toBe('two');
    expect(order([planned('three', { pieces: 3 }), planned('two', { bareSeams: 1 })])[0]).toBe('three');
  });

  it('a crumb counts as a piece: the plan with as many fair pieces is taken', () => {
    const crumbs = planned('crumb', { pieces: 3, chips: 1, crumbs: 1 });
    expect(order([crumbs, planned('fair', { pieces: 4, shows: 90 })])[0]).toBe('fair');
    expect(order([crumbs, planned('many', { pieces: 5 })])[0]).toBe('crumb');
    expect(order([{ ...crumbs, crumbs: 0 } as typeof crumbs, planned('fair', { pieces: 4 })])[0]).toBe('crumb');
  });

  it('the one that shows less of what was not drawn', () => {
    expect(order([planned('shown', { shows: 100 }), planned('led', { shows: 300, led: 280 })])[0]).toBe('led');
  });

  it('as many pieces more as are wished for', () => {
    const plans = [planned('two', {}), planned('three', { pieces: 3 }), planned('four', { pieces: 4 })];
    expect(order(plans, { morePieces: 1 })[0]).toBe('three');
    expect(order(plans, { leastPieces: 4 })[0]).toBe('four');
  });

  it('what shows before what is loose, and what is loose before looks', () => {
    expect(order([planned('shows', { shows: 60 }), planned('loose', { loose: 250 })])[0]).toBe('loose');
    expect(order([planned('loose', { loose: 100 }), planned('uneven', { balance: 0.2 })])[0]).toBe('uneven');
    // Differences that nobody sees do not count.
    expect(order([planned('a', { shows: 1, loose: 90 }), planned('b', { shows: 2 })])[0]).toBe('b');
  });

  it('a preference for hidden or strong takes more pieces', () => {
    const plans = [
      planned('few', { shows: 150 }),
      planned('hidden', { pieces: 3, strength: 0.5 }),
      planned('strong', { pieces: 4, shows: 300, strength: 3 }),
    ];
    expect(order(plans, { prefer: 'most-hidden' })[0]).toBe('hidden');
    expect(order(plans, { prefer: 'strongest' })[0]).toBe('strong');
  });

  it('chips and missed pins come late', () => {
    expect(order([planned('chips', { chips: 1 }), planned('whole', { shows: 40 })])[0]).toBe('whole');
    expect(order([planned('missed', { missedPins: 1 }), planned('met', { shows: 40 })])[0]).toBe('met');
  });

  it('offers at most three that differ, each with what it is best at, and nothing for nothing', () => {
    const plans = Array.from({ length: 6 }, (_, k) => planned(`p${k}`, { pieces: 2 + k, shows: 200 - 40 * k }));
    const chosen = choosePlans(plans, WISHES);
    expect(chosen.length).toBe(3);
    expect(chosen.map(({ plan }) => plan.id)).toEqual(['plan-1', 'plan-2', 'plan-3']);
    expect(chosen[0]!.plan.merits).toContain('fewest');
    expect(chosen.some(({ plan }) => plan.merits.includes('most-hidden'))).toBe(true);
    expect(choosePlans([planned('a', {}), planned('twin', {})], WISHES)).toHaveLength(1);
    expect(choosePlans([], WISHES)).toEqual([]);
  });
});
