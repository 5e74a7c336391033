import { unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readWithDxfParser } from '../support/dxf-outsiders.ts';
import { hasBrowser } from '../support/page-browser.ts';
import {
  BUILD_PATIENCE_MS,
  harbourJob,
  openWorkshop,
  PATIENCE_MS,
  smallJob,
  User,
  type Workshop,
} from '../support/page-user.ts';
import { pdfPicture } from '../support/pdf-picture.ts';
import { recheckSheet } from '../support/recheck-sheets.ts';

const text = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);

describe.skipIf(!hasBrowser())('what the page keeps, stops and hands over', { timeout: PATIENCE_MS }, () => {
  let workshop: Workshop;
  beforeAll(async () => {
    workshop = await openWorkshop(false);
  }, BUILD_PATIENCE_MS);
  afterAll(() => workshop?.close());

  it('has a place for marks, flaws, offcuts, the colours of sheets and the coupon', async () => {
    const user = await User.arrive(workshop);
    const { page } = user;
    await user.openJob('small.job.json', smallJob({ batch: 1 }));
    await user.settled();
    await user.look('Stack');
    await user.fill(/^Height of numbers and letters/, '7');
    await user.look('Split');
    await page.getByText('More about the machine and the fit').click();
    const coupon = unzipSync((await user.take('Cut a test coupon')).bytes);
    expect(Object.keys(coupon).sort()).toEqual(['coupon.svg', 'coupon.txt']);
    await user.look('Boards');
    await page.getByText('Flawed places, clamps').click();
    await user.press('Add a flawed place');
    await user.fill(/^Width of the flawed place 1/, '60');
    await page.getByText('Use an offcut of my own').click();
    await page.getByLabel('Outline of the offcut').fill('240 x 180');
    await user.press('Lay pieces on it');
    await user.look('Files');
    await page.getByText('Colours and layers in the sheets').click();
    await user.fill('Layer, Cut round', 'last');
    await user.settled();
    const files = await user.archive();
    const job = JSON.parse(text(files['small-sign.job.json'] ?? new Uint8Array()));
    expect(job.marks.textHeight).toBe(7);
    expect(job.boards[0].forbidden).toEqual([{ x: 10, y: 10, width: 60, height: 30 }]);
    expect(job.offcuts[0]).toMatchObject({ id: 'Offcut 1', outline: 'M0 0h240v180h-240z' });
    expect(job.output.layers['cut-outer'].layer).toBe('last');
    expect(
      text(files[Object.keys(files).find((name) => /sheet-01.*svg$/.test(name)) ?? ''] ?? new Uint8Array()),
    ).toContain('last');
    await user.leave();
  });

  it('hands over single sheets as SVG, DXF and PDF, the report, and pictures of the sign', async () => {
    const user = await User.arrive(workshop);
    await user.openJob('small.job.json', smallJob({ batch: 1 }));
    await user.settled();
    await user.look('Files');
    await user.page.getByText(/^All \d+ files, one by one/).click();
    await user.page.getByRole('checkbox', { name: 'DXF' }).check();
    await user.page.getByRole('checkbox', { name: 'PDF' }).check();
    await user.page.getByRole('button', { name: 'Save small-sign-sheet-01.pdf' }).waitFor();
    const take = (name: string): Promise<Uint8Array> => user.take(`Save ${name}`).then(({ bytes }) => bytes);
    const svg = recheckSheet(text(await take('small-sign-sheet-01.svg')));
    expect(svg.pieces).toHaveLength(5);
    const dxf = readWithDxfParser(text(await take('small-sign-sheet-01.dxf')));
    const area = svg.pieces.reduce((sum, piece) => sum + piece.areaMm2, 0);
    const cut = dxf.filter((entity) => /cut/i.test(entity.layer));
    expect(cut.reduce((sum, entity) => sum + Math.abs(entity.areaMm2), 0)).toBeCloseTo(area, -1);
    const pdf = await pdfPicture(await take('small-sign-sheet-01.pdf'), 0.5);
    expect(pdf.widthPt).toBeCloseTo((508 / 25.4) * 72, 1);
    expect(JSON.parse(text(await take('report.json'))).check.ok).toBe(true);
    expect(text(await take('report.html'))).toContain('Small sign');
    for (const name of ['assembled', 'exploded']) {
      expect(text(await take(`sign-${name}.svg`)).match(/<path /g)?.length).toBeGreaterThanOrEqual(5);
      const png = Buffer.from(await take(`sign-${name}.png`));
      expect(Math.max(png.readUInt32BE(16), png.readUInt32BE(20))).toBe(1600);
    }
    await user.leave();
  });

  it('goes back to what was there when it is stopped before there is a layout', async () => {
    const user = await User.arrive(workshop);
    const { page } = user;
    await user.openJob('small.job.json', smallJob({ batch: 1 }));
    await user.settled();
    await user.look('Boards');
    const before = await page.locator('.stage-lead p').textContent();
    await user.fill('Signs in the batch', '500');
    await user.press('Stop and go back');
    await page.getByText('There was nothing to keep yet: everything is as it was before.').waitFor();
    expect(await page.getByLabel('Signs in the batch').inputValue()).toBe('1');
    expect(await page.locator('.stage-lead p').textContent()).toBe(before);
    await user.settled();
    await user.press('Redo');
    await page.getByRole('button', { name: 'Stop all work' }).click();
    await page.getByText('Stopped. Change something, or go on from here.').first().waitFor();
    await user.press('Undo');
    await user.settled();
    await user.fill('Largest batch', '60');
    await user.press('Reckon');
    await user.press('Stop reckoning');
    await page.getByRole('button', { name: 'Reckon', exact: true }).waitFor();
    await user.leave();
  });

  it('loses no edit that is made right before a reload, undoes the opening of a file, and walks back through the stages', async () => {
    const user = await User.arrive(workshop);
    const { page } = user;
    await user.openJob('small.job.json', smallJob({ batch: 1 }));
    await user.settled();
    await user.look('Boards');
    await page.locator('.keeping', { hasText: 'kept in this browser' }).waitFor();
    await page.waitForTimeout(1000);
    await user.fill('Signs in the batch', '2');
    await page.reload();
    await user.reads('Artwork', /^5 parts/);
    await user.look('Boards');
    expect(await page.getByLabel('Signs in the batch').inputValue()).toBe('2');

    await user.openJob('other.job.json', smallJob({ name: 'Other sign', batch: 3 }));
    await user.look('Boards');
    expect(await page.getByLabel('Signs in the batch').inputValue()).toBe('3');
    await user.press('Undo');
    await page.getByText('Undone: Other sign opened').waitFor();
    expect(await page.getByLabel('Signs in the batch').inputValue()).toBe('2');

    await user.look('Stack');
    await user.look('Split');
    await page.goBack();
    await page.locator('#stage[aria-label="Stage: stack" i]').waitFor();
    await page.goForward();
    await page.locator('#stage[aria-label="Stage: split" i]').waitFor();
    await user.leave();
  });

  it('goes on with the job after a reload in the middle of a search', async () => {
    const user = await User.arrive(workshop);
    const { page } = user;
    await user.openJob('harbour.job.json', harbourJob({ effort: 'thorough', batch: 2 }));
    await page.getByRole('button', { name: 'Stop and keep this' }).waitFor();
    await page.locator('.keeping', { hasText: 'kept in this browser' }).waitFor();
    await page.waitForTimeout(1000);
    await page.reload();
    await user.reads('Artwork', /^18 parts/);
    await user.press('Stop and keep this');
    await user.reads('Files', /checked/);
    await user.leave();
  });

  for (const [what, why] of [
    ['refused', 'the browser refuses its database'],
    ['full', 'the disk is full'],
  ] as const) {
    it(`tells of a database that is ${what}, and the job can still be saved as a file`, async () => {
      const context = await workshop.browser.newContext({ viewport: { width: 1280, height: 800 }, locale: 'en-GB' });
      await context.addInitScript((fault) => {
        if (fault === 'refused') {
          IDBFactory.prototype.open = () => {
            throw new DOMException('no', 'SecurityError');
          };
        } else {
          IDBObjectStore.prototype.put = () => {
            throw new DOMException('full', 'QuotaExceededError');
          };
        }
      }, what);
      const user = await User.arrive(workshop, undefined, 'light', context);
      await user.openJob('small.job.json', smallJob({ batch: 3 }));
      await user.page.getByText(`Nothing is kept by this browser: ${why}.`).waitFor();
      await user.page.locator('.keeping', { hasText: `not kept: ${why}` }).waitFor();
      const { bytes } = await user.take('Save the job');
      const again = await User.arrive(workshop);
      await again.openJob('again.job.json', text(bytes));
      await again.reads('Artwork', /^5 parts/);
      await again.look('Boards');
      expect(await again.page.getByLabel('Signs in the batch').inputValue()).toBe('3');
      await again.leave();
      await user.leave();
    });
  }

  it('tells in a sentence when its worker cannot be started, and goes on when asked', async () => {
    // no kept copy of the page, which would hand the script over itself
    const context = await workshop.browser.newContext({ locale: 'en-GB', serviceWorkers: 'block' });
    // the same handler lets it pass later: to take the handler away can leave a request that was just held unanswered
    let isDown = true;
    await context.route(/workbench\.worker/, (route) => (isDown ? route.abort() : route.continue()));
    const user = await User.arrive(workshop, undefined, 'light', context, '.header-tools');
    const note = user.page.getByText(/could not be started or broke down. Nothing you entered is lost/);
    await note.first().waitFor();
    isDown = false;
    // a start that was under way meanwhile may still fail, and is told again: the user asks once more
    const opened = user.page.getByText('The job small.job.json is open.');
    for (let asked = 0; asked < 4 && !(await opened.isVisible()); asked++) {
      await user.openText('small.job.json', smallJob({ batch: 1 }));
      await opened.waitFor({ timeout: 15_000 }).catch(() => undefined);
    }
    await user.reads('Files', /checked/);
    await user.leave();
  });

  it('speaks inches with fractions, and numbers as the language of the browser writes them', async () => {
    const context = await workshop.browser.newContext({ viewport: { width: 1280, height: 800 }, locale: 'de-DE' });
    const user = await User.arrive(workshop, undefined, 'light', context);
    const { page } = user;
    await user.openText('small.job.json', smallJob({ batch: 1 }));
    await page.getByText('Der Auftrag small.job.json ist geöffnet.').waitFor();
    await user.settled();
    await page.getByRole('button', { name: /^Teilung/ }).click();
    expect(await page.getByLabel('Breite, die ein Schnitt wegnimmt, mm').inputValue()).toBe('0,2');
    await page.getByLabel('Längen in').selectOption('in');
    const width = page.getByLabel('Breite des Betts, Zoll');
    await user.fill('Breite des Betts, Zoll', '16 1/4');
    expect(await width.inputValue()).toBe('16 1/4');
    await width.press('ArrowUp');
    expect(await width.inputValue()).toBe('16 5/16');
    await user.fill('Breite des Betts, Zoll', '16¾');
    await user.settled();
    await page.getByLabel('Längen in').selectOption('mm');
    expect(await page.getByLabel('Breite des Betts, mm').inputValue()).toBe('425,45');
    await page.getByRole('button', { name: /^Platten/ }).click();
    await page.getByText(/zwischen Stücken bleiben mindestens 2,0\d mm/).waitFor();
    await user.leave();
  });

  it('can be installed, and moves nothing for those who ask for no motion', async () => {
    const user = await User.arrive(workshop);
    const { page } = user;
    await page.evaluate(() => navigator.serviceWorker.ready);
    const cdp = await page.context().newCDPSession(page);
    const { installabilityErrors } = await cdp.send('Page.getInstallabilityErrors');
    // a window for one visit only may not install anything; nothing else may be in the way
    expect(installabilityErrors.map(({ errorId }) => errorId).filter((id) => id !== 'in-incognito')).toEqual([]);
    const moves = (): Promise<string> =>
      page.evaluate(() => getComputedStyle(document.querySelector('.card-picture') as Element).transitionDuration);
    expect(await moves()).not.toBe('0s');
    await page.emulateMedia({ reducedMotion: 'reduce' });
    expect(await moves()).toBe('0s');
    await user.leave();
  });
});
