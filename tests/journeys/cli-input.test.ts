import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { fileWith, freshFolder, runWithin, SMALL_SIGN } from '../support/run-cli.ts';

const MACHINE = ['--bed', '520x320', '--board', '508x305', '--effort', 'quick'];
const svg = (attributes: string, body: string) => `<svg xmlns="http://www.w3.org/2000/svg" ${attributes}>${body}</svg>`;
const SIZED = 'width="100mm" height="100mm" viewBox="0 0 100 100"';

/** Name of the case, artwork, more options, and what the sentence must say: what is wrong, where, and what to do. */
const UNUSABLE: readonly [string, string, readonly string[], RegExp][] = [
  ['text that is no drawing', 'not a drawing at all', [], /art\.svg is neither SVG nor DXF: save/],
  ['an empty file', '', [], /art\.svg is empty: export/],
  ['an empty drawing', svg(SIZED, ''), [], /art\.svg has nothing to cut/],
  ['no closed shape', svg(SIZED, '<path d="M0 0H50V50" fill="none" stroke="#000"/>'), [], /no closed shape.*close/],
  [
    'an unknown size',
    svg('viewBox="0 0 96 96"', '<rect width="50" height="50"/>'),
    [],
    /25\.4 mm wide at 96.*33\.9 mm wide at 72.*--width.*--per-inch/,
  ],
  ['NaN coordinates', svg(SIZED, '<path d="M0 0L NaN 0L50 50Z"/>'), [], /path \(line 1\).*number/],
  ['infinite coordinates', svg(SIZED, '<path d="M0 0L 1e999 0L50 50Z"/>'), [], /path \(line 1\)/],
  [
    'a part without area',
    svg(SIZED, '<rect width="30" height="30"/><path id="flat" d="M0 0H50H20Z"/>'),
    [],
    /flat.*encloses no area.*--accept-faults/,
  ],
  ['a bed without room for a knob', SMALL_SIGN, ['--bed', '30x30'], /Part plate.*bed leaves 30 mm.*larger bed/],
  [
    'a board smaller than any piece of it',
    SMALL_SIGN,
    ['--board', '40x40'],
    /Part plate.*board leaves 30 mm.*larger board/,
  ],
  [
    'a margin that eats the board',
    SMALL_SIGN,
    ['--margin', '200'],
    /margin of 200 mm leaves nothing of the 508 x 305 mm board/,
  ],
  ['a negative kerf', SMALL_SIGN, ['--kerf=-1'], /kerf is -1, but must be a length from 0 to 3 mm/],
  ['an absurd thickness', SMALL_SIGN, ['--thickness', '900'], /thickness is 900, but must be/],
];

describe('input that cannot be used', () => {
  it.each(UNUSABLE)('%s ends with 1, one sentence, and no file', async (_, artwork, options, sentence) => {
    const path = fileWith('art.svg', artwork);
    const run = await runWithin(['plan', path, '--out', join(dirname(path), 'out'), ...MACHINE, ...options]);
    expect(run.stderr).toMatch(sentence);
    expect(run.stderr.trim().split('\n')).toHaveLength(1);
    expect(run.stderr).not.toMatch(/fault of the program/);
    expect(run.stdout).toBe('');
    expect(run.code).toBe(1);
    expect(readdirSync(dirname(path))).toEqual(['art.svg']);
  });

  it('a missing file, a folder, and a job that points at nothing', async () => {
    const folder = freshFolder();
    const missing = await runWithin(['plan', join(folder, 'none.svg'), '--out', join(folder, 'out'), ...MACHINE]);
    expect(missing).toMatchObject({ code: 1, stderr: expect.stringMatching(/There is no file .*none\.svg/) });
    const dir = await runWithin(['plan', folder, '--out', join(folder, 'out'), ...MACHINE]);
    expect(dir).toMatchObject({ code: 1, stderr: expect.stringMatching(/is a folder/) });
    const job = fileWith('a.job.json', '{"bed":"520x320","boards":["508x305"],"artwork":{"file":"gone.svg"}}', folder);
    const gone = await runWithin(['plan', job, '--out', join(folder, 'out')]);
    expect(gone).toMatchObject({
      code: 1,
      stderr: expect.stringMatching(/gone\.svg \(artwork\.file of a\.job\.json\)/),
    });
    expect(existsSync(join(folder, 'out'))).toBe(false);
  });

  it('a job of nonsense names every field, and --json says it as an object', async () => {
    const job = fileWith('a.job.json', '{"bed":"520x320","boards":["508x305"],"batch":0,"kerf":-1}');
    const run = await runWithin(['plan', job, '--out', join(dirname(job), 'out'), '--json']);
    expect(run.code).toBe(1);
    const { error } = JSON.parse(run.stdout) as { error: { code: string; message: string } };
    expect(error.code).toBe('job-invalid');
    expect(error.message).toMatch(/kerf is -1.*batch is 0|batch is 0.*kerf is -1/);
  });
});

