import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { hasBrowser } from '../support/page-browser.ts';
import { BUILD_PATIENCE_MS, openWorkshop, PATIENCE_MS, smallJob, User, type Workshop } from '../support/page-user.ts';

describe.skipIf(!hasBrowser())('papers of the shop on the page', { timeout: PATIENCE_MS }, () => {
  let workshop: Workshop;
  beforeAll(async () => {
    workshop = await openWorkshop(false);
  }, BUILD_PATIENCE_MS);
  afterAll(() => workshop?.close());

  it('are looked at in the page and printed as they are saved, light in the dark too', async () => {
    const user = await User.arrive(workshop, { width: 1280, height: 800 }, 'dark');
    const { page } = user;
    await user.openText('small.job.json', smallJob({ effort: 1, shop: { hanging: { slots: 1 } } }));
    await user.reads('Files', /checked/);
    await user.look('Files');
    await page.getByRole('button', { name: 'Look at the build guide' }).click();
    const guide = page.frameLocator('iframe[title="build guide"]');
    await guide.getByRole('heading', { name: /how to build it/ }).waitFor();
    expect(await guide.locator('.step svg').count()).toBeGreaterThan(2);
    await page.getByRole('button', { name: 'Look at the shop sheet' }).click();
    const sheet = page.frameLocator('iframe[title="shop sheet"]');
    await sheet.getByText('It hangs straight.').waitFor();
    expect(await sheet.locator('.sheet-page').count()).toBeGreaterThan(0);
    expect(await sheet.locator('body').evaluate((body) => getComputedStyle(body).backgroundColor)).toBe(
      'rgb(255, 253, 248)',
    );
    // Ctrl-P hands the same document to the printer, not the page around it.
    await page.keyboard.press('Control+p');
    const printed = page.frameLocator('iframe[title="shop sheet, printing"]');
    await printed.getByText('What to have at hand').waitFor({ state: 'attached' });
    expect(user.faults).toEqual([]);
    await user.leave();
  });
});
