import { copyFileSync, existsSync, mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { fileWith, freshFolder, runCli, SMALL_SIGN } from '../support/run-cli.ts';

const OPTIONS = ['--beds', '300x220,200x150', '--board', '300x220', '--effort', 'quick', '--json'];
const DISC = SMALL_SIGN.replace('<rect id="strip" x="5" y="70" width="270" height="60" fill="#23395b"/>', '');

interface Told {
  readonly isComplete: boolean;
  readonly masters: readonly {
    readonly master: string;
    readonly folder: string;
    readonly state: string;
    readonly message: string | null;
    readonly variants: readonly { readonly bed: string; readonly boards: number; readonly folder: string }[];
  }[];
}

describe('a catalogue', { timeout: 400_000 }, () => {
  it('makes packs of every master, skips what is unchanged, and a faulty one stops nobody', async () => {
    const folder = freshFolder();
    const out = join(folder, 'packs');
    const masters = join(folder, 'masters');
    mkdirSync(masters);
    fileWith('small.svg', SMALL_SIGN, masters);
    fileWith('disc.svg', DISC, masters);
    fileWith('broken.svg', '<svg xmlns="http://www.w3.org/2000/svg"><rect', masters);
    // Its drawing is planned with the job, not once more without.
    fileWith('made.job.json', JSON.stringify({ artwork: 'small.svg', bed: '300x220', boards: ['300x220'] }), masters);
    copyFileSync(join(masters, 'small.svg'), join(masters, 'twin.svg'));
    const run = async () => {
      const done = await runCli(['catalogue', masters, ...OPTIONS, '--out', out]);
      return { code: done.code, stderr: done.stderr, told: JSON.parse(done.stdout) as Told };
    };
    const first = await run();
    expect(first.told.masters.map(({ master, state }) => [master, state])).toEqual([
      ['made.job.json', 'made'],
      ['broken.svg', 'faulty'],
      ['disc.svg', 'made'],
      ['twin.svg', 'made'],
    ]);
    expect(first.code).toBe(1);
    expect(first.told.masters[1]!.message).toMatch(/broken\.svg/);
    for (const { variants, folder: own } of first.told.masters.filter(({ state }) => state === 'made')) {
      expect(variants.map(({ bed }) => bed)).toEqual(['300x220', '200x150']);
      for (const { folder: pack } of variants) expect(existsSync(join(out, own, pack, 'report.json'))).toBe(true);
    }
    const before = statSync(join(out, 'twin', 'variants.json')).mtimeMs;
    writeFileSync(join(masters, 'disc.svg'), DISC.replace('f2b632', 'f2b633'));
    writeFileSync(join(masters, 'broken.svg'), DISC);
    const second = await run();
    expect(second.told.masters.map(({ master, state }) => [master, state])).toEqual([
      ['made.job.json', 'unchanged'],
      ['broken.svg', 'made'],
      ['disc.svg', 'made'],
      ['twin.svg', 'unchanged'],
    ]);
    expect(second.code).toBe(0);
    expect(statSync(join(out, 'twin', 'variants.json')).mtimeMs).toBe(before);
    expect(JSON.parse(readFileSync(join(out, 'catalogue.json'), 'utf8'))).toEqual(second.told);
  });

  it('stopped, it keeps what is made and goes on from there', async () => {
    const folder = freshFolder();
    for (const name of ['a', 'b', 'c']) fileWith(`${name}.svg`, DISC.replace('280mm', '281mm'), folder);
    const out = join(folder, 'packs');
    const args = ['catalogue', folder, ...OPTIONS, '--out', out, '--processes', '1'];
    const stopped = await runCli(args, '1 of 3');
    expect(stopped.code).toBe(130);
    const again = JSON.parse((await runCli(args)).stdout) as Told;
    expect(again.isComplete).toBe(true);
    expect(again.masters[0]).toMatchObject({ master: 'a.svg', state: 'unchanged' });
    expect(again.masters[2]).toMatchObject({ master: 'c.svg', state: 'made' });
  });
});
