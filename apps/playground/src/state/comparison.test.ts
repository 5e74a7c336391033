import { describe, expect, it } from 'vitest';
import type { BoardsView } from '../work/views.ts';
import { comparisonCsv, conclusion, differingConditions, figuresOf } from './comparison.ts';
import type { Conditions, KeptLayout } from './desk.ts';

const sheet = {
  stockId: 'b',
  outline: '',
  width: 100,
  height: 50,
  placements: [],
  windows: [],
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
    bed: '520 \u00d7 320',
    boards: '508 \u00d7 305',
    turns: 'quarter turns',
    spacingMm: 2,
    marginMm: 5,
    batch: 4,
    effort: 'normal',
    seed: 1,
  };
  return { id: name, name, conditions: { ...usual, ...conditions }, boards: view, seconds: 1.25 };
}

const percent = (share: number): string => `${Math.round(share * 100)} %`;

describe('comparison', () => {
  it('names the condition that makes the difference', () => {
    const layouts = [layout('small', 6, 0.7), layout('large', 4, 0.75, { boards: '610 \u00d7 305' })];
    expect(differingConditions(layouts)).toEqual(['boards']);
    expect(conclusion(layouts, percent)).toBe(
      '"large" needs 1 boards a sign where "small" needs 1.5, with boards 610 \u00d7 305 instead of 508 \u00d7 305.',
    );
  });

  it('falls back on yield, and says when nothing differs', () => {
    expect(conclusion([layout('a', 4, 0.7), layout('b', 4, 0.8, { turns: 'any turn' })], percent)).toContain(
      '"b" uses 80 %',
    );
    expect(conclusion([layout('a', 4, 0.7), layout('b', 4, 0.7, { spacingMm: 3 })], percent)).toContain(
      'come out the same',
    );
  });

  it('writes a table that a spreadsheet reads', () => {
    const csv = comparisonCsv([layout('a "quoted", name', 4, 0.7)]);
    const [head, row] = csv.split('\r\n');
    expect(head?.split(',')[0]).toBe('layout');
    expect(row?.startsWith('"a ""quoted"", name",')).toBe(true);
    expect(figuresOf(layout('a', 4, 0.7)).boardsPerSign).toBe(1);
  });
});
