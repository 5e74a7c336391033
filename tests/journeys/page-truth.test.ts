import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { hasBrowser } from '../support/page-browser.ts';
import {
  BUILD_PATIENCE_MS,
  openWorkshop,
  PATIENCE_MS,
  smallJob,
  smallSign,
  textOf,
  User,
  type Workshop,
} from '../support/page-user.ts';

const withText = smallSign().replace('</svg>', '<text x="130" y="205" font-size="12">Harbour</text></svg>');

/** A drawing that takes long to read: many parts with many corners. */
function heavyDrawing(): string {
  const shapes = Array.from({ length: 900 }, (_, at) => {
    const [x, y] = [20 + (at % 30) * 40, 20 + Math.floor(at / 30) * 40];
    const corners = Array.from({ length: 250 }, (__, i) => {
      const angle = (i / 250) * 2 * Math.PI;
      const radius = 14 + (i % 2) * 2;
      return `${(x + radius * Math.cos(angle)).toFixed(4)} ${(y + radius * Math.sin(angle)).toFixed(4)}`;
    });
    return `<path fill="#23395b" d="M${corners.join('L')}Z"/>`;
  });
  return `<svg xmlns="http://www.w3.org/2000/svg" width="1240mm" height="1240mm" viewBox="0 0 1240 1240">${shapes.join('')}</svg>`;
}

