import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import { designsOf } from './designs.ts';
import { namedSigns } from './names-table.ts';
import { jobFrom } from './parse-job.ts';
import { Pipeline } from './pipeline.ts';
import { planJob } from './plan-job.ts';

const bytes = readFileSync(createRequire(import.meta.url).resolve('dejavu-fonts-ttf/ttf/DejaVuSans-Bold.ttf'));
const FONT = { file: 'bold.ttf', data: bytes.toString('base64') };

const PLAQUE = `<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="80mm" viewBox="0 0 200 80">
<rect id="board" x="5" y="5" width="190" height="70" fill="#7fb2c8"/>
<rect id="shelf" x="20" y="20" width="160" height="40" fill="#23395b"/>
<text id="family" x="100" y="50" font-size="34" text-anchor="middle" fill="#ffffff">Name</text>
</svg>`;

const plaque = (more: object = {}) =>
  jobFrom(
    {
      artwork: { text: PLAQUE, name: 'plaque' },
      bed: '420x300',
      boards: ['420x300'],
      effort: 'quick',
      thickness: 3,
      lettering: { fonts: [FONT], rooms: { family: 130 } },
      ...more,
    },
    'plaque',
  );

const table = (text: string) => plaque({ lettering: { fonts: [FONT], rooms: { family: 130 }, names: { text } } });

describe('a table of names', () => {
  it('makes a sign of every row, each with its own letters, cover and guides, and all else computed once', async () => {
    const pipeline = new Pipeline();
    const job = table('family,count,order\nEk,2,quay\nLund,1,pier\nEk,1,quay\n');
    const { report, designs } = await planJob(job, { pipeline });
    expect(report.designs.map(({ id, order, count }) => [id, order, count])).toEqual([
      ['Ek', 'quay', 3],
      ['Lund', 'pier', 1],
    ]);
    const lettersOf = (id: string) =>
      report.parts.filter(({ design, paint }) => design === id && paint === '#ffffff').map(({ name }) => name);
    expect(lettersOf('Ek')).toEqual(['E', 'k']);
    expect(lettersOf('Lund')).toEqual(['L', 'u', 'n', 'd']);
    const placed = report.sheets.flatMap(({ placements }) => placements);
    expect(placed).toHaveLength(3 * 4 + 6);
    expect(new Set(placed.map(({ id }) => id)).size).toBe(placed.length);
    const guidesOf = (at: number) =>
      designs[at]!.pieces.find((piece) => piece.partId === 'shelf')!
        .marks.filter(({ kind }) => kind === 'guide')
        .map(({ label }) => label);
    expect(guidesOf(0)).toHaveLength(2);
    expect(guidesOf(1)).toHaveLength(4);
    // Another row leaves the others as they are: the very same results.
    const more = await pipeline.designs(table('family,count,order\nEk,3,quay\nLund,1,pier\nHolm,1,mole\n'));
    expect(more[0]!.pieces).toBe(designs[0]!.pieces);
    expect(more[1]!.pieces).toBe(designs[1]!.pieces);
    expect(report.messages.join(' ')).toContain('Fonts have licences');
  }, 60_000);

  it('reads what is pasted from a spreadsheet, semicolons, quotes and a byte order mark', () => {
    const names = (text: string) => ({ file: null, text, rows: [] });
    const words = (text: string) => namedSigns(names(text), 'names').map((sign) => sign.words);
    expect(words('family\tyear\nEk\t1931\n')).toEqual([{ family: 'Ek', year: '1931' }]);
    expect(words('\ufefffamily;year\r\n"Ek; Lund";1931\r\n\r\n')).toEqual([{ family: 'Ek; Lund', year: '1931' }]);
    expect(words('family\nO\u2019Dune\n')).toEqual([{ family: 'O\u2019Dune' }]);
  });

  it.each([
    ['an empty name', 'family,count\nEk,1\n,2\n', /row 2: the place "family" is empty/],
    ['a count that is none', 'family,count\nEk,few\n', /row 1: count is "few"/],
    ['a row that is too long', 'family\nEk\nLund,3\n', /row 2/],
    ['no rows', 'family\n', /has no rows/],
    ['no column names', ',,\nEk,1,2\n', /first line that names its columns/],
  ])('refuses %s', (_, text, message) => {
    expect(() => designsOf(table(text))).toThrow(message);
  });

  it.each([
    [
      'a name too long for its room',
      'family\nPetersen and all their cousins by the sea\n',
      /does not go into the 130 mm/,
    ],
    ['a place that the drawing has not', 'familly\nEk\n', /no text called "familly": its texts are "family"/],
  ])('refuses %s when it is set, naming the sign', async (_, text, message) => {
    const planned = planJob(table(text));
    await expect(planned).rejects.toThrow(message);
    await expect(planned).rejects.toThrow(/^Design "/);
  });

  it('refuses words without a font, and what is no font', async () => {
    const words = { words: { family: 'Ek' } };
    await expect(planJob(plaque({ lettering: words }))).rejects.toMatchObject({ code: 'no-font' });
    const noFont = { ...words, fonts: [{ file: 'ek.ttf', data: btoa('no font at all') }] };
    await expect(planJob(plaque({ lettering: noFont }))).rejects.toMatchObject({ code: 'bad-font' });
    // Nothing is lost in silence: text without a font and without words has to be accepted.
    await expect(planJob(plaque({ lettering: {} }))).rejects.toMatchObject({ code: 'artwork-faulty' });
  });

  it('words of a day go to the designs that have the place; each design may have words of its own', async () => {
    const plain = PLAQUE.replace(/<text.*<\/text>/, '');
    const day = jobFrom(
      {
        bed: '420x300',
        boards: ['420x300'],
        effort: 'quick',
        lettering: { fonts: [FONT], words: { family: 'Ek' } },
        designs: [
          { id: 'first', artwork: { text: PLAQUE, name: 'first' } },
          { id: 'second', artwork: { text: PLAQUE, name: 'second' }, lettering: { words: { family: 'Lund' } } },
          { id: 'plain', artwork: { text: plain, name: 'plain' } },
        ],
      },
      'day',
    );
    const pipeline = new Pipeline();
    const parts = await Promise.all(
      designsOf(day).map(async ({ job }) => (await pipeline.sign(job)).parts.map(({ name }) => name)),
    );
    expect(parts.map((names) => names.slice(2).join(''))).toEqual(['Ek', 'Lund', '']);
  });

  it('scores text in single lines without a font where that is asked', async () => {
    const { designs, files } = await planJob(plaque({ lettering: { score: 'all', words: { family: 'Ek 1931' } } }));
    const shelf = designs[0]!.sign.parts.find(({ id }) => id === 'shelf')!;
    expect(designs[0]!.sign.parts.map(({ id }) => id)).toEqual(['board', 'shelf']);
    expect(shelf.marks.map(({ process }) => process)).toEqual(shelf.marks.map(() => 'score'));
    expect(shelf.marks.flatMap(({ contours }) => contours).length).toBeGreaterThan(8);
    expect([...files.keys()].some((name) => name.endsWith('.svg'))).toBe(true);
  });
});
