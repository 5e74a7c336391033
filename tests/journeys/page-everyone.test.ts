import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { hasBrowser } from '../support/page-browser.ts';
import { watchThread } from '../support/page-trace.ts';
import {
  BUILD_PATIENCE_MS,
  openWorkshop,
  PATIENCE_MS,
  smallJob,
  textOf,
  User,
  type Workshop,
} from '../support/page-user.ts';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const STAGES = ['Artwork', 'Stack', 'Split', 'Boards', 'Files'] as const;

/** Violations of WCAG 2.2 A and AA that axe-core finds on the page as it stands, as short words. */
async function violations({ page }: User): Promise<string[]> {
  await page.evaluate(AXE);
  return page.evaluate(async () => {
    const { axe } = window as unknown as {
      axe: {
        run(root: Document, options: object): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }>;
      };
    };
    const { violations: found } = await axe.run(document, {
      runOnly: { type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] },
    });
    return found.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html.slice(0, 120)).join(' | ')}`);
  });
}

describe.skipIf(!hasBrowser())('the page for everyone', { timeout: PATIENCE_MS }, () => {
  let workshop: Workshop;
  beforeAll(async () => {
    workshop = await openWorkshop(false);
  }, BUILD_PATIENCE_MS);
  afterAll(() => workshop?.close());

  for (const look of ['light', 'dark'] as const) {
    it(`has no fault that an accessibility engine finds, ${look}`, async () => {
      const user = await User.arrive(workshop, undefined, look);
      await user.openJob('small.job.json', smallJob({ bed: { width: 310, height: 150 }, batch: 1 }));
      await user.reads('Split', /in 2 pieces/);
      await user.settled();
      for (const stage of STAGES) {
        await user.look(stage);
        await user.page.evaluate(() => {
          for (const more of document.querySelectorAll('.stage-words details')) more.setAttribute('open', '');
        });
        expect(await violations(user), stage).toEqual([]);
      }
      await user.look('Boards');
      await user.press('Keep this layout');
      await user.press('Try it another way');
      await user.fill('Largest batch', '2');
      await user.press('Reckon');
      await user.page.getByText('The figures').click();
      expect(await violations(user), 'shelf').toEqual([]);
      await user.leave();
    });
  }

  it('finds the fault when there is one: a picture button without a name', async () => {
    const user = await User.arrive(workshop);
    await user.page.evaluate(() => document.querySelector('main')?.append(document.createElement('button')));
    expect((await violations(user)).join()).toContain('button-name');
    await user.leave();
  });

  it('can be used with the keyboard alone, from the bed to a piece moved by hand', async () => {
    const user = await User.arrive(workshop);
    await user.openJob('small.job.json', smallJob());
    await user.settled();
    const { keyboard } = user.page;
    const tabTo = async (name: RegExp): Promise<void> => {
      for (let i = 0; i < 120; i++) {
        await keyboard.press('Tab');
        const words = await user.page.evaluate(() => {
          const { activeElement: at } = document;
          return `${at?.getAttribute('aria-label') ?? ''} ${at?.textContent ?? ''}`;
        });
        if (name.test(words)) return;
      }
      throw new Error(`nothing called ${name} is reached by Tab`);
    };
    await user.page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    await tabTo(/Split/);
    await keyboard.press('Enter');
    await tabTo(/Height of the bed/);
    await keyboard.press('ArrowDown');
    expect(await user.page.getByLabel('Height of the bed, mm').inputValue()).toBe('319');
    await keyboard.press('Control+A');
    await keyboard.type('12 in');
    await keyboard.press('Enter');
    expect(await user.page.getByLabel('Height of the bed, mm').inputValue()).toBe('304.8');
    await user.settled();
    await user.page.evaluate(() => window.scrollTo(0, 0));
    await user.page.locator('.card').nth(2).focus();
    await tabTo(/Boards/);
    await keyboard.press('Enter');
    await tabTo(/boards with/);
    // a small piece, so that there is room for it elsewhere
    for (let i = 0; i < 12; i++) {
      await keyboard.press('n');
      if (/^sun/.test((await user.page.locator('.scene-name').textContent()) ?? '')) break;
    }
    const name = await user.page.locator('.scene-name').textContent();
    expect(name).toMatch(/sheet 1, sign/);
    await keyboard.press('m');
    for (let i = 0; i < 4; i++) await keyboard.press('ArrowRight');
    await user.page.locator('.live-figures').waitFor();
    await keyboard.press('Enter');
    await user.page.getByText(/, pinned/).waitFor();
    await user.settled();
    await user.press(/Nest the rest around/);
    await user.settled();
    const report = JSON.parse(textOf(await user.archive(), 'report.json'));
    expect(report.check.ok).toBe(true);
    await user.leave();
  });

  it('speaks German when asked to, with decimal commas, and keeps to it', async () => {
    const user = await User.arrive(workshop);
    await user.openJob('small.job.json', smallJob({ bed: { width: 310, height: 150 }, batch: 1 }));
    await user.page.getByLabel('Language').selectOption('de');
    await user.reads('Teilung', /in 2 Stücken, Naht/);
    await user.page.getByRole('button', { name: /^Teilung/ }).click();
    await user.fill('Breite, die ein Schnitt wegnimmt, mm', '0,25');
    expect(await user.page.getByLabel('Breite, die ein Schnitt wegnimmt, mm').inputValue()).toBe('0,25');
    await user.settled();
    await user.page.getByLabel('Breite, die ein Schnitt wegnimmt, mm').fill('schmal');
    const sentence = user.page.locator('.sentence-block', { has: user.page.locator('.place-problem') });
    expect(await sentence.locator('.place-problem').textContent()).toBe(
      'Das ist keine Länge. Möglich ist 0 mm bis 3 mm.',
    );
    // the sentence stays whole: what is wrong stands below it
    expect(await sentence.locator('.sentence .place-problem').count()).toBe(0);
    await user.page.keyboard.press('Escape');
    await user.page.reload();
    await user.reads('Teilung', /in 2 Stücken, Naht/);
    expect(await user.page.evaluate(() => document.documentElement.lang)).toBe('de');
    await user.settled();
    await user.page.getByRole('button', { name: /^Dateien/ }).click();
    await user.page.getByText(/^Alle \d+ Dateien, einzeln/).click();
    const { bytes } = await user.take('report.json sichern');
    expect(new TextDecoder().decode(bytes)).toContain('"kerf": 0.25');
    await user.leave();
  });

  it('fits phones and narrow windows, kept layouts and charts included, with the strip in sight', async () => {
    const user = await User.arrive(workshop, { width: 390, height: 844 });
    const { page } = user;
    await user.openJob('small.job.json', smallJob({ batch: 1 }));
    await user.settled();
    // whoever has opened a file of their own is no newcomer
    expect(await page.locator('.welcome').count()).toBe(0);
    await user.press('Keep this layout');
    await user.press('Keep this layout');
    await user.press('Try it another way');
    await user.fill('Largest batch', '2');
    await user.press('Reckon');
    await page.locator('.chart').nth(1).waitFor();
    for (const width of [320, 390, 1024]) {
      await page.setViewportSize({ width, height: 844 });
      for (const stage of STAGES) {
        await user.look(stage);
        await page.locator('.scene').waitFor();
        // what lies folded has to fit as well
        await page.evaluate(() => {
          for (const more of document.querySelectorAll('.stage-words details')) more.setAttribute('open', '');
        });
        const scroll = await page.evaluate(() => document.documentElement.scrollWidth);
        expect(scroll, `${stage} at ${width}`).toBeLessThanOrEqual(width);
        if (width === 390) expect(await violations(user), stage).toEqual([]);
      }
      await page.evaluate(() => window.scrollTo(0, document.documentElement.scrollHeight));
      const strip = await page.locator('.strip').boundingBox();
      expect(strip?.y, `strip at ${width}`).toBe(0);
      expect(strip?.height, `strip at ${width}`).toBeLessThan(110);
    }
    await page.getByLabel('Language').selectOption('de');
    await page.setViewportSize({ width: 320, height: 844 });
    for (const stage of ['Zeichnung', 'Aufbau', 'Teilung', 'Platten', 'Dateien']) {
      await page.getByRole('button', { name: new RegExp(`^${stage}`) }).click();
      await page.locator('.scene').waitFor();
      const scroll = await page.evaluate(() => document.documentElement.scrollWidth);
      expect(scroll, `${stage} at 320`).toBeLessThanOrEqual(320);
    }
    await user.leave();
  });

  it('shows notices beside the ruler, not over it', async () => {
    const user = await User.arrive(workshop);
    await user.openJob('small.job.json', smallJob({ batch: 1 }));
    await user.settled();
    await user.look('Files');
    // this one stays until it is closed
    await user.page.getByRole('checkbox', { name: 'SVG' }).click();
    await user.page.locator('.notice').first().waitFor();
    const boxes = await user.page.evaluate(() =>
      ['.ruler', '.notice'].map((name) =>
        [...document.querySelectorAll(name)].map((one) => one.getBoundingClientRect().toJSON() as DOMRect),
      ),
    );
    const [rulers = [], notices = []] = boxes;
    expect(rulers).toHaveLength(1);
    expect(notices.length).toBeGreaterThan(0);
    for (const ruler of rulers) {
      const covering = notices.filter(
        (notice) =>
          notice.left < ruler.right &&
          notice.right > ruler.left &&
          notice.top < ruler.bottom &&
          notice.bottom > ruler.top,
      );
      expect(covering).toEqual([]);
    }
    await user.leave();
  });

  it('shows 500 pieces without ever holding the page up for 50 ms of processor time', async () => {
    const user = await User.arrive(workshop);
    const { page } = user;
    const use = await watchThread(workshop.browser, page, async () => {
      await user.openText(
        'many.job.json',
        smallJob({ batch: 100, boards: [{ width: 1200, height: 800 }], bed: { width: 1300, height: 900 } }),
      );
      await user.reads('Boards', /boards?, at least/);
      await user.settled();
      for (const stage of STAGES) await user.look(stage);
      await user.look('Boards');
      expect(await page.locator('.scene').getAttribute('aria-label')).toContain('500 pieces');
      await page.locator('.scene').focus();
      for (const key of ['+', '+', 'ArrowLeft', 'ArrowUp', '0', 'n', 'n']) await page.keyboard.press(key);
      expect(await page.locator('.scene-name').textContent()).not.toBe('');
    });
    expect(use.longTasksCpu).toBe(0);
    expect(use.longestCpuMs).toBeGreaterThan(0);
    const held = await watchThread(workshop.browser, page, () =>
      page.evaluate(() => {
        // a page that does hold itself up is seen to
        let sum = 0;
        for (let i = 0; i < 3e8; i++) sum += Math.sqrt(i);
        document.body.dataset.sum = String(sum);
      }),
    );
    expect(held.longTasksCpu).toBeGreaterThan(0);
    await user.leave();
  });
});
