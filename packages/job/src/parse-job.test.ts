import { describe, expect, it } from 'vitest';
import { parseJob } from './parse-job.ts';

const read = (job: object) => parseJob(JSON.stringify(job), 'sign.job.json');
const GOOD = { bed: '520x320', boards: ['20x12in'] };

describe('job documents', () => {
  it('fills in every default and turns text into millimetres', () => {
    const job = read({ ...GOOD, kerf: '0.008in', bed: { width: '20in', height: 300 } });
    expect(job.boards[0]).toMatchObject({ width: 508, height: 304.8, count: null });
    expect(job.kerf).toBeCloseTo(0.2032, 9);
    expect(job.bed).toMatchObject({ width: 508, height: 300, passThrough: 'none' });
    expect(job.compensate).toBe('all');
    expect(job.marks.guideInset).toBe(0.8);
  });

  it('survives being saved and read again', () => {
    const job = read({ ...GOOD, seams: { parts: { backer: { morePieces: 1 } } }, effort: 500 });
    expect(read(job)).toEqual(job);
  });

  it.each([
    [{ boards: ['508x305'] }, /^sign\.job\.json: bed must be a size such as/],
    [{ ...GOOD, boards: [] }, /boards needs at least one board/],
    [{ ...GOOD, kerf: -1 }, /kerf is -1, but must be a length from 0 to 3 mm/],
    [{ ...GOOD, batch: 1.5 }, /batch is 1\.5, but must be a whole number from 1 to 500/],
    [{ ...GOOD, batch: 1e9 }, /batch is 1000000000, but/],
    [{ ...GOOD, bed: '5x5' }, /bed\.width is 5, but must be a length from 20 to 20000 mm/],
    [{ ...GOOD, bed: { width: -3, height: 300 } }, /bed\.width is -3/],
    [{ ...GOOD, boards: ['508x305', { width: 100, height: 'tall' }] }, /boards\[1\]\.height is "tall"/],
    [{ ...GOOD, bords: 3 }, /the job has a field that is not known: "bords", did you mean "boards"\?$/],
    [
      { ...GOOD, seams: { parts: { sail: { knbo: 'round' } } } },
      /seams\.parts\.sail has .* "knbo", did you mean "knob"\?/,
    ],
    [{ ...GOOD, boards: [{ witdh: 500, height: 300 }] }, /boards\[0\] has .* "witdh", did you mean "width"\?/],
    [{ ...GOOD, anchor: 3 }, /not known: "anchor"\.$/],
    [{ ...GOOD, kerf: '1,234' }, /kerf is "1,234".*may mean 1234 or 1\.234/],
    [{ ...GOOD, version: 'two' }, /version is "two", but must be a whole number from 1/],
    [{ ...GOOD, artwork: 7 }, /artwork must be the name of a file/],
    [
      { ...GOOD, boards: [{ width: 500, height: 300, colour: 'red' }] },
      /boards\[0\] has a field that is not known: "colour"/,
    ],
    [{ ...GOOD, output: { formats: ['png'] } }, /output\.formats\[0\] is "png", but must be one of svg, dxf, pdf/],
    [{ ...GOOD, seams: { parts: { backer: { knob: 'star' } } } }, /seams\.parts\.backer\.knob is "star"/],
    [{ ...GOOD, spacing: 'wide' }, /spacing is "wide", but must be a length/],
    [{ ...GOOD, version: 99 }, /saved by a newer version/],
    [{ ...GOOD, artwork: { file: 'a.svg', text: '<svg/>' } }, /both a file and a text/],
  ])('refuses %j', (job, sentence) => {
    expect(() => read(job)).toThrow(sentence);
  });

  it('takes comments, a schema for the editor, a byte-order mark and a last comma', () => {
    const text = `\uFEFF{ // the bed of the small machine
      "$schema": "./job.schema.json", "bed": "520x320", "boards": ["508x305"], /* bare */ }`;
    expect(parseJob(text, 'a.json')).toEqual(read({ bed: '520x320', boards: ['508x305'] }));
  });

  it('takes the name of the artwork in short', () => {
    expect(read({ ...GOOD, artwork: 'pier.svg' })).toEqual(read({ ...GOOD, artwork: { file: 'pier.svg' } }));
  });

  it.each([
    ['{\n  "bed": "520x320",\n  "bed": "300x200"\n}', /"bed" twice .*line 2, column 3, and line 3, column 3/],
    ['{"costs":{"markUp":1,"markUp":2}}', /"markUp" twice/],
    ['{\r\n"kerf": 0,2}', /line 2, column 11, decimals have a point/],
    ['{\n"kerf" 0.2}', /line 2, column 8, a colon is missing/],
    ['{"kerf": wide}', /line 1, column 10, there is a word that is no value/],
    ['{"bed": "520x320" "kerf": 1}', /line 1, column 19, a comma is missing/],
    ['', /is empty/],
  ])('tells where %j is at fault', (text, sentence) => {
    expect(() => parseJob(text, 'a.json')).toThrow(sentence);
  });

  it('names the file when it is no JSON or no object', () => {
    expect(() => parseJob('{', 'a.json')).toThrow(
      /^a\.json is not valid JSON: line 1, column 2, a closing \} is missing/,
    );
    expect(() => parseJob('[]', 'a.json')).toThrow(/^a\.json must hold one job object/);
  });

  it('refuses numbers that JSON can smuggle in as infinite', () => {
    expect(() => parseJob('{"bed":"520x320","boards":["508x305"],"kerf":1e999}', 'a.json')).toThrow(/kerf/);
  });
});
