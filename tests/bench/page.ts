import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Page } from 'playwright-core';
import { buildPage, findBrowser, openBrowser, servePage } from '../support/page-browser.ts';
import { smallJob } from '../support/page-user.ts';

/**
 * What the page costs: bytes of the first load, time until it answers and until the sample's result is there, and the long
 * tasks (over 50 ms) of the page's own thread while it works, by what was done. `--json` prints one object.
 */
interface PageFigures {
  readonly firstLoadGzipKb: number;
  readonly workersGzipKb: number;
  readonly interactiveMs: number;
  readonly resultMs: number;
  readonly longTasks: Readonly<Record<string, { readonly count: number; readonly longestMs: number }>>;
}

/** Files a browser fetches before anything is asked for: the page, its styles, its scripts, the ready sample. */
const FIRST = /(index-.*\.(js|css)|_virtual_ready-sample.*\.js)$/;

async function watch(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const seen: number[] = [];
    Object.assign(window, { longTasks: seen });
    new PerformanceObserver((list) => seen.push(...list.getEntries().map((entry) => entry.duration))).observe({
      type: 'longtask',
      buffered: true,
    });
  });
}

async function taken(page: Page): Promise<{ count: number; longestMs: number }> {
  const tasks = await page.evaluate(() => (window as unknown as { longTasks: number[] }).longTasks.splice(0));
  return { count: tasks.length, longestMs: Math.round(Math.max(0, ...tasks)) };
}

async function settled(page: Page): Promise<void> {
  await page.waitForFunction(() => document.querySelectorAll('.card.is-done').length === 5, undefined, {
    timeout: 300_000,
  });
}

async function measure(): Promise<PageFigures> {
  const folder = mkdtempSync(join(tmpdir(), 'underlap-page-'));
  await buildPage(folder, true);
  const assets = join(folder, 'assets');
  const size = (name: string): number => gzipSync(readFileSync(join(assets, name))).length / 1024;
  const names = readdirSync(assets);
  const first = names.filter((name) => FIRST.test(name)).reduce((sum, name) => sum + size(name), 0);
  const workers = names.filter((name) => name.includes('worker')).reduce((sum, name) => sum + size(name), 0);

  const served = await servePage(folder);
  const browser = await openBrowser();
  const page = await (await browser.newContext({ viewport: { width: 1280, height: 800 } })).newPage();
  await watch(page);
  const longTasks: Record<string, { count: number; longestMs: number }> = {};
  const started = performance.now();
  await page.goto(served.url);
  await page.locator('.header-tools button').first().waitFor();
  const interactiveMs = performance.now() - started;
  await page.locator('.card-line', { hasText: 'used' }).waitFor({ timeout: 300_000 });
  const resultMs = performance.now() - started;
  await settled(page);
  longTasks['opening on the sample'] = await taken(page);

  const many = smallJob({ batch: 100, boards: [{ width: 1200, height: 800 }], bed: { width: 1300, height: 900 } });
  await page.setInputFiles('input[type=file]', {
    name: 'many.job.json',
    mimeType: 'text/plain',
    buffer: Buffer.from(many),
  });
  await page.locator('.card-line', { hasText: /^5 parts/ }).waitFor({ timeout: 300_000 });
  await settled(page);
  longTasks['laying out 500 pieces'] = await taken(page);

  await page.getByRole('button', { name: /^Boards/ }).click();
  await page.locator('.scene').focus();
  for (let i = 0; i < 20; i++) await page.keyboard.press(['+', 'ArrowLeft', 'ArrowDown', '-', 'n'][i % 5] ?? '0');
  await page.waitForTimeout(1000);
  longTasks['zooming and panning 500 pieces'] = await taken(page);

  await browser.close();
  await served.close();
  rmSync(folder, { recursive: true, force: true });
  const round = (value: number): number => Math.round(value * 10) / 10;
  return {
    firstLoadGzipKb: round(first),
    workersGzipKb: round(workers),
    interactiveMs: Math.round(interactiveMs),
    resultMs: Math.round(resultMs),
    longTasks,
  };
}

if (findBrowser() === null) {
  console.log('No Chromium, Chrome or Edge was found; CHROMIUM_PATH names one.');
} else {
  const figures = await measure();
  if (process.argv.includes('--json')) console.log(JSON.stringify(figures, null, 2));
  else {
    console.log(
      `first load, compressed   ${figures.firstLoadGzipKb} kB (workers: ${figures.workersGzipKb} kB more, fetched beside it)`,
    );
    console.log(`answers after            ${figures.interactiveMs} ms`);
    console.log(`sample's result after    ${figures.resultMs} ms`);
    for (const [what, { count, longestMs }] of Object.entries(figures.longTasks)) {
      console.log(`long tasks, ${what}: ${count}${count === 0 ? '' : `, longest ${longestMs} ms`}`);
    }
  }
}
