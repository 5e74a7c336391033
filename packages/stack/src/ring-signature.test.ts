import { expect, test } from 'vitest';
import { radialSignature, ringMoments, SIGNATURE_STEPS, signaturePeaks } from './ring-signature.ts';

const bar = Float64Array.of(10, 20, 50, 20, 50, 30, 10, 30);

test('centroid and spread of a rectangle are the textbook ones', () => {
  const moments = ringMoments(bar);
  expect(moments.centre).toEqual({ x: 30, y: 25 });
  // (b^2 + h^2) / 12
  expect(moments.spread).toBeCloseTo((40 * 40 + 10 * 10) / 12, 9);
});

test('the signature is the distance to the edge in every direction', () => {
  const signature = radialSignature(bar, ringMoments(bar));
  expect(signature[0]).toBeCloseTo(20, 9);
  expect(signature[SIGNATURE_STEPS / 4]).toBeCloseTo(5, 9);
  expect(signature[SIGNATURE_STEPS / 8]).toBeCloseTo(5 * Math.SQRT2, 9);
});

test('a bar turned by a quarter peaks at both quarters', () => {
  const upright = Float64Array.of(0, 0, 10, 0, 10, 40, 0, 40);
  const from = radialSignature(bar, ringMoments(bar));
  const peaks = signaturePeaks(from, radialSignature(upright, ringMoments(upright)), 2);
  expect(peaks.map((turn) => Math.round((turn * 180) / Math.PI)).sort((a, b) => a - b)).toEqual([90, 270]);
});
