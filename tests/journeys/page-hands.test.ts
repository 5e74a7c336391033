import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { hasBrowser } from '../support/page-browser.ts';
import {
  BUILD_PATIENCE_MS,
  openWorkshop,
  PATIENCE_MS,
  smallJob,
  textOf,
  User,
  type Workshop,
} from '../support/page-user.ts';
import { recheckSheet } from '../support/recheck-sheets.ts';

/** A bed that the backer of the small sign does not fit on. */
const SMALL_BED = { bed: { width: 310, height: 150 }, batch: 1 };

/** Choose a piece on the wall of sheets by its name, with the keyboard. */
async function choose(user: User, name: RegExp): Promise<void> {
  await user.page.locator('.scene').focus();
  for (let i = 0; i < 30; i++) {
    await user.page.keyboard.press('n');
    if (name.test((await user.page.locator('.scene-name').textContent()) ?? '')) return;
  }
  throw new Error(`there is no piece ${name}`);
}

describe.skipIf(!hasBrowser())('hands on the page', { timeout: PATIENCE_MS }, () => {
  let workshop: Workshop;
  beforeAll(async () => {
    workshop = await openWorkshop(false);
  }, BUILD_PATIENCE_MS);
  afterAll(() => workshop?.close());

  it('drops a seam as it was previewed, or asks first and changes nothing', async () => {
    const user = await User.arrive(workshop);
    const { page } = user;
    await user.openJob('small.job.json', smallJob(SMALL_BED));
    const before = await user.reads('Split', /in 2 pieces/);
    await user.settled();
    await user.look('Split');
    const handle = page.locator('.seam-handle').first();
    const box = await handle.boundingBox();
    if (box === null) throw new Error('the seam has no handle');
    const middle = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
    await page.mouse.move(middle.x, middle.y);
    await page.mouse.down();
    await page.mouse.move(middle.x, middle.y + 48, { steps: 6 });
    await page.getByText(/There the seam would be/).waitFor();
    await page.mouse.up();
    const led = page.getByText(/Seams are led through a point/);
    const offered = page.getByText(/A seam cannot run quite as drawn/);
    await led.or(offered).first().waitFor({ timeout: 60_000 });
    if (await offered.isVisible()) {
      expect(await led.count()).toBe(0);
      await user.press('Leave the seam where it was');
      await offered.waitFor({ state: 'detached' });
      expect(await user.reads('Split', /in 2 pieces/)).toBe(before);
    } else {
      await user.settled();
      // as previewed: the handle of a seam still stands where the hand let it go
      const places = await page
        .locator('.seam-handle')
        .evaluateAll((handles) =>
          handles
            .map((one) => one.getBoundingClientRect())
            .map(({ x, y, width, height }) => [x + width / 2, y + height / 2]),
        );
      expect(places.some(([, y]) => Math.abs(y! - middle.y - 48) < 30)).toBe(true);
    }
    await user.leave();
  });

  it('takes a seam along with the mouse, leads it, forbids a place, asks for one piece more and for plates', async () => {
    const user = await User.arrive(workshop);
    const { page } = user;
    await user.openJob('small.job.json', smallJob(SMALL_BED));
    await user.reads('Split', /in 2 pieces/);
    await user.settled();
    await user.look('Split');
    const handle = page.locator('.seam-handle').first();
    const box = await handle.boundingBox();
    if (box === null) throw new Error('the seam has no handle');
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2 - 60, { steps: 6 });
    const live = page.locator('.live-figures');
    await live.getByText(/There the seam would be .* long, \d+% hidden, \d+% held; both sides fit the bed/).waitFor();
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2 - 160, { steps: 6 });
    await live.getByText(/a side would not fit the bed/).waitFor();
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2 - 8, { steps: 6 });
    await page.mouse.up();
    await page.getByText(/Seams are led through a point/).waitFor({ timeout: 60_000 });
    await user.settled();
    expect(await user.reads('Split', /in 2 pieces/)).toContain('seam hidden');

    await user.press(/A point the seam is led through/);
    await page.getByText(/Seams are led through a point/).waitFor({ state: 'detached' });
    await user.settled();
    await handle.focus();
    await handle.press('f');
    await page.getByText(/kept out of one zone/).waitFor();
    await user.press('Let the planner choose');
    await user.settled();

    await user.fill('Pieces more than the fewest', '1');
    await user.reads('Split', /in 3 pieces/);
    await user.settled();
    await user.press('Undo');
    await user.reads('Split', /in 2 pieces/);
    await user.press('Redo');
    await user.reads('Split', /in 3 pieces/);
    await page.getByLabel('Where no glued part holds a seam, a plate is glued behind it.').check();
    await user.settled();
    const plans = page.locator('.plan');
    const wished = (await plans.count()) - 1;
    await plans.nth(wished).click();
    await user.settled();
    expect(await plans.nth(wished).locator('input').isChecked()).toBe(true);
    const files = await user.archive();
    const job = JSON.parse(textOf(files, 'small-sign.job.json'));
    expect(job.seams.parts.backer).toMatchObject({ morePieces: 1, plates: true, pins: [], forbidden: [] });
    expect(typeof job.seams.parts.backer.plan).toBe('string');
    await user.leave();
  });

  it('takes a piece with the mouse, says what is in its way, sets it down, turns it and nests the rest around', async () => {
    const user = await User.arrive(workshop);
    const { page } = user;
    await user.openJob('small.job.json', smallJob({ batch: 1 }));
    await user.settled();
    await user.look('Boards');
    await choose(user, /^sun/);
    await page.keyboard.press('m');
    for (let i = 0; i < 9; i++) await page.keyboard.press('Shift+ArrowUp');
    const live = page.locator('.live-figures');
    await live.getByText(/is in the way|over the edge/).waitFor();
    await live.getByText(/It would go to the nearest free place/).waitFor();
    await page.keyboard.press('Enter');
    await page.getByText('It was set down at the nearest free place.').waitFor();
    await page.getByText(/of sign 1, on sheet 1, pinned/).waitFor();
    await user.settled();

    // hovering names a piece, a click chooses it, and the chosen one follows the mouse
    const scene = page.locator('.scene');
    await scene.focus();
    await page.keyboard.press('Escape');
    await expect.poll(() => page.locator('.scene-name').textContent()).toBe('');
    const area = await scene.boundingBox();
    if (area === null) throw new Error('there is no scene');
    let at: { x: number; y: number } | null = null;
    for (let x = area.x + 10; x < area.x + area.width && at === null; x += 30) {
      for (let y = area.y + 10; y < area.y + area.height && at === null; y += 30) {
        await page.mouse.move(x, y);
        const name = (await page.locator('.scene-name').textContent()) ?? '';
        if (/^sun \(\d+\), sheet 1, sign 1, paint #f0a23a/.test(name)) at = { x, y };
      }
    }
    if (at === null) throw new Error('hovering never names the sun');
    await page.mouse.down();
    await page.mouse.up();
    await page.getByText(/of sign 1, on sheet 1, pinned/).waitFor();
    await page.mouse.down();
    await page.mouse.move(at.x + 1, at.y + 40, { steps: 5 });
    await live.waitFor();
    await page.mouse.up();
    await user.settled();
    await user.press('Turn right 90°');
    await user.settled();
    const steps = 3;
    for (let i = 0; i < steps; i++) await user.press('Undo');
    await user.settled();
    expect(await page.getByText(/, pinned/).count()).toBe(0);
    for (let i = 0; i < steps; i++) await user.press('Redo');
    await user.settled();
    await user.press(/Nest the rest around/);
    await user.settled();
    const files = await user.archive();
    const job = JSON.parse(textOf(files, 'small-sign.job.json'));
    const [pin] = job.pinned;
    const report = JSON.parse(textOf(files, 'report.json'));
    const placed = report.sheets[0].placements.find((placement: { id: string }) => placement.id === 'sun#1');
    expect(job.pinned).toHaveLength(1);
    expect(placed.x).toBeCloseTo(pin.x, 6);
    expect(placed.y).toBeCloseTo(pin.y, 6);
    expect(recheckSheet(textOf(files, 'small-sign-sheet-01.svg')).leastGapMm).toBeGreaterThan(1.995);
    await user.leave();
  });

  it('keeps an offcut for the next job and lays that job out on it', async () => {
    const user = await User.arrive(workshop);
    await user.openJob('small.job.json', smallJob({ batch: 1 }));
    await user.settled();
    await user.look('Boards');
    await user.press('Keep it for the next job');
    await user.page.reload();
    await user.openText(
      'tag.svg',
      '<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="40mm" viewBox="0 0 60 40"><path fill="#7fb2c8" d="M5 5H55V35H5Z"/></svg>',
    );
    await user.reads('Artwork', /1 part/);
    await user.settled();
    await user.look('Boards');
    await user.press('Use it here');
    await user.page.getByText('the offcut').waitFor();
    await user.fill(/^Number of boards/, '0');
    await user.settled();
    const report = JSON.parse(textOf(await user.archive(), 'report.json'));
    expect(report.sheets).toHaveLength(1);
    expect(report.sheets[0].stock).toMatch(/cm² from Small sign/);
    await user.leave();
  });

  it('peels layers off the sign and pulls it apart', async () => {
    const user = await User.arrive(workshop);
    const { page } = user;
    await user.openJob('small.job.json', smallJob({ batch: 1 }));
    await user.settled();
    await user.look('Stack');
    await choose(user, /^banner/);
    await page
      .getByText(
        /banner is glued on backer \(\d+ cm\u00b2 of glue\) and carries letter-i and letter-l\. \d+% of its face is hidden/,
      )
      .waitFor();
    await page.getByLabel(/Peel off/).fill('3');
    await page.getByText('3 of 5 parts').waitFor();
    await page.locator('.scene').focus();
    const names = new Set<string>();
    for (let i = 0; i < 6; i++) {
      await page.keyboard.press('n');
      names.add((await page.locator('.scene-name').textContent()) ?? '');
    }
    expect(names.size).toBe(2);
    await page.getByLabel(/Pull apart/).fill('60');
    await page.getByText(/^60\s?%$/).waitFor();
    await user.leave();
  });

  it('zooms by two fingers and pans by one on a touch screen', async () => {
    const context = await workshop.browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true });
    const user = await User.arrive(workshop, undefined, 'light', context);
    await user.openJob('small.job.json', smallJob({ batch: 1 }));
    await user.settled();
    const scene = user.page.locator('.scene').first();
    await scene.scrollIntoViewIfNeeded();
    const box = (await scene.boundingBox())!;
    const devices = await context.newCDPSession(user.page);
    const fingers = (type: 'touchStart' | 'touchMove' | 'touchEnd', ...xs: number[]) =>
      devices.send('Input.dispatchTouchEvent', {
        type,
        touchPoints: xs.map((x, id) => ({ x: box.x + box.width / 2 + x, y: box.y + box.height / 2, id })),
      });
    const bar = user.page.locator('.scene-foot').first();
    const before = await bar.textContent();
    await fingers('touchStart', -20);
    await fingers('touchStart', -20, 20);
    for (let spread = 30; spread <= 120; spread += 10) await fingers('touchMove', -spread, spread);
    await fingers('touchEnd');
    await expect.poll(() => bar.textContent()).not.toBe(before);
    const zoomed = await scene.screenshot();
    await fingers('touchStart', 0);
    for (let x = 10; x <= 60; x += 10) await fingers('touchMove', x);
    await fingers('touchEnd');
    await user.page.waitForTimeout(500);
    expect(zoomed.equals(await scene.screenshot())).toBe(false);
    await user.leave();
  });
});
