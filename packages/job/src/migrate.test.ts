import { describe, expect, it } from 'vitest';
import { type RawJob, raise } from './migrate.ts';

describe('raising a job document', () => {
  const steps = new Map<number, (job: RawJob) => RawJob>([
    [1, (job) => ({ ...job, second: true })],
    [3, (job) => ({ ...job, fourth: true })],
  ]);

  it('takes every step from the version it has to the newest', () => {
    expect(raise({ version: 1 }, 4, 'a.json', steps)).toEqual({ version: 4, second: true, fourth: true });
    expect(raise({ version: 2 }, 4, 'a.json', steps)).toEqual({ version: 4, fourth: true });
  });

  it('changes nothing the second time', () => {
    const once = raise({ version: 1, artwork: 'a.svg', bed: '20x12in' }, 4, 'a.json', steps);
    expect(raise(once, 4, 'a.json', steps)).toEqual(once);
    expect(once).toMatchObject({ artwork: { file: 'a.svg' }, bed: { width: 508, height: 304.8 } });
  });

  it('drops what never had an effect', () => {
    const artwork = { file: 'a.svg', format: 'svg' };
    expect(raise({ artwork }, 1, 'a.json')).toEqual({ artwork: { file: 'a.svg' } });
  });

  it('leaves faults to the schema', () => {
    expect(raise({ artwork: 7, bed: 'wide', kerf: -1 }, 1, 'a.json')).toEqual({ artwork: 7, bed: 'wide', kerf: -1 });
  });

  it.each([0, -1, 1.5, '1', null, 5])('refuses version %j', (version) => {
    expect(() => raise({ version }, 4, 'a.json', steps)).toThrow(
      version === 5 ? /newer version/ : /a\.json: version is/,
    );
  });
});
