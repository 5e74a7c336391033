import type { Contour } from '@underlap/geometry/curve';
import { FLATTEN_TOLERANCE_MM, flattenContour } from '@underlap/geometry/flatten';
import { planSeams } from '@underlap/seam/plan-seams';
import { describe, expect, it } from 'vitest';
import { jobFrom } from './parse-job.ts';
import { readStage } from './read-stage.ts';
import { signStage } from './sign-stage.ts';
import { seamTaskOf, splitStage } from './split-stage.ts';

/** A plate and a board across it, both too long for the bed; nothing else decides where the seams go. */
const SIGN = `<svg xmlns="http://www.w3.org/2000/svg" width="640mm" height="260mm" viewBox="0 0 640 260">
<rect id="plate" x="20" y="20" width="600" height="220" fill="#7fb2c8"/>
<rect id="plank" x="20" y="60" width="600" height="140" fill="#23395b"/>
</svg>`;

const job = jobFrom(
  { artwork: { text: SIGN, name: 'two layers' }, bed: '400x300', boards: ['500x300'], seed: 1 },
  'two layers',
);

/** Mean distance of one seam's points from another seam, mm. */
function meanDistance(from: Contour, to: Contour): number {
  const points = flattenContour(from, FLATTEN_TOLERANCE_MM);
  const other = flattenContour(to, FLATTEN_TOLERANCE_MM);
  let sum = 0;
  for (let i = 0; i < points.length; i += 2) {
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k < other.length; k += 2)
      least = Math.min(least, Math.hypot(points[i]! - other[k]!, points[i + 1]! - other[k + 1]!));
    sum += least;
  }
  return sum / (points.length / 2);
}

describe('seams of layers that touch', () => {
  it('are staggered like bricks, which they are not when the upper layer knows nothing of the lower one', async () => {
    const sign = signStage(readStage(SIGN, job), job);
    const { parts } = await splitStage(sign, job, { seed: 1 });
    const seamOf = (id: string) => parts.find(({ partId }) => partId === id)!.plan!.seams[0]!.path;
    const alone = await planSeams(seamTaskOf(sign, sign.parts.find(({ id }) => id === 'plank')!, job, []), { seed: 1 });
    if (alone.kind !== 'split') throw new Error('the plank was not split');
    // mean distance: measured 29 mm, and 1 mm without the lower seam
    expect(meanDistance(seamOf('plank'), seamOf('plate'))).toBeGreaterThan(15);
    expect(meanDistance(alone.plans[0]!.seams[0]!.path, seamOf('plate'))).toBeLessThan(5);
  });
});

describe('wishes for one part', () => {
  it('cut it into more pieces also where it fits; a general wish cuts nothing that fits', async () => {
    const wide = (seams: object) =>
      jobFrom(
        { artwork: { text: SIGN, name: 'two layers' }, bed: '700x300', boards: ['800x300'], seams, seed: 1 },
        'two layers',
      );
    const piecesOf = async (seams: object) => {
      const asked = wide(seams);
      const { parts } = await splitStage(signStage(readStage(SIGN, asked), asked), asked, { seed: 1 });
      return parts.map(({ partId, pieces, plan }) => [partId, pieces.length, plan?.seams.length ?? 0]);
    };
    expect(await piecesOf({ morePieces: 2 })).toEqual([
      ['plate', 1, 0],
      ['plank', 1, 0],
    ]);
    expect(await piecesOf({ parts: { plank: { morePieces: 2 } } })).toEqual([
      ['plate', 1, 0],
      ['plank', 3, 2],
    ]);
  }, 60_000);

  it('say which drawn lines lead', () => {
    const scored = SIGN.replace('</svg>', '<path d="M320 62V198" stroke="#0000ff" fill="none"/></svg>');
    const lines = (seams: object) => {
      const asked = jobFrom(
        { artwork: { text: scored, name: 'two layers' }, bed: '400x300', boards: ['500x300'], seams },
        'x',
      );
      const sign = signStage(readStage(scored, asked), asked);
      return sign.parts.flatMap((part) => {
        const task = seamTaskOf(sign, part, asked, []);
        return (task.marks ?? []).map((line) => [part.id, task.wishes.alongLines, line.length]);
      });
    };
    expect(lines({})).toEqual([['plank', 'long', 4]]);
    expect(lines({ alongLines: 'none' })).toEqual([['plank', 'none', 4]]);
  });
});
