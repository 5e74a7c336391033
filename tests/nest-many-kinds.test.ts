import { fillBoards } from '@underlap/nest/blf/bottom-left';
import { orderedUnits } from '@underlap/nest/blf/orders';
import { packBoards } from '@underlap/nest/boards/pack-boards';
import { checkLayout } from '@underlap/nest/check/check-layout';
import { layoutOf } from '@underlap/nest/draft-layout';
import { engineTask } from '@underlap/nest/improve/engine';
import { prepareProblem } from '@underlap/nest/shape/prepare';
import { describe, expect, it } from 'vitest';
import { iconKinds } from './support/icon-kinds.ts';

describe('a day of many shapes', () => {
  it('is searched at once: the budget goes into places looked at, not into no-fit polygons of pairs that never meet', () => {
    const problem = iconKinds({ seed: 'day', kinds: 80, copies: 80, corners: [40, 400], sides: [15, 60] });
    const prepared = prepareProblem(problem);
    const start = fillBoards(prepared, {
      units: orderedUnits(prepared, 'area', []),
      preference: [0],
      attitudes: 'one',
    });
    const engine = engineTask(prepared, start, [], start.left, 1);
    const budget = 20_000;
    const run = () => packBoards(engine.input, null, { evaluations: budget }, { seed: 1 });
    const result = run();
    // with no-fit polygons of neighbours alone, which count as work, such a budget ends before anything is separated
    expect(result.endedBy).toBe('bound');
    expect(run()).toEqual(result);
    const layout = layoutOf(prepared, engine.draftOf(result.spots!), [], false);
    expect(layout.sheets).toHaveLength(1);
    expect(checkLayout(problem, layout).violations).toEqual([]);
  });
});
