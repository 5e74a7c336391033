import { contourBounds } from '@underlap/geometry/contour';
import { describe, expect, it } from 'vitest';
import type { Job } from './document.ts';
import { jobFrom } from './parse-job.ts';
import { Pipeline } from './pipeline.ts';
import { hangingOf } from './sign-slots.ts';
import { assertUsable } from './sign-stage.ts';

/** A plate that must be split, a plank across it, and a heavy block to one side. */
const sign = (more = '') => `<svg xmlns="http://www.w3.org/2000/svg" width="420mm" height="240mm" viewBox="0 0 420 240">
<path id="plate" d="M10 10H410V230H10Z ${more}" fill="#7fb2c8" fill-rule="evenodd"/>
<rect id="plank" x="120" y="100" width="180" height="120" fill="#23395b"/>
<rect id="block" x="240" y="120" width="50" height="60" fill="#c0392b"/>
</svg>`;

function jobWith(hanging: object, more = ''): Job {
  return jobFrom(
    {
      artwork: { text: sign(more), name: 'pier' },
      bed: '300x250',
      boards: ['300x250'],
      effort: 'quick',
      shop: { hanging, densityKgM3: 700 },
    },
    'pier',
  );
}

const pipeline = new Pipeline();
async function hung(job: Job) {
  const found = await pipeline.sign(job);
  return { sign: found, hanging: hangingOf(found, await pipeline.split(job), job)! };
}

describe('slots that a job asks for', () => {
  it('are holes of the lowest part, even about the centre of mass, clear of its seams; the sign hangs straight', async () => {
    const { sign: found, hanging } = await hung(jobWith({ slots: 2 }));
    const plate = found.parts[0]!;
    expect(plate.shape.holes.length).toBe(2);
    // 700 kg/m3 x 6 mm x (400 x 220 + 180 x 120 + 50 x 60) mm2, less two slots of 14 x 6 + pi 9.
    const slots = 2 * (14 * 6 + Math.PI * 9);
    expect(hanging.mass.kg).toBeCloseTo(700e-9 * 6 * (88_000 + 21_600 + 3000 - slots), 4);
    expect(hanging.isStraight).toBe(true);
    const [left, right] = hanging.points.map(({ at }) => at.x).sort((a, b) => a - b);
    expect((left! + right!) / 2).toBeCloseTo(hanging.mass.centre.x, 1);
    expect(hanging.seamMm).toBeGreaterThanOrEqual(8 - 0.01);
    expect((await hung(jobWith({ slots: 0 }))).sign.parts[0]!.shape.holes.length).toBe(0);
  }, 60_000);

  it('make the seam go round a slot of the maker', async () => {
    const bare = jobWith({});
    const seam = (await pipeline.split(bare)).parts[0]!.plan!.seams[0]!;
    const at = { x: Math.round(seam.spine.start.x), y: 40 };
    const { hanging } = await hung(jobWith({ at: [at] }));
    expect(hanging.seamMm).toBeGreaterThanOrEqual(8 - 0.01);
  }, 60_000);

  it('below another part are a fault', async () => {
    const job = jobWith({ at: [{ x: 200, y: 150 }] });
    const { sign: found } = await hung(job);
    expect(found.complaints.find(({ code }) => code === 'slot-misplaced')?.message).toContain(
      'is covered by a part on top',
    );
    expect(() => assertUsable(found, job)).toThrow(/covered by a part/);
    const { sign: fine } = await hung(jobWith({ at: [{ x: 60, y: 40 }] }));
    expect(fine.complaints.some(({ code }) => code === 'slot-misplaced')).toBe(false);
  }, 60_000);
});

describe('holes that were drawn', () => {
  it('are what it hangs from: leaning, with where slots belong', async () => {
    // One round hole of 6 mm, 50 mm to the left of the middle.
    const { hanging } = await hung(jobWith({}, 'M157 30a3 3 0 1 0 6 0a3 3 0 1 0 -6 0Z'));
    expect(hanging.points.length).toBe(1);
    const { bearing } = hanging.points[0]!;
    expect(bearing.y).toBeCloseTo(27, 6);
    const { centre } = hanging.mass;
    expect(hanging.leanDeg).toBeCloseTo((Math.atan2(centre.x - 160, centre.y - 27) * 180) / Math.PI, 3);
    expect(hanging.isStraight).toBe(false);
    expect(hanging.words.join(' ')).toContain('To hang straight, a slot belongs at');
    expect(hanging.belong[0]!.x).toBeCloseTo(centre.x, 6);
    expect(
      contourBounds((await hung(jobWith({ slots: 1 }))).sign.parts[0]!.shape.holes[0]!).minY,
    ).toBeGreaterThanOrEqual(18);
  }, 60_000);

  it('below another part carry nothing, which is told', async () => {
    const { hanging } = await hung(jobWith({}, 'M197 110a3 3 0 1 0 6 0a3 3 0 1 0 -6 0Z'));
    expect(hanging.points).toEqual([]);
    expect(hanging.words.join(' ')).toContain(
      'The hole at 200, 110 mm lies below another part: nothing can hang from it.',
    );
  }, 60_000);
});
