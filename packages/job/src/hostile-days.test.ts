import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import { designsOf } from './designs.ts';
import { jobFrom, parseJob } from './parse-job.ts';
import { planJob } from './plan-job.ts';

const PLAQUE = `<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="80mm" viewBox="0 0 200 80">
<rect id="board" x="5" y="5" width="190" height="70" fill="#7fb2c8"/>
<text id="family" x="100" y="50" font-size="34" text-anchor="middle" fill="#ffffff">Name</text>
</svg>`;

const job = (more: object = {}) => ({
  artwork: { text: PLAQUE, name: 'plaque' },
  bed: '420x300',
  boards: ['420x300'],
  effort: 'quick',
  ...more,
});
const day = (designs: object[], more: object = {}) => ({ bed: '420x300', boards: ['420x300'], ...more, designs });
const design = (id: string, more: object = {}) => ({ id, artwork: { text: PLAQUE, name: id }, ...more });
const many = <T>(count: number, make: (at: number) => T) => Array.from({ length: count }, (_, at) => make(at));

describe('hostile days are refused with one sentence, soon', () => {
  it.each<[string, object, RegExp]>([
    ['thousands of designs', day(many(5000, (at) => design(`d${at}`, { order: `o${at}` }))), /designs.*at most 500/],
    ['a count beyond all boards', day([design('one', { count: 1e9 })]), /designs\[0\]\.count is 1000000000/],
    ['counts that multiply', day([design('one', { count: 500 })], { batch: 500 }), /250000 signs.*at most/],
    ['a count that is no number', day([design('one', { count: '12' })]), /designs\[0\]\.count/],
    ['a name that steers a terminal', day([design('\u001b[2Jgone')]), /designs\[0\]\.id is "/],
    ['a name with a way out of the folder', day([design('../../etc')]), /designs\[0\]\.id/],
    [
      'thousands of stocks',
      day([design('one')], { stocks: many(5000, (at) => ({ id: `s${at}` })) }),
      /stocks.*at most 100/,
    ],
    [
      'designs within designs',
      day([design('one', { designs: [design('two')] })]),
      /has a field that is not known: "designs"/,
    ],
    [
      'more fonts than anybody has',
      job({ lettering: { fonts: many(60, (at) => `${at}.ttf`) } }),
      /lettering\.fonts.*at most 40/,
    ],
  ])('%s', (_, document, message) => {
    expect(() => designsOf(jobFrom(document, 'day'))).toThrow(message);
  });

  it('a text nested a hundred thousand deep', () => {
    const text = `{"designs":${'['.repeat(100_000)}${']'.repeat(100_000)}}`;
    expect(() => parseJob(text, 'day')).toThrow(expect.objectContaining({ code: 'job-invalid' }));
  });

  it.each<[string, string, RegExp]>([
    ['ten thousand rows', `family\n${many(10_000, (at) => `Holm ${at}`).join('\n')}\n`, /has 10000 rows; at most 500/],
    ['a cell of a megabyte', `family\n${'a'.repeat(1_000_000)}\n`, /have 1000000 characters; at most 500/],
    ['a name of control characters', 'family\n\u0000\u0007\n', /family.*is empty/],
    ['a quote that never ends', 'family\n"Holm\n', /names cannot be read/],
  ])('a table with %s', async (_, text, message) => {
    const font = readFileSync(createRequire(import.meta.url).resolve('dejavu-fonts-ttf/ttf/DejaVuSans.ttf'));
    const lettering = { fonts: [{ file: 'sans.ttf', data: font.toString('base64') }], names: { text } };
    await expect((async () => planJob(jobFrom(job({ lettering }), 'day')))()).rejects.toThrow(message);
  });
});
