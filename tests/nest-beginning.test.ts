import { fillBoards } from '@underlap/nest/blf/bottom-left';
import { orderedUnits } from '@underlap/nest/blf/orders';
import { boardsTask } from '@underlap/nest/boards/boards-task';
import { engineTask } from '@underlap/nest/improve/engine';
import { putSpots } from '@underlap/nest/search/spots';
import { prepareProblem } from '@underlap/nest/shape/prepare';
import { describe, expect, it } from 'vitest';
import { wavyProblem } from './support/nest-problems.ts';

describe('the overlap search', () => {
  it.each(['half', 'any'] as const)('sees no overlap in a bottom-left layout, and so begins with it (%s)', (turns) => {
    const prepared = prepareProblem(wavyProblem('begin', 8, 40, turns));
    const units = orderedUnits(prepared, 'area', []);
    const draft = fillBoards(prepared, { units, preference: [0] });
    const { input, incumbent } = engineTask(prepared, draft, [], [], 0);
    const { layout } = boardsTask(input, { evaluations: 1 }, { seed: 1 });
    putSpots(layout, incumbent!);
    layout.refreshAll();
    expect(layout.total(input.tolerance)).toBe(0);
    // the twin: the same pieces a hundredth of a millimetre nearer do overlap in its eyes
    const closer = { ...input, spacing: input.spacing + 0.01 };
    const twin = boardsTask(closer, { evaluations: 1 }, { seed: 1 }).layout;
    putSpots(twin, incumbent!);
    twin.refreshAll();
    expect(twin.total(input.tolerance)).toBeGreaterThan(0);
  });
});
