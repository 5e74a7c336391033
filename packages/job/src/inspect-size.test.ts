import { readArtwork } from '@underlap/artwork/read-artwork';
import { expect, it } from 'vitest';
import { inspectDrawing } from './inspect.ts';
import { jobFrom } from './parse-job.ts';

it('parts of arcs are as large as they are drawn, not as their chords', () => {
  // A circle of radius 30 in two arcs from 10 degrees on: no chord reaches its outermost points.
  const [c, s] = [30 * Math.cos(Math.PI / 18), 30 * Math.sin(Math.PI / 18)];
  const path = `M${50 + c} ${50 + s}A30 30 0 0 1 ${50 - c} ${50 - s}A30 30 0 0 1 ${50 + c} ${50 + s}Z`;
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100"><path d="${path}"/></svg>`;
  const { artwork } = jobFrom({ artwork: { file: 'a.svg' }, bed: '508x305', boards: ['508x305'] }, 'job');
  const [part] = inspectDrawing(readArtwork(svg, { name: 'a.svg' }), artwork).parts;
  expect(part!.widthMm).toBeCloseTo(60, 9);
  expect(part!.heightMm).toBeCloseTo(60, 9);
});
