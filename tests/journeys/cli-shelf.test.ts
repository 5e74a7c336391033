import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseShelf } from '@underlap/job/shelf';
import { afterAll, expect, it } from 'vitest';
import { runWithin } from '../support/run-cli.ts';

const folder = mkdtempSync(join(tmpdir(), 'underlap-shelf-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const at = (name: string) => join(folder, name);

it('a shelf is filled by hand, saves a board, and is booked', async () => {
  writeFileSync(
    at('pier.svg'),
    `<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="300mm" viewBox="0 0 300 300">
<rect id="plank-1" width="280" height="88" fill="#7fb2c8"/><rect id="plank-2" y="100" width="280" height="88" fill="#7fb2c8"/>
<rect id="block" y="200" width="80" height="60" fill="#23395b"/></svg>`,
  );
  const shelf = at('shelf.json');
  const add = await runWithin(['shelf', 'add', shelf, 'corner', '--size', '200x120', '--thickness', '6']);
  expect([add.code, add.stdout]).toEqual([0, 'corner is on the shelf, 1 in all\n']);
  const again = await runWithin(['shelf', 'add', shelf, 'corner', '--size', '200x120', '--thickness', '6']);
  expect([again.code, again.stderr]).toEqual([2, expect.stringContaining('has an offcut "corner" already')]);
  const options = ['--bed', '300x200', '--board', '300x200', '--effort', 'quick', '--shelf', shelf, '--out', at('out')];
  const plan = await runWithin(['plan', at('pier.svg'), ...options]);
  expect(plan.code).toBe(0);
  expect(plan.stdout).toContain('Shelf: corner taken, 1 board to buy instead of 2 (1 saved).');
  const book = await runWithin(['shelf', 'book', shelf, at('out/report.json')]);
  expect(book.stdout).toContain('1 booked out, 1 booked in, 1 on shelf.json');
  const known = parseShelf(readFileSync(shelf, 'utf8'), 'shelf.json');
  expect(known.offcuts[0]!.from).toMatch(/^pier, sheet /);
  const list = await runWithin(['shelf', 'list', shelf]);
  expect(list.stdout).toContain(known.offcuts[0]!.id);
  const take = await runWithin(['shelf', 'take', shelf, 'corner']);
  expect([take.code, take.stderr]).toEqual([2, expect.stringContaining('There is no offcut "corner"')]);
}, 120_000);
