import type { Shape } from '@underlap/geometry/curve';
import { shapeToRegion } from '@underlap/geometry/flatten';
import { nest } from '@underlap/nest/nest';
import { describe, expect, it } from 'vitest';
import { checkStage } from './check-stage.ts';
import { designsOf } from './designs.ts';
import { jobPiecesOf } from './job-pieces.ts';
import { nestProblemOf } from './nest-stage.ts';
import { jobFrom } from './parse-job.ts';
import type { CutPiece, JobPiece } from './stages.ts';

/** A plank that goes into its board along the diagonal only. */
const length = 120;
const plank: Shape = {
  outer: {
    start: { x: 0, y: 0 },
    segments: [
      { kind: 'line', to: { x: length, y: 0 } },
      { kind: 'line', to: { x: length, y: 4 } },
      { kind: 'line', to: { x: 0, y: 4 } },
      { kind: 'line', to: { x: 0, y: 0 } },
    ],
    closed: true,
  },
  holes: [],
};
const region = shapeToRegion(plank, 0.01);
const cut: CutPiece = {
  id: 'plank',
  partId: 'plank',
  shape: plank,
  region,
  limitTurnDeg: { bed: 45, board: 45 } as CutPiece['limitTurnDeg'],
  cutShape: plank,
  cutRegion: region,
  marks: [],
  bridges: [],
  isAsDrawn: true,
  baseTurnDeg: 45,
  number: '1',
  centre: { x: 60, y: 2 },
  stockId: '',
};
const job = jobFrom(
  { bed: '100x100', boards: ['100x100'], batch: 2, spacing: 1, margin: 1, effort: 'quick', turns: { default: 'half' } },
  'test',
);
const [piece] = jobPiecesOf([{ design: designsOf(job)[0]!, pieces: [cut] }], job) as [JobPiece];

describe('the check of a piece that lies askew', () => {
  it('passes what the nester made, and refuses the piece turned off its rule', async () => {
    const problem = nestProblemOf([piece], job);
    const result = await nest(problem, job.effort, { seed: 1 });
    const nested = { problem, result, layout: result.layout };
    expect(nested.layout.unplaced).toEqual([]);
    expect(checkStage(nested.layout, nested, [piece], job)).toMatchObject({ ok: true, violations: [] });
    const turnedBy = (degrees: number) => ({
      ...nested.layout,
      sheets: nested.layout.sheets.map((sheet) => ({
        ...sheet,
        placements: sheet.placements.map((placement, index) =>
          index === 0 ? { ...placement, turnDeg: placement.turnDeg + degrees } : placement,
        ),
      })),
    });
    for (const degrees of [0.01, 45, 90]) {
      const { violations } = checkStage(turnedBy(degrees), nested, [piece], job);
      expect(violations.map(({ kind }) => kind)).toContain('turn');
    }
  });
});