describe.skipIf(!hasBrowser())('what is true runs through the page', { timeout: PATIENCE_MS }, () => {
  let workshop: Workshop;
  beforeAll(async () => {
    workshop = await openWorkshop(false);
  }, BUILD_PATIENCE_MS);
  afterAll(() => workshop?.close());

  it('says the same figures as the report, and is green where nothing wants to be looked at', async () => {
    const user = await User.arrive(workshop);
    const { page } = user;
    await user.openJob('small.job.json', smallJob({ kerf: 1 }));
    await user.settled();
    const report = JSON.parse(textOf(await user.archive(), 'report.json'));
    const used = `${(report.yield * 100).toFixed(1)}%`;
    expect(await user.reads('Boards', / used$/)).toContain(used);
    await page.locator('.stage-lead.is-good').waitFor();
    await page.locator('.stage-words .good').waitFor();
    expect(await page.locator('.stage-words .look').count()).toBe(0);
    await user.look('Boards');
    expect(await page.locator('.stage-lead p').textContent()).toContain(`${used} used`);
    await user.leave();
  });

  it('is not green at the end while something was left out of the drawing, and leads to its place', async () => {
    const user = await User.arrive(workshop);
    const { page } = user;
    const artwork = { text: withText, name: 'small.svg', acceptFaults: true };
    await user.openJob('small.job.json', smallJob({ batch: 1, artwork }));
    await user.settled();
    expect(await page.locator('.card', { hasText: 'Files' }).locator('.badge').textContent()).toContain('1 to look at');
    for (const stage of ['Stack', 'Split', 'Boards', 'Files'] as const) {
      await user.look(stage);
      await page.locator('.upstream', { hasText: 'Artwork: ' }).waitFor();
    }
    await page.locator('.stage-lead.is-look').waitFor();
    expect(await page.locator('.stage-lead p').textContent()).toBe(
      '1 sheet is written; 1 thing wants to be looked at first.',
    );
    expect(await page.locator('.stage-words .good').count()).toBe(0);
    await user.press('Show it');
    await page.locator('#stage[aria-label="Stage: artwork" i]').waitFor();
    await page.locator('.spot-ring').waitFor();
    await page.getByRole('button', { name: 'Whole', exact: true }).click();
    expect(await page.locator('.spot-ring').count()).toBe(0);
    await user.press('Show the place');
    await page.locator('.spot-ring').waitFor();
    await user.leave();
  });

  it('hands nothing over while boards are missing, and calls pieces by their names and numbers', async () => {
    const user = await User.arrive(workshop);
    const { page } = user;
    await user.openJob('few.job.json', smallJob({ batch: 9, boards: [{ width: 508, height: 305, count: 1 }] }));
    await user.look('Boards');
    const told = page
      .locator('.stage-words .look', { hasText: /^Look here: (\d+ × )?(backer|banner) \(\d+\)/ })
      .first();
    await told.waitFor();
    await user.look('Files');
    await page.locator('.stage-lead.is-look').waitFor();
    await user.reads('Files', /^nothing to cut yet$/);
    expect(await page.getByRole('button', { name: 'Take everything in one archive' }).count()).toBe(0);
    await user.leave();
  });

  it('shows how a board larger than the bed is moved on it, in the picture and in words, as the files are cut', async () => {
    const user = await User.arrive(workshop);
    const { page } = user;
    await user.openJob('bed.job.json', smallJob({ batch: 2, bed: { width: 300, height: 200 } }));
    await user.settled();
    await user.look('Boards');
    const list = page.getByRole('region', { name: 'How the boards lie on the bed' });
    await list.getByText(/^Sheet 1 is larger than the bed: it is loaded \d times and moved in between/).waitFor();
    await list
      .getByText(/^Set the stops so that the left edge of the board lies/)
      .first()
      .waitFor();
    const second = list.getByRole('button', { name: 'Show loading 2 of sheet 1' });
    const before = await page.locator('.scene-canvas').screenshot();
    await second.click();
    expect(await second.getAttribute('aria-pressed')).toBe('true');
    await page.waitForTimeout(500);
    expect(Buffer.compare(before, await page.locator('.scene-canvas').screenshot())).not.toBe(0);
    // the words are of the very move that the report of the files names
    const report = JSON.parse(textOf(await user.archive(), 'report.json'));
    type Loading = {
      sheets: number[];
      number: number;
      width: number;
      height: number;
      move: null | { dx: number; dy: number };
    };
    const loadings: Loading[] = report.loadings;
    const { move } = loadings.find(({ sheets, number }) => sheets[0] === 1 && number === 2) as Loading;
    const [far, way] = move?.dx === 0 ? [move.dy, move.dy < 0 ? 'up' : 'down'] : [move?.dx ?? 0, 'to the'];
    await user.look('Boards');
    await list
      .getByText(`Then move the board ${Number(Math.abs(far).toFixed(1))} mm ${way}`)
      .first()
      .waitFor();
    for (const { width, height } of loadings) {
      expect(Math.max(width, height)).toBeLessThanOrEqual(300);
      expect(Math.min(width, height)).toBeLessThanOrEqual(200);
    }
    await user.leave();
  });

  it('lets the pieces slide from the sign onto the boards once, and not for those who ask for no motion', async () => {
    const user = await User.arrive(workshop);
    const { page } = user;
    // every element that ever appears is seen, however short it stays
    await page.evaluate(() => {
      const seen = window as unknown as { slides: number };
      seen.slides = 0;
      new MutationObserver((changes) => {
        for (const { addedNodes } of changes)
          for (const node of addedNodes)
            if (node instanceof Element && (node.matches('.slide-in') || node.querySelector('.slide-in') !== null))
              seen.slides += 1;
      }).observe(document.body, { childList: true, subtree: true });
    });
    const slides = (): Promise<number> => page.evaluate(() => (window as unknown as { slides: number }).slides);
    await user.openJob('small.job.json', smallJob({ batch: 2 }));
    await user.settled();
    await user.look('Stack');
    await user.look('Boards');
    await page.locator('.slide-in').waitFor({ state: 'detached' });
    expect(await slides()).toBe(1);
    await user.look('Stack');
    await user.look('Boards');
    expect(await slides()).toBe(1);
    await page.emulateMedia({ reducedMotion: 'reduce' });
    await user.openJob('again.job.json', smallJob({ batch: 2, name: 'Another' }));
    await user.settled();
    await user.look('Stack');
    await user.look('Boards');
    expect(await slides()).toBe(1);
    await user.leave();
  });

  it('stops while a drawing is being read, and what was there stays', async () => {
    const user = await User.arrive(workshop);
    const { page } = user;
    await user.openJob('small.job.json', smallJob({ batch: 1 }));
    await user.settled();
    await user.openText('heavy.svg', heavyDrawing());
    await page.locator('#stage[aria-label="Stage: artwork" i]').waitFor();
    await user.press('Stop and go back');
    await user.reads('Artwork', /^5 parts/);
    await user.settled();
    expect(await page.getByLabel('Name of the job').inputValue()).toBe('Small sign');
    // asked for again and stopped for good: the drawing is told as stopped, and can be gone on with
    await user.press('Redo');
    await user.press('Stop all work');
    await page.getByText('Stopped. Change something, or go on from here.').first().waitFor();
    await user.press('Undo');
    await user.reads('Artwork', /^5 parts/);
    await user.settled();
    await user.leave();
  });
});
