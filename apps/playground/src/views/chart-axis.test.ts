import { describe, expect, it } from 'vitest';
import { axisSteps } from './chart-axis.tsx';

describe('an axis', () => {
  it('has round steps from nothing up to what it shows, few enough to read', () => {
    expect(axisSteps(9)).toEqual([0, 5]);
    expect(axisSteps(8)).toEqual([0, 2, 4, 6, 8]);
    expect(axisSteps(1)).toEqual([0, 0.5, 1]);
    expect(axisSteps(37)).toEqual([0, 10, 20, 30]);
    for (let most = 0.3; most < 500; most *= 1.37) {
      const steps = axisSteps(most);
      expect(steps.length).toBeGreaterThanOrEqual(2);
      expect(steps.length).toBeLessThanOrEqual(5);
      expect(steps.at(-1)).toBeLessThanOrEqual(most * (1 + 1e-6));
    }
  });
});
