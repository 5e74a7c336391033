import { describe, expect, it } from 'vitest';
import { numberStyle } from '../units/number.ts';
import { sayIn } from '../words/say.ts';
import type { BoardsView } from '../workers/views.ts';
import { comparisonCsv, conclusion, differingConditions, figuresOf } from './comparison.ts';
import type { Conditions, KeptLayout } from './desk.ts';

const sheet = {
  stockId: 'b',
  material: '',
  outline: '',
  width: 100,
  height: 50,
  placements: [],
  loadings: [],
  yield: 0.8,
  offcut: null,
};

function layout(name: string, boards: number, share: number, conditions: Partial<Conditions> = {}): KeptLayout {
  const view: BoardsView = {
    kinds: [],
    sheets: Array.from({ length: boards }, () => sheet),
    unplaced: [],
    yield: share,
    lowerBound: { boards: 2, by: 'area' },
    isProvedMinimal: boards === 2,
    endedBy: 'budget',
    workUnits: 1,
    verdict: null,
  };
  const usual: Conditions = {
    bed: { width: 520, height: 320 },
    boards: [{ width: 508, height: 305 }],
    offcuts: 0,
    turns: 'quarter',
    spacingMm: 2,
    marginMm: 5,
    batch: 4,
    effort: 'normal',
    seed: 1,
  };
  return { id: name, name, conditions: { ...usual, ...conditions }, boards: view, seconds: 1.25 };
}

const english = numberStyle('en-GB');
const say = sayIn({ language: 'en', unit: 'mm', numbers: english });

describe('comparison', () => {
  it('names the condition that makes the difference', () => {
    const layouts = [layout('small', 6, 0.7), layout('large', 4, 0.75, { boards: [{ width: 610, height: 305 }] })];
    expect(differingConditions(layouts)).toEqual(['boards']);
    expect(conclusion(layouts, say)).toBe(
      '“large” needs 1 board a sign where “small” needs 1.5, with boards 610 \u00d7 305 mm instead of 508 \u00d7 305 mm.',
    );
    expect(conclusion(layouts, sayIn({ language: 'en', unit: 'in', numbers: english }))).toContain(
      'with boards 24 1/64 \u00d7 12.008 in instead of 20 \u00d7 12.008 in.',
    );
  });

  it('falls back on yield, and says when nothing differs', () => {
    expect(conclusion([layout('a', 4, 0.7), layout('b', 4, 0.8, { turns: 'any' })], say)).toContain('“b” uses 80.0%');
    expect(conclusion([layout('a', 4, 0.7), layout('b', 4, 0.7, { spacingMm: 3 })], say)).toContain(
      'come out the same',
    );
  });

  it('writes a table that a spreadsheet reads', () => {
    const csv = comparisonCsv([layout('a "quoted", name', 4, 0.7)], say);
    const [head, row] = csv.split('\r\n');
    expect(head?.split(',').slice(0, 3)).toEqual(['Layout', 'bed mm', 'boards mm']);
    expect(row?.startsWith('"a ""quoted"", name",')).toBe(true);
    expect(figuresOf(layout('a', 4, 0.7)).boardsPerSign).toBe(1);
  });
});