describe('what would be missing is told and has to be accepted', () => {
  const plate = '<rect id="plate" x="5" y="5" width="60" height="40" fill="#224466"/>';
  const lost: readonly [string, string, RegExp][] = [
    ['text', '<text id="word" x="10" y="20">HARBOUR</text>', /word.*text.*--accept-faults/],
    ['a bitmap', '<image id="photo" href="gull.png" width="20" height="20"/>', /photo.*bitmap.*--accept-faults/],
    [
      'an open outline',
      '<path id="sail" fill="none" stroke="#224466" d="M70 70H90V90"/>',
      /sail.*open line.*--accept-faults/,
    ],
  ];
  it.each(lost)('%s', async (_, body, sentence) => {
    const path = fileWith('art.svg', svg(SIZED, plate + body));
    const out = join(dirname(path), 'out');
    const key = ['--key', '#224466=cut', '--mode', 'stacked'];
    const run = await runWithin(['plan', path, '--out', out, ...MACHINE, ...key]);
    expect(run).toMatchObject({ code: 1, stdout: '', stderr: expect.stringMatching(sentence) });
    expect(existsSync(out)).toBe(false);
    const accepted = await runWithin(['plan', path, '--out', out, ...MACHINE, ...key, '--accept-faults']);
    expect(accepted).toMatchObject({ code: 0, stderr: expect.stringContaining('look here') });
  });

  it('a rule for a part that there is not, with the one that was meant', async () => {
    const job = fileWith(
      'a.job.json',
      JSON.stringify({
        bed: '520x320',
        boards: ['508x305'],
        artwork: { text: svg(SIZED, plate) },
        seams: { parts: { plaet: { knob: 'round' } } },
        turns: { keepGrain: ['mast'] },
      }),
    );
    const run = await runWithin(['plan', job, '--out', join(dirname(job), 'out')]);
    expect(run.code).toBe(1);
    expect(run.stderr).toMatch(/seams\.parts names the part "plaet".*did you mean "plate"/);
    expect(run.stderr).toMatch(/turns\.keepGrain names the part "mast"|turns\.keepGrain/);
  });
});

it('a bed without room for a knob does not cost the packs of the others', async () => {
  const path = fileWith('art.svg', SMALL_SIGN);
  const out = join(dirname(path), 'packs');
  const options = ['--board', '508x305', '--effort', 'quick', '--beds', '520x320,30x30', '--out', out];
  const run = await runWithin(['variants', path, ...options]);
  expect(run).toMatchObject({ code: 3, stderr: expect.stringMatching(/bed 30x30: Part plate/) });
  expect(readdirSync(out).sort()).toEqual(['bed-520x320', 'beds.png', 'beds.svg', 'variants.html', 'variants.json']);
});

