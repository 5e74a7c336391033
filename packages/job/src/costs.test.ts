import { describe, expect, it } from 'vitest';
import { costRow } from './costs.ts';
import { moveSeconds, sheetSeconds } from './machine-time.ts';
import { jobFrom } from './parse-job.ts';

const costs = jobFrom(
  {
    bed: '520x320',
    boards: ['508x305'],
    costs: {
      machineHour: 18,
      labourHour: 24,
      handMinutesPerSign: 45,
      handMinutesPerSheet: 2,
      overheadPerSign: 1.5,
      extrasPerSign: 2.2,
    },
  },
  'test',
).costs;

describe('machine time', () => {
  // Textbook kinematics, trapezoidal profile: 100 mm at 10 mm/s and 1000 mm/s2 take 100 / 10 + 10 / 1000 s.
  it('is distance over speed plus one ramp for a long move', () => {
    expect(moveSeconds(100, 10, 1000)).toBeCloseTo(10.01, 12);
  });

  // A move too short to reach its speed is a triangle: 2 sqrt(d / a).
  it('is a triangle for a short move, and both formulas agree where they meet', () => {
    expect(moveSeconds(0.01, 300, 1000)).toBeCloseTo(2 * Math.sqrt(0.00001), 12);
    expect(moveSeconds(90, 300, 1000)).toBeCloseTo(90 / 300 + 300 / 1000, 12);
    expect(moveSeconds(90, 300, 1000)).toBeCloseTo(2 * Math.sqrt(90 / 1000), 12);
    expect(moveSeconds(0, 300, 1000)).toBe(0);
  });

  it('adds runs and the moves between them', () => {
    const speeds = { cut: 10, score: 80, 'deep-score': 40, engrave: 150, travel: 300, acceleration: 1000 };
    const run = { process: 'cut', lengthMm: 100, from: { x: 30, y: 40 }, to: { x: 30, y: 40 } } as const;
    expect(sheetSeconds([run], speeds)).toBeCloseTo(moveSeconds(50, 300, 1000) + 10.01, 12);
  });
});

describe('cost of a sign', () => {
  // price = (materials + overhead + labour + machine) x (1 + mark-up), worked by hand.
  it('adds what the shop says and the mark-up', () => {
    const row = costRow({ batch: 4, boards: 9, boardsPrice: 9 * 3.4, machineSeconds: 3600 }, costs);
    expect(row.material).toBeCloseTo(30.6 / 4 + 2.2, 12);
    expect(row.machine).toBeCloseTo(18 / 4, 12);
    expect(row.labour).toBeCloseTo(((45 + 18 / 4) / 60) * 24, 12);
    expect(row.costPerSign).toBeCloseTo(9.85 + 4.5 + 19.8 + 1.5, 12);
    expect(row.pricePerSign).toBeCloseTo(2 * 35.65, 12);
  });
});
