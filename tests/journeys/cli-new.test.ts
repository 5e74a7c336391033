import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { parseJob } from '@underlap/job/parse-job';
import { expect, it } from 'vitest';
import { fileWith, runWithin, SMALL_SIGN } from '../support/run-cli.ts';

it('a new job is commented, can be read as it stands, and is not written over', async () => {
  const art = fileWith('pier.svg', SMALL_SIGN);
  const options = ['--bed', '20x12in', '--board', '508x305', '--kerf', '0,15', '--key', '#cc2200=score'];
  const run = await runWithin(['new', art, ...options]);
  expect(run).toMatchObject({ code: 0, stderr: '' });
  const path = join(dirname(art), 'pier.job.json');
  const text = readFileSync(path, 'utf8');
  expect(text).toMatch(/\/\/ Read as a \w+ drawing; parts, bottom first: .*plate/);
  expect(parseJob(text, 'pier.job.json')).toMatchObject({
    artwork: { file: 'pier.svg', colourKey: { '#cc2200': 'score' } },
    bed: { width: 508, height: 304.8 },
    boards: [{ width: 508, height: 305 }],
    kerf: 0.15,
  });
  const again = await runWithin(['new', art, ...options]);
  expect(again).toMatchObject({ code: 1, stderr: expect.stringContaining('is there already') });
});

it('a job that asks for pictures gets the finished sign as one', async () => {
  const job = { artwork: { text: SMALL_SIGN }, bed: '520x320', boards: ['508x305'], effort: 'quick' };
  const path = fileWith('pier.job.json', JSON.stringify({ ...job, name: 'Pier', output: { pictures: true } }));
  const run = await runWithin(['plan', path, '--out', join(dirname(path), 'out')]);
  expect(run.code).toBe(0);
  expect(readFileSync(join(dirname(path), 'out', 'pier-picture.svg'), 'utf8')).toContain('<title>plate</title>');
});

it('what cannot be asked has to be given', async () => {
  const run = await runWithin(['new', fileWith('pier.svg', SMALL_SIGN)]);
  expect(run).toMatchObject({ code: 2, stderr: expect.stringContaining('--bed and --board') });
});