describe('wrong usage ends with 2', () => {
  it.each([
    ['no command', []],
    ['an unknown command', ['carve']],
    ['a misspelt command', ['plna', 'samples/harbour-sign.job.json']],
    ['a format that is none', ['plan', 'samples/harbour-sign.job.json', '--out', 'x', '--formats', 'svg,png']],
    ['an effort that is none', ['plan', 'samples/harbour-sign.job.json', '--out', 'x', '--effort', 'hard']],
    ['a key without a process', ['inspect', 'samples/harbour-sign.svg', '--key', 'guides']],
    ['a key of an unknown process', ['inspect', 'samples/harbour-sign.svg', '--key', '#ff0000=carve']],
    ['a size that is none', ['plan', 'samples/harbour-sign.svg', '--out', 'x', '--bed', 'wide', '--board', '508x305']],
    [
      'sizes that commas make two of',
      ['plan', 'samples/harbour-sign.svg', '--bed', '520x320', '--board', '50x30,5,61x30'],
    ],
    ['feet', ['plan', 'samples/harbour-sign.svg', '--bed', '520x320', '--board', '2ftx1ft']],
    ['artwork without a bed', ['plan', 'samples/harbour-sign.svg', '--out', 'x', '--board', '508x305']],
    ['a batch that counts down', ['estimate', 'samples/harbour-sign.job.json', '--batch', '9..3']],
    ['a coupon for nothing', ['coupon']],
  ])('%s', async (_, args) => {
    const run = await runWithin(args);
    expect(run.code).toBe(2);
    expect(run.stderr).not.toBe('');
  });
});

it('a misspelt command is told with the one that was meant', async () => {
  const run = await runWithin(['plna', 'samples/harbour-sign.job.json']);
  expect(run.stderr).toMatch(/unknown command 'plna'[\s\S]*plan/);
});

it('a job file of an old editor is read: UTF-16, comments, the artwork and the bed in short', async () => {
  const job = fileWith('a.job.json', '');
  fileWith('art.svg', SMALL_SIGN, dirname(job));
  const text = '\uFEFF{ // by hand\n"artwork": "art.svg", "bed": "520x320", "boards": ["508x305"] }';
  writeFileSync(job, Buffer.from(text, 'utf16le'));
  const run = await runWithin(['inspect', job, '--mode', 'stacked']);
  expect(run).toMatchObject({ code: 0, stdout: expect.stringContaining('plate') });
});

describe('what does not fit', () => {
  it('ends with 3 and writes the report alone, which says what', async () => {
    const folder = freshFolder();
    fileWith('art.svg', SMALL_SIGN, folder);
    const job = fileWith(
      'a.job.json',
      JSON.stringify({
        bed: '520x320',
        boards: [{ width: 508, height: 305, count: 1 }],
        batch: 9,
        effort: 'quick',
        artwork: { file: 'art.svg' },
      }),
      folder,
    );
    const out = join(folder, 'out');
    // An earlier run's sheet must not be left where it could be cut by mistake; a stranger's file must.
    mkdirSync(out);
    writeFileSync(join(out, 'old-sheet-01.svg'), 'old');
    writeFileSync(join(out, 'notes.txt'), 'mine');
    writeFileSync(join(out, 'report.json'), '{"sheets":[{"files":["old-sheet-01.svg"]}]}');
    const run = await runWithin(['plan', job, '--out', out]);
    expect(run.code).toBe(3);
    expect(run.stderr).toMatch(/underlap: .*#\d/);
    expect(readdirSync(out).sort()).toEqual(['notes.txt', 'report.html', 'report.json']);
    const report = JSON.parse(readFileSync(join(out, 'report.json'), 'utf8'));
    expect(report.notFitting.length).toBeGreaterThan(0);
    expect(report.sheets.every((sheet: { file: unknown }) => sheet.file === null)).toBe(true);
    expect(report.check.piecesPlaced).toBeLessThan(report.check.piecesExpected);
  });
});

describe('a board larger than the bed', () => {
  it('is said to be so, and the layout goes into what the bed reaches', async () => {
    const path = fileWith('art.svg', SMALL_SIGN);
    const out = join(dirname(path), 'out');
    const run = await runWithin([
      'plan',
      path,
      '--out',
      out,
      '--bed',
      '300x220',
      '--board',
      '700x500',
      '--effort',
      'quick',
      '--json',
    ]);
    expect(run.code).toBe(0);
    const report = JSON.parse(run.stdout);
    expect(report.messages.join('\n')).toMatch(/700 x 500 mm board is larger than the 300 x 220 mm bed/);
    expect(report.loadings.length).toBeGreaterThan(report.boards);
  });
});
