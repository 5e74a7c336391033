import { existsSync } from 'node:fs';
import { mkdir, mkdtemp, rm, rmdir, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { buildPage } from './page-browser.ts';

/** Where the pages of this run lie; the test runner's workers inherit it. */
const PLACE = 'UNDERLAP_BUILT_PAGES';

/** Before the first test: a folder for pages that are built when a journey first asks for one. */
export async function setup(): Promise<void> {
  process.env[PLACE] = await mkdtemp(join(tmpdir(), 'underlap-pages-'));
}

/** After the last test. */
export async function teardown(): Promise<void> {
  const place = process.env[PLACE];
  if (place !== undefined) await rm(place, { recursive: true, force: true });
}

/**
 * The folder of the built page, which nobody may write to: all journeys of a run share one build of each kind. Whoever comes
 * while another worker builds it waits; if that build fails, the next in line tries.
 */
export async function builtPage(withSample: boolean): Promise<string> {
  const place = process.env[PLACE];
  if (place === undefined) throw new Error(`${PLACE} is not set: journeys run with the settings of npm test`);
  const folder = join(place, withSample ? 'with-sample' : 'plain');
  const [lock, done] = [`${folder}.lock`, `${folder}.done`];
  while (!existsSync(done)) {
    if (!(await isTaken(lock))) {
      await pause(100);
      continue;
    }
    try {
      if (existsSync(done)) break;
      await buildPage(folder, withSample);
      await writeFile(done, '');
    } finally {
      await rmdir(lock);
    }
  }
  return folder;
}

/** Did this worker get the lock? Making a folder succeeds for one of all who try. */
async function isTaken(lock: string): Promise<boolean> {
  try {
    await mkdir(lock);
    return true;
  } catch {
    return false;
  }
}
