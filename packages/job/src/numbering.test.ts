import { describe, expect, it } from 'vitest';
import { withSeamLabels } from './numbering.ts';
import { jobFrom } from './parse-job.ts';
import { planJob } from './plan-job.ts';

/** Two layers that both have to be split, with three equal discs and one that is not. */
const SIGN = `<svg xmlns="http://www.w3.org/2000/svg" width="420mm" height="300mm" viewBox="0 0 420 300">
<rect id="backer" x="10" y="10" width="400" height="280" fill="#7fb2c8"/>
<rect id="banner" x="10" y="80" width="400" height="140" fill="#23395b"/>
<rect id="plank" x="20" y="90" width="380" height="100" fill="#f4ead2"/>
<circle id="first" cx="60" cy="40" r="12" fill="#fff"/><circle id="second" cx="120" cy="40" r="12" fill="#fff"/>
<path id="flag" d="M200 30h30l-8 10l8 10h-30z" fill="#fff"/><path id="turned" d="M300 30v30l-10-8l-10 8v-30z" fill="#fff"/>
<circle id="small" cx="350" cy="40" r="9" fill="#fff"/></svg>`;

const planned = planJob(
  jobFrom(
    { artwork: { text: SIGN, name: 'numbers' }, bed: '320x300', boards: ['320x300'], batch: 1, effort: 10, fit: 0 },
    'numbers',
  ),
);

describe('names at the bench', { timeout: 180_000 }, () => {
  it('one number for a piece in report, marks and files; seam letters unique and never a number', async () => {
    const { report, stocks, files } = await planned;
    const { pieces } = stocks![0]!;
    expect(report.notFitting).toEqual([]);
    const numbers = report.parts.flatMap((part) => part.numbers);
    expect(new Set(numbers).size).toBe(numbers.length);
    expect(pieces.map((piece) => piece.number)).toEqual(numbers);
    expect(numbers.every((number) => /^\d+([a-z]\d*)?$/.test(number))).toBe(true);
    expect(report.splits.length).toBeGreaterThan(1);
    const labels = report.seams.map((seam) => seam.label);
    expect(labels.length).toBeGreaterThan(1);
    expect(new Set(labels).size).toBe(labels.length);
    expect(labels.every((label) => /^([A-Z])\1+$/.test(label))).toBe(true);
    for (const piece of pieces) {
      for (const mark of piece.marks) {
        if (mark.kind === 'number') expect(mark.label).toBe(piece.number);
        if (mark.kind === 'seam-label') {
          const seam = report.seams.find(({ label }) => label === mark.label)!;
          expect(seam.pieces).toContain(piece.id);
          expect(seam.numbers).toContain(piece.number);
        }
      }
    }
    const burnt = pieces.flatMap((piece) => piece.marks.map((mark) => mark.kind));
    expect(burnt).toContain('seam-label');
    expect(burnt).toContain('number');
    const texts = [...files].flatMap(([name, text]) =>
      name.endsWith('.svg') && typeof text === 'string' ? [text] : [],
    );
    const inFiles = new Set(
      texts.flatMap((text) => [...text.matchAll(/data-number="([^"]+)"/g)].map(([, number]) => number)),
    );
    expect([...inFiles].sort()).toEqual([...numbers].sort());
  });

  it('equal shapes are named as equal, turned or not', async () => {
    const { report } = await planned;
    const numberOf = (id: string) => report.parts.find((part) => part.id === id)!.numbers[0];
    expect(Object.fromEntries(report.parts.map((part) => [part.id, part.like]))).toEqual({
      backer: null,
      banner: null,
      plank: null,
      first: null,
      second: numberOf('first'),
      flag: null,
      turned: numberOf('flag'),
      small: null,
    });
  });

  it('sentences of the planner go by the burnt letters too', () => {
    const seams = [{ id: '1' }, { id: '12' }];
    const labelOf = (id: string) => (id === '1' ? 'CC' : 'DD');
    expect(withSeamLabels('Seam 1 at 3, 4 is plain; 20 mm of seam 12 stays.', seams, labelOf)).toBe(
      'Seam CC at 3, 4 is plain; 20 mm of seam DD stays.',
    );
    expect(withSeamLabels('20 mm of seam 12 stays.', seams, () => null)).toBe('20 mm of seam stays.');
  });
});
