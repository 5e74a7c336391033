import { packStrip, type StripInput } from '@underlap/strip/pack-strip';
import { describe, expect, it } from 'vitest';
import { HEIGHT, randomParts, verdictOn } from './support/random-parts.ts';

const SPACING = 0.8;
const TOLERANCE = 4e-4;

describe('packStrip', () => {
  for (const seed of ['a', 'b', 'c']) {
    it(`gives layouts that the independent check accepts, with spacing (${seed})`, () => {
      const parts = randomParts(seed, 5, 3);
      const input: StripInput = { ...parts, spacing: SPACING, tolerance: TOLERANCE, height: HEIGHT };
      const result = packStrip(input, { evaluations: 150_000 }, { seed });
      expect(result.spots).toHaveLength(15);
      const found = verdictOn(parts, result.spots, result.length, SPACING, 3);
      expect(found.violations.map((violation) => violation.message)).toEqual([]);
      expect(found.smallestGapMm).toBeGreaterThan(SPACING - 0.001);
    });
  }

  it('faulty twin: a layout searched without spacing is refused when spacing is asked', () => {
    const parts = randomParts('a', 5, 3);
    const input: StripInput = { ...parts, spacing: 0, tolerance: TOLERANCE, height: HEIGHT };
    const result = packStrip(input, { evaluations: 150_000 }, { seed: 'a' });
    expect(verdictOn(parts, result.spots, result.length, 0, 3).ok).toBe(true);
    expect(verdictOn(parts, result.spots, result.length, SPACING, 3).ok).toBe(false);
  });

  it('is the same for the same seed and differs for another', () => {
    const parts = randomParts('d', 4, 3);
    const input: StripInput = { ...parts, spacing: 0, tolerance: TOLERANCE, height: HEIGHT };
    const run = (seed: string) => packStrip(input, { evaluations: 150_000 }, { seed });
    expect(run('one')).toEqual(run('one'));
    expect(run('one').spots).not.toEqual(run('two').spots);
  });

  it('keeps a valid best when cancelled, and reports progress that never goes back', () => {
    const parts = randomParts('e', 5, 3);
    const input: StripInput = { ...parts, spacing: 0, tolerance: TOLERANCE, height: HEIGHT };
    const stop = new AbortController();
    const lengths: number[] = [];
    const shares: number[] = [];
    const result = packStrip(
      input,
      { evaluations: 5_000_000 },
      {
        seed: 'e',
        signal: stop.signal,
        onBetter: (_, length) => {
          lengths.push(length);
          if (lengths.length === 4) stop.abort();
        },
        onProgress: (share) => shares.push(share),
      },
    );
    expect(result.endedBy).toBe('cancelled');
    const atOnce = packStrip(input, { evaluations: 5_000_000 }, { seed: 'e', signal: AbortSignal.abort() });
    expect(verdictOn(parts, atOnce.spots, atOnce.length, 0, 3).violations).toEqual([]);
    expect(lengths).toEqual([...lengths].sort((a, b) => b - a));
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    expect(verdictOn(parts, result.spots, result.length, 0, 3).ok).toBe(true);
  });

  it('is never worse than its incumbent and keeps clear of obstacles', () => {
    const parts = randomParts('f', 4, 2);
    const input: StripInput = { ...parts, spacing: 0, tolerance: TOLERANCE, height: HEIGHT };
    const first = packStrip(input, { evaluations: 50_000 }, { seed: 'f' });
    expect(packStrip(input, { evaluations: 1000 }, { seed: 'g' }, first.spots).length).toBeLessThanOrEqual(
      first.length,
    );
    const clamp = { region: { outer: Float64Array.of(5, 20, 20, 20, 20, 40, 5, 40), holes: [] }, clearance: 1 };
    const around = packStrip({ ...input, obstacles: [clamp] }, { evaluations: 250_000 }, { seed: 'f' });
    const withClamp = randomParts('f', 4, 2);
    const found = verdictOn(withClamp, around.spots, around.length, 0, 2);
    expect(found.violations.map((violation) => violation.message)).toEqual([]);
    for (const spot of around.spots) {
      const pose = parts.items[spot.item]!.poses[spot.pose]!;
      const ring = parts.rings[pose.form]!;
      const turn = (pose.turnDeg * Math.PI) / 180;
      for (let i = 0; i < ring.length; i += 2) {
        const x = spot.x + Math.cos(turn) * ring[i]! - Math.sin(turn) * ring[i + 1]!;
        const y = spot.y + Math.sin(turn) * ring[i]! + Math.cos(turn) * ring[i + 1]!;
        expect(x > 4.001 && x < 20.999 && y > 19.001 && y < 40.999).toBe(false);
      }
    }
  });

  it('solves a jigsaw to its known length', () => {
    const squares = [18, 15, 14, 10, 9, 8, 7, 4, 1];
    const forms = squares.map((side) => ({ outer: Float64Array.of(0, 0, side, 0, side, side, 0, side), holes: [] }));
    const items = squares.map((_, form) => ({ poses: [{ form, turnDeg: 0 }] }));
    const result = packStrip(
      { forms, items, spacing: 0, tolerance: 1e-4, height: 32 },
      { evaluations: 3e6 },
      { seed: 1 },
    );
    // Nine squares tile 33 by 32 (Moron 1925).
    expect(result.length).toBeCloseTo(33, 4);
  });

  it('never leaves a piece in a pose that is higher than the strip', () => {
    const forms = [{ outer: Float64Array.of(0, 0, 50, 0, 50, 9, 0, 9), holes: [] }];
    const poses = [0, 90].map((turnDeg) => ({ form: 0, turnDeg }));
    const items = Array.from({ length: 6 }, () => ({ poses }));
    const strip = packStrip(
      { forms, items, spacing: 0, tolerance: 1e-4, height: 30 },
      { evaluations: 50_000 },
      { seed: 1 },
    );
    expect(strip.spots.every((spot) => spot.turnDeg === 0)).toBe(true);
    expect(strip.length).toBeLessThan(104);
  });
});
