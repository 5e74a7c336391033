import { contourArea, contourBounds } from '@underlap/geometry/contour';
import { describe, expect, it } from 'vitest';
import { jobFrom } from './parse-job.ts';
import { Pipeline } from './pipeline.ts';
import { planJob } from './plan-job.ts';
import { readSvgSheet } from './proof/read-svg-sheet.ts';

/** A plate too long for the bed below a plank that hides its seam, and two equal floats on the plank; the last lies on the edge. */
const SIGN = `<svg xmlns="http://www.w3.org/2000/svg" width="420mm" height="160mm" viewBox="0 0 420 160">
<rect id="plate" x="10" y="10" width="400" height="140" fill="#7fb2c8"/>
<rect id="plank" x="120" y="20" width="180" height="120" fill="#23395b"/>
<rect id="float-1" x="130" y="30" width="20" height="20" fill="#c0392b"/>
<rect id="float-2" x="290" y="30" width="20" height="20" fill="#c0392b"/>
</svg>`;

const pipeline = new Pipeline();

async function masksOf(masks: 'none' | 'score' | 'stencil') {
  const { report, files } = await planJob(
    jobFrom(
      {
        artwork: { text: SIGN, name: 'pier' },
        bed: '300x200',
        boards: ['300x200'],
        effort: 'quick',
        output: { masks },
      },
      'pier',
    ),
    { pipeline },
  );
  const names = [...files.keys()].filter((name) => name.includes('-mask-'));
  const read = names.map((name) => ({ name, found: readSvgSheet(String(files.get(name))) }));
  return { report, read, html: String(files.get('report.html')), guide: String(files.get('build-guide.html')) };
}

describe('masks of glued faces', () => {
  it('are files of each piece that something is glued on, a millimetre inside it, no larger than the bed', async () => {
    const { report, read, html, guide } = await masksOf('stencil');
    expect(read.map(({ name }) => name).sort()).toEqual(['pier-mask-1a.svg', 'pier-mask-1b.svg', 'pier-mask-2.svg']);
    const cutOf = (name: string) =>
      read
        .filter((file) => file.name.includes(name))
        .flatMap(({ found }) => found.outlines.filter(({ group }) => group === 'cut-outer'))
        .reduce((sum, { contour }) => sum + Math.abs(contourArea(contour)), 0);
    // 180 x 120 less a millimetre all round, and less 0.02 mm on both sides of the seam, about 160 mm long.
    const seam = report.seams.reduce((sum, { lengthMm }) => sum + lengthMm, 0);
    expect(cutOf('mask-1')).toBeLessThan(178 * 118);
    expect(cutOf('mask-1')).toBeGreaterThan(178 * 118 - 0.05 * seam);
    // The first float lies on it with 20 x 20, the second with 10 x 20.
    expect(cutOf('mask-2')).toBeCloseTo(18 * 18 + 8 * 18, 1);
    for (const { found } of read) {
      const [short, long] = [found.widthMm, found.heightMm].sort((a, b) => a - b) as [number, number];
      expect(short).toBeLessThanOrEqual(200);
      expect(long).toBeLessThanOrEqual(300);
      for (const { contour } of found.outlines) {
        const { minX, minY, maxX, maxY } = contourBounds(contour);
        expect(Math.min(minX, minY, found.widthMm - maxX, found.heightMm - maxY)).toBeGreaterThan(-0.005);
      }
    }
    const told = report.paintPlan.bare.flatMap(({ part, files }) => files.map((file) => [part, file]));
    expect(told).toEqual([
      ['plate', 'pier-mask-1a.svg'],
      ['plate', 'pier-mask-1b.svg'],
      ['plank', 'pier-mask-2.svg'],
    ]);
    expect(guide).toContain('with the masks cut from the mask files');
    // A picture a colour in the paint plan, with the numbers of its parts.
    const paint = html.slice(html.indexOf('<h2>Paint</h2>'), html.indexOf('<h2>Build guide</h2>'));
    expect(paint.match(/<figure>/g)).toHaveLength(3);
    expect(paint).toContain('pier-mask-1a.svg');
  }, 120_000);

  it('may be lines alone, scored through film on the piece; without them the guide promises none', async () => {
    const { read } = await masksOf('score');
    expect(new Set(read.flatMap(({ found }) => found.outlines.map(({ group }) => group)))).toEqual(new Set(['score']));
    const none = await masksOf('none');
    expect(none.read).toEqual([]);
    expect(none.guide).not.toContain('mask files');
    expect(none.guide).toContain('a little inside the burnt lines');
    expect(none.report.paintPlan.bare.every(({ files }) => files.length === 0)).toBe(true);
  }, 120_000);

  it('hold round pieces whole, whose curves bulge beyond their chords', async () => {
    const text = `<svg xmlns="http://www.w3.org/2000/svg" width="180mm" height="180mm" viewBox="0 0 180 180">
<ellipse id="base" cx="90" cy="90" rx="80" ry="71" transform="rotate(17 90 90)" fill="#7fb2c8"/><circle id="sun" cx="90" cy="90" r="40" fill="#f0a23a"/></svg>`;
    const { files } = await planJob(
      jobFrom(
        {
          artwork: { text, name: 'sun' },
          bed: '300x200',
          boards: ['300x200'],
          effort: 'quick',
          output: { masks: 'stencil' },
        },
        'sun',
      ),
      { pipeline },
    );
    const mask = readSvgSheet(String(files.get('sun-mask-1.svg')));
    // The box of an ellipse that is turned by 17 degrees.
    const across = (a: number, b: number) => 2 * Math.hypot(80 * a, 71 * b);
    const [cos, sin] = [Math.cos((17 * Math.PI) / 180), Math.sin((17 * Math.PI) / 180)];
    expect(mask.widthMm).toBeCloseTo(across(cos, sin), 3);
    expect(mask.heightMm).toBeCloseTo(across(sin, cos), 3);
    const cut = mask.outlines.filter(({ group }) => group === 'cut-outer');
    expect(cut.map(({ contour }) => Math.round(Math.abs(contourArea(contour))))).toEqual([
      Math.round(Math.PI * 39 ** 2),
    ]);
  }, 120_000);
});
