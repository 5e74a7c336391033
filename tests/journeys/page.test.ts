import { parseJob } from '@underlap/job/parse-job';
import { planJob } from '@underlap/job/plan-job';
import type { Report } from '@underlap/job/report-schema';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { hasBrowser, previewPage } from '../support/page-browser.ts';
import {
  BUILD_PATIENCE_MS,
  harbourJob,
  openWorkshop,
  PATIENCE_MS,
  smallJob,
  smallSign,
  textOf,
  User,
  type Workshop,
} from '../support/page-user.ts';
import { recheckSheet } from '../support/recheck-sheets.ts';

const sheetsOf = (files: Readonly<Record<string, Uint8Array>>): string[] =>
  Object.keys(files).filter((name) => /-sheet-\d+[^.]*\.svg$/.test(name));

/** Ids of the pieces that a written sheet cuts. */
const piecesOn = (svg: string): string[] => [
  ...new Set([...svg.matchAll(/data-piece="([^"]+)"/g)].map((match) => match[1] ?? '')),
];

/**
 * Where every piece lies. The browser's and Node's sine differ in the last bits, so places are compared to a thousandth of a
 * micrometre.
 */
const placesOf = (report: Pick<Report, 'sheets'>): string[] =>
  report.sheets.flatMap((sheet, index) =>
    sheet.placements.map(
      ({ id, x, y, turnDeg, mirrored }) =>
        `${index} ${id} ${x.toFixed(6)} ${y.toFixed(6)} ${turnDeg.toFixed(6)} ${mirrored}`,
    ),
  );

describe.skipIf(!hasBrowser())('journeys through the page', { timeout: PATIENCE_MS }, () => {
  let workshop: Workshop;
  beforeAll(async () => {
    workshop = await openWorkshop(true);
  }, BUILD_PATIENCE_MS);
  afterAll(() => workshop?.close());

  it('opens on the sample with the result there, and hands over the whole archive', async () => {
    const user = await User.arrive(workshop);
    expect(await user.reads('Split', /seam hidden/)).toContain('backer in 2 pieces');
    await user.reads('Boards', /boards?, .* used/);
    await user.reads('Files', /checked/);
    // a newcomer is told what this is, that it is a sample, and how to come to a sign of their own
    const welcome = user.page.getByRole('region', { name: 'First steps' });
    expect(await welcome.textContent()).toMatch(/drawing of a layered wooden sign to the files your laser cuts/);
    expect(await welcome.textContent()).toMatch(/What you see is a sample/);
    expect(await welcome.locator('.welcome-steps li').count()).toBe(3);
    const drop = await welcome.getByRole('button', { name: /Drop a drawing here/ }).boundingBox();
    expect((drop?.y ?? 1e4) + (drop?.height ?? 0)).toBeLessThan(800);
    await user.press('Hide this');
    await welcome.waitFor({ state: 'detached' });
    const files = await user.archive();
    const report = JSON.parse(textOf(files, 'report.json'));
    // Equal sheets are one file whose name says how often it is cut.
    const cuts = sheetsOf(files).map((name) => ({
      times: Number(/-x(\d+)\.svg$/.exec(name)?.[1] ?? 1),
      pieces: piecesOn(textOf(files, name)).length,
    }));
    expect(cuts.reduce((sum, { times }) => sum + times, 0)).toBe(report.boards);
    expect(cuts.reduce((sum, { times, pieces }) => sum + times * pieces, 0)).toBe(report.check.piecesPlaced);
    const [first = ''] = sheetsOf(files);
    const found = recheckSheet(textOf(files, first));
    expect(found.widthMm).toBeCloseTo(508, 6);
    expect(found.leastGapMm).toBeGreaterThan(1.995);
    expect(found.leastMarginMm).toBeGreaterThan(4.995);
    expect(textOf(files, 'report.html')).toContain('<!DOCTYPE html>');
    expect(textOf(files, 'sign-exploded.svg')).toContain('<path');
    expect([...(files['sign-assembled.png'] ?? []).slice(1, 4)]).toEqual([0x50, 0x4e, 0x47]);
    expect(user.faults).toEqual([]);
    await user.leave();
  });

  it('lays the same job out as the command line does with the same seed', async () => {
    const user = await User.arrive(workshop);
    const text = smallJob({ effort: 2, batch: 3 });
    await user.openText('small.job.json', text);
    await user.reads('Artwork', /^5 parts/);
    await user.settled();
    const files = await user.archive();
    const onPage = JSON.parse(textOf(files, 'report.json'));
    const job = parseJob(text, 'the job');
    const { report } = await planJob(job);
    expect(placesOf(onPage)).toEqual(placesOf(report));
    expect(onPage.boards).toBe(report.boards);
    await user.leave();
  });

  it('asks how large artwork of unknown size is, and goes on from the answer', async () => {
    const user = await User.arrive(workshop);
    await user.openText('open.svg', smallSign(null));
    await user.reads('Artwork', /size not known/);
    await user.page.getByText('How large is it?', { exact: true }).waitFor();
    await user.press(/wide \(96 to the inch\)/);
    await user.reads('Artwork', /79.* × 58/);
    await user.fill('Width of the drawing, mm', '150');
    await user.reads('Artwork', /^5 parts, 150 × 110 mm/);
    await user.press('Undo');
    await user.reads('Artwork', /79.* × 58/);
    await user.leave();
  });

  it('reads a DXF drawing with its units', async () => {
    const user = await User.arrive(workshop);
    const pairs = [
      0,
      'SECTION',
      2,
      'HEADER',
      9,
      '$INSUNITS',
      70,
      4,
      0,
      'ENDSEC',
      0,
      'SECTION',
      2,
      'ENTITIES',
      0,
      'LWPOLYLINE',
      8,
      'CUT',
      90,
      4,
      70,
      1,
    ];
    const corners = [10, 0, 20, 0, 10, 120, 20, 0, 10, 120, 20, 80, 10, 0, 20, 80];
    const circle = [0, 'CIRCLE', 8, 'CUT', 10, 60, 20, 40, 40, 15, 0, 'ENDSEC', 0, 'EOF'];
    await user.openText('plate.dxf', [...pairs, ...corners, ...circle].join('\n'));
    await user.reads('Artwork', /120 × 80 mm/);
    await user.settled();
    await user.leave();
  });

  it('cuts an oversized backer along a hidden seam and writes both pieces', async () => {
    const user = await User.arrive(workshop);
    await user.openJob('small.job.json', smallJob({ batch: 1 }));
    await user.reads('Split', /everything fits whole/);
    await user.look('Split');
    await user.fill('Width of the bed, mm', '310');
    await user.fill('Height of the bed, mm', '150');
    expect(await user.reads('Split', /in \d pieces/)).toMatch(/backer in 2 pieces, seam hidden/);
    const handle = user.page.locator('.seam-handle').first();
    await handle.focus();
    await handle.press('Shift+ArrowUp');
    await user.page.getByText(/There the seam would be/).waitFor();
    await handle.press('Escape');
    await user.reads('Files', /checked/);
    const files = await user.archive();
    const report = JSON.parse(textOf(files, 'report.json'));
    expect(report.seams[0].hiddenShare).toBe(1);
    const pieces = sheetsOf(files).flatMap((name) => piecesOn(textOf(files, name)));
    expect(pieces.filter((id) => id.startsWith('backer'))).toHaveLength(2);
    await user.leave();
  });

  it('keeps three layouts, says what makes the difference and writes the table', async () => {
    const user = await User.arrive(workshop);
    await user.openJob('small.job.json', smallJob({ batch: 1 }));
    await user.settled();
    await user.look('Boards');
    await user.press('Keep this layout');
    await user.fill('Height of the board, mm', '700');
    await user.settled();
    await user.press('Keep this layout');
    await user.press('Try it another way');
    await user.page.getByLabel('What is different').selectOption('batch');
    await user.fill('Batch to try', '3');
    await user.press('Lay it out and keep it');
    await user.page.locator('.shelf tbody tr').nth(2).waitFor();
    expect(await user.page.locator('.conclusion').textContent()).toMatch(/boards a sign/);
    const csv = new TextDecoder().decode((await user.take('Save the table as CSV')).bytes);
    const rows = csv.trim().split('\r\n');
    expect(rows).toHaveLength(4);
    expect(rows[3]).toContain('3 signs');
    await user.leave();
  });

  it('stops a search and keeps what is there, then searches on from it', async () => {
    const user = await User.arrive(workshop);
    await user.openJob('harbour.job.json', harbourJob({ effort: 'thorough' }));
    await user.look('Boards');
    await user.page.getByRole('button', { name: 'Stop and keep this' }).waitFor();
    await user.reads('Boards', /boards?, at least/);
    await user.press('Stop and keep this');
    await user.reads('Files', /checked/);
    const stopped = await user.reads('Boards', /used/);
    await user.press('Search on');
    await user.page.getByRole('button', { name: 'Stop and keep this' }).waitFor();
    await user.press('Stop all work');
    await user.page.getByText('Stopped. Change something, or go on from here.').first().waitFor();
    expect(Number.parseInt(stopped, 10)).toBeGreaterThan(0);
    // going on takes what the stopped search had found, and the search can be taken up again
    await user.press('Go on');
    await user.reads('Files', /checked/);
    const resumed = await user.reads('Boards', /used/);
    expect(Number.parseInt(resumed, 10)).toBeLessThanOrEqual(Number.parseInt(stopped, 10));
    await user.page.getByRole('button', { name: 'Search on' }).waitFor();
    await user.leave();
  });

  it('brings everything back after a reload, undo included, and keeps two tabs apart', async () => {
    const user = await User.arrive(workshop);
    await user.openJob('small.job.json', smallJob());
    await user.settled();
    await user.look('Boards');
    await user.fill('Signs in the batch', '3');
    await user.page.waitForTimeout(1500);
    await user.page.locator('.keeping', { hasText: 'kept in this browser' }).waitFor();
    await user.page.reload();
    await user.reads('Artwork', /^5 parts/);
    await user.settled();
    await user.look('Boards');
    expect(await user.page.getByLabel('Signs in the batch').inputValue()).toBe('3');

    const other = await User.arrive(workshop, undefined, 'light', user.context);
    await other.page.getByText(/is open in another tab; this tab works on a copy/).waitFor();
    await other.look('Boards');
    await other.fill('Signs in the batch', '5');
    await other.page.waitForTimeout(1500);
    await user.press('Undo');
    expect(await user.page.getByLabel('Signs in the batch').inputValue()).toBe('2');
    await user.page.waitForTimeout(1500);
    await user.page.reload();
    await user.reads('Artwork', /^5 parts/);
    await user.look('Boards');
    expect(await user.page.getByLabel('Signs in the batch').inputValue()).toBe('2');
    await other.page.reload();
    await other.reads('Artwork', /^5 parts/);
    await other.look('Boards');
    expect(await other.page.getByLabel('Signs in the batch').inputValue()).toBe('5');
    await user.leave();
  });

  it('says in a sentence what is wrong with a broken file, and stays usable', async () => {
    const user = await User.arrive(workshop);
    await user.openText('broken.svg', '<svg xmlns="http://www.w3.org/2000/svg" width="10mm"><path d="M0 0');
    await user.page
      .getByText(/Look here/)
      .first()
      .waitFor();
    await user.openText('broken.job.json', '{ "version": 1, "bed": "wide" }');
    await user.page
      .getByText(/such as "508x305"/)
      .first()
      .waitFor();
    await user.openJob('small.job.json', smallJob({ batch: 1 }));
    await user.reads('Files', /checked/);
    await user.leave();
  });

  it('works without a network after the first visit, from any web host and as npm start serves it', async () => {
    const started = await previewPage(workshop.folder);
    for (const url of [workshop.url, started.url]) {
      const user = await User.arrive({ ...workshop, url });
      await user.page.evaluate(() => navigator.serviceWorker.ready);
      await user.context.setOffline(true);
      await user.page.reload();
      await user.reads('Split', /seam hidden/);
      // its threads come from the copy too
      await user.openJob('small.job.json', smallJob({ batch: 1 }));
      await user.reads('Files', /checked/);
      await user.leave();
    }
    // what made the difference: such a host answers by who asks
    const answer = await fetch(started.url);
    expect(answer.headers.get('vary')).toContain('Origin');
    await started.close();
  });
});
