import { createCanvas, loadImage } from '@napi-rs/canvas';
import { unzipSync } from 'fflate';
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

describe.skipIf(!hasBrowser())('papers of the shop on the page', { timeout: PATIENCE_MS }, () => {
  let workshop: Workshop;
  beforeAll(async () => {
    workshop = await openWorkshop(false);
  }, BUILD_PATIENCE_MS);
  afterAll(() => workshop?.close());

  it('are looked at in the page and printed as they are saved, light in the dark too', async () => {
    const user = await User.arrive(workshop, { width: 1280, height: 800 }, 'dark');
    const { page } = user;
    await user.openText('small.job.json', smallJob({ effort: 1, shop: { hanging: { slots: 2 } } }));
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

  it('go into packs for other beds, with a picture that compares them', async () => {
    const user = await User.arrive(workshop);
    await user.openText('small.job.json', smallJob({ effort: 1, batch: 1 }));
    await user.reads('Files', /checked/);
    await user.look('Files');
    await user.page.getByLabel('Masks').selectOption('score');
    await user.fill('Bridges round each piece', '2');
    await user.reads('Files', /checked/);
    await user.page.getByText('Packs for other beds').click();
    await user.fill('Beds, mm, separated by commas', '520x320, 200x160');
    await user.fill('Licence', 'Ask the drawing office.');
    const { name, bytes } = await user.take('Make the packs');
    expect(name).toBe('small-sign-packs.zip');
    const files = unzipSync(bytes);
    expect(textOf(files, 'beds.svg')).toContain('beds compared');
    expect(textOf(files, 'bed-520x320/read-me.txt')).toContain('No part is split.');
    expect(textOf(files, 'bed-200x160/read-me.txt')).toMatch(/Split: .*backer.* of seam/);
    for (const bed of ['520x320', '200x160']) {
      expect(textOf(files, `bed-${bed}/read-me.txt`)).toContain('Ask the drawing office.');
      const own = Object.keys(files).filter((file) => file.startsWith(`bed-${bed}/`));
      for (const ending of ['.svg', '.dxf', '.pdf', 'finished.png', 'build-guide.html', 'report.json'])
        expect(own.some((file) => file.endsWith(ending))).toBe(true);
    }
    expect(textOf(files, 'bed-520x320/small-sign-mask-1.svg')).toContain('data-process="score"');
    expect(textOf(files, 'bed-520x320/report.html')).toContain('uncut bridges of 0.6 mm');
    // Both pictures are bitmaps of some size, not empty canvases.
    for (const picture of ['beds.png', 'bed-520x320/finished.png']) {
      const { width, data } = await loadPicture(files[picture]!);
      expect(width).toBeGreaterThan(500);
      expect(new Set(data).size).toBeGreaterThan(20);
    }
    expect(user.faults).toEqual([]);
    await user.leave();
  });

  it('tell cost and price of a sign batch by batch, as chart and figures', async () => {
    const user = await User.arrive(workshop);
    await user.openText('small.job.json', smallJob({ effort: 1, costs: { labourHour: 20, handMinutesPerBatch: 60 } }));
    await user.reads('Files', /checked/);
    await user.look('Boards');
    await user.press('Keep this layout');
    await user.press('Try it another way');
    await user.fill('Largest batch', '3');
    await user.press('Reckon');
    const chart = user.page.getByRole('img', { name: /^Cost and price of one sign by batch\. 1: .*; 3: / });
    await chart.waitFor();
    const words = (await chart.getAttribute('aria-label')) ?? '';
    const told = [...words.matchAll(/costs (\d+(?:\.\d+)?), sells at (\d+(?:\.\d+)?)/g)];
    expect(told, words).toHaveLength(3);
    const costs = told.map(([, cost, price]) => [Number(cost), Number(price)] as const);
    // An hour of getting ready is shared by the batch, and a mark-up of a whole doubles what it costs.
    expect(costs[0]![0] - costs[2]![0]).toBeGreaterThan(20 - 20 / 3 - 1);
    for (const [cost, price] of costs) expect(price).toBeGreaterThan(cost);
    await user.page.getByText('The figures').click();
    const row = user.page.getByRole('row', { name: /^3 / });
    expect(await row.textContent()).toContain(told[2]![1]);
    expect(user.faults).toEqual([]);
    await user.leave();
  });

  it('take offcuts from a shelf file where that saves a board, and book what is used and left', async () => {
    const user = await User.arrive(workshop);
    const { page } = user;
    await user.openText('small.job.json', smallJob({ effort: 1, batch: 1 }));
    await user.reads('Files', /checked/);
    await user.look('Boards');
    await page.getByText('Offcut shelf of the shop').click();
    const offcut = (id: string, thickness: number) => ({
      id,
      outline: 'M0 0H500V300H0Z',
      areaMm2: 150_000,
      rectangle: { x: 0, y: 0, width: 500, height: 300 },
      thickness,
    });
    const shelf = JSON.stringify({ offcuts: [offcut('R1', 6), offcut('THIN', 3)] });
    await page
      .getByLabel('Shelf file')
      .setInputFiles({ name: 'our-shelf.json', mimeType: 'application/json', buffer: Buffer.from(shelf) });
    await page.getByText('our-shelf.json: 2 offcuts on hand.').waitFor();
    await user.press('Use what saves a board');
    await page.getByText(/^R1 taken: .* to buy instead of \d/).waitFor();
    await page.getByText('THIN stays: it is 3 mm thick, and 6 mm are needed.').waitFor();
    await user.settled();
    const { name, bytes } = await user.take('Book this job and save the shelf');
    expect(name).toBe('our-shelf.json');
    const saved = JSON.parse(new TextDecoder().decode(bytes));
    const ids = saved.offcuts.map(({ id }: { id: string }) => id);
    expect(ids).toContain('THIN');
    expect(ids).not.toContain('R1');
    expect(saved.bookings).toContainEqual(expect.objectContaining({ what: 'out', id: 'R1' }));
    expect(user.faults).toEqual([]);
    await user.leave();
  });
});

async function loadPicture(bytes: Uint8Array): Promise<{ width: number; data: Uint8ClampedArray }> {
  const image = await loadImage(bytes);
  const context = createCanvas(image.width, image.height).getContext('2d');
  context.drawImage(image, 0, 0);
  return { width: image.width, data: context.getImageData(0, 0, image.width, image.height).data };
}
