import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { overridesOf } from './job-options.ts';
import { loadJob } from './load-job.ts';
import { fieldsOf } from './overrides.ts';

const SAMPLE = join(import.meta.dirname, '../../../samples/harbour-sign.job.json');

describe('fields of a job on the command line', () => {
  it('are laid over the file, beside the options that have names of their own', () => {
    const set = ['marks.textHeight=8', 'marks.before=G', 'seams.parts.backer={"knob":"round"}', 'bed.margin="1in"'];
    const job = loadJob(SAMPLE, overridesOf({ numbers: 'all', bed: '400x300', set }));
    expect(job.marks).toMatchObject({ textHeight: 8, before: 'G', numbers: 'all' });
    expect(job.seams.parts.backer?.knob).toBe('round');
    expect(job.bed).toMatchObject({ width: 400, height: 300, margin: 25.4 });
  });

  it('are checked like those of the file', () => {
    expect(() => loadJob(SAMPLE, overridesOf({ set: ['marks.textHeigth=8'] }))).toThrow(/textHeigth/);
    expect(() => loadJob(SAMPLE, overridesOf({ set: ['marks.textHeight=800'] }))).toThrow(/1\.5 to 50/);
  });

  it('need a name and a value', () => {
    for (const text of ['marks', '=8', 'marks..before=G', '__proto__.polluted=1'])
      expect(() => fieldsOf('--set', [text])).toThrow(/--set takes a field of the job/);
    expect(fieldsOf('--set', ['name=a=b', 'turns.keepGrain=["sail"]'])).toEqual({
      name: 'a=b',
      turns: { keepGrain: ['sail'] },
    });
  });
});
