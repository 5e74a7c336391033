import { spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Browser, Page } from 'playwright-core';
import { buildPage, findBrowser, openBrowser, servePage } from '../support/page-browser.ts';
import { type ThreadUse, watchThread } from '../support/page-trace.ts';
import { smallJob } from '../support/page-user.ts';

/**
 * What the page costs: bytes of the first load, time until it answers and until the sample's result is there, and how long the
 * page's own thread is held by single tasks, by what was done. `--busy` keeps a second core at work meanwhile; `--json` prints one
 * object.
 */
interface PageFigures {
  readonly firstLoadGzipKb: number;
  readonly workersGzipKb: number;
  /** Of a page with a heading and nothing else, from the same server in the same browser. */
  readonly emptyPageMs: number;
  readonly interactiveMs: number;
  readonly resultMs: number;
  readonly thread: Readonly<Record<string, ThreadUse>>;
}

/** Files a browser fetches before anything is asked for: the page, its styles, its scripts, the ready sample. */
const FIRST = /(index-.*\.(js|css)|_virtual_ready-sample.*\.js)$/;
/** Times are the middle one of this many visits. */
const VISITS = 3;

async function settled(page: Page): Promise<void> {
  await page.waitForFunction(() => document.querySelectorAll('.card.is-done').length === 5, undefined, {
    timeout: 300_000,
  });
}

async function newPage(browser: Browser): Promise<Page> {
  return (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
}

/** Times of first visits, nothing kept by the browser. */
async function visit(
  browser: Browser,
  url: string,
): Promise<{ emptyMs: number; interactiveMs: number; resultMs: number }> {
  const page = await newPage(browser);
  await page.route('**/empty.html', (route) => route.fulfill({ contentType: 'text/html', body: '<h1>Empty</h1>' }));
  let started = performance.now();
  await page.goto(`${url}empty.html`);
  await page.locator('h1').waitFor();
  const emptyMs = performance.now() - started;
  started = performance.now();
  await page.goto(url);
  await page.locator('.header-tools button:not(:disabled)').first().click({ trial: true });
  const interactiveMs = performance.now() - started;
  await page.locator('.card-line', { hasText: 'used' }).waitFor({ timeout: 300_000 });
  const resultMs = performance.now() - started;
  await page.context().close();
  return { emptyMs, interactiveMs, resultMs };
}

async function measureThread(browser: Browser, url: string): Promise<Record<string, ThreadUse>> {
  const page = await newPage(browser);
  const thread: Record<string, ThreadUse> = {};
  const watch = async (what: string, use: () => Promise<void>): Promise<void> => {
    thread[what] = await watchThread(browser, page, use);
  };
  await page.route('**/empty.html', (route) => route.fulfill({ contentType: 'text/html', body: '<h1>Empty</h1>' }));
  await page.goto(`${url}empty.html`);
  await watch('the first visit', async () => {
    await page.goto(url);
    await settled(page);
    await page.waitForTimeout(1500);
  });
  await watch('the sample, laid out again', async () => {
    await page.getByLabel('Signs in the batch').fill('3');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Stop and keep this' }).waitFor({ timeout: 300_000 });
    await page.waitForTimeout(4000);
  });
  await page.getByRole('button', { name: 'Stop all work' }).click();
  const many = smallJob({ batch: 100, boards: [{ width: 1200, height: 800 }], bed: { width: 1300, height: 900 } });
  await watch('laying out 500 pieces', async () => {
    await page.setInputFiles('input[type=file]', {
      name: 'many.job.json',
      mimeType: 'text/plain',
      buffer: Buffer.from(many),
    });
    await page.locator('.card-line', { hasText: /^5 parts/ }).waitFor({ timeout: 300_000 });
    await settled(page);
    await page.waitForTimeout(1000);
  });
  await watch('going through the stages, 500 pieces', async () => {
    for (const stage of ['Artwork', 'Stack', 'Split', 'Boards', 'Files', 'Boards']) {
      await page.getByRole('button', { name: new RegExp(`^${stage}`) }).click();
      await page.waitForTimeout(300);
    }
  });
  await watch('zooming, panning and choosing, 500 pieces', async () => {
    await page.locator('.scene').focus();
    for (let i = 0; i < 30; i++) await page.keyboard.press(['+', 'ArrowLeft', 'ArrowDown', '-', 'n'][i % 5] ?? '0');
    await page.waitForTimeout(500);
  });
  await watch('pointing and keeping, 500 pieces', async () => {
    const box = await page.locator('.scene').boundingBox();
    for (let i = 0; i < 40; i++) await page.mouse.move((box?.x ?? 0) + 20 + i * 15, (box?.y ?? 0) + 60 + i * 8);
    await page.getByRole('button', { name: 'Keep this layout' }).click();
    await page.waitForTimeout(1500);
  });
  await page.context().close();
  return thread;
}

function middle(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;
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
  const visits = [];
  for (let i = 0; i < VISITS; i++) visits.push(await visit(browser, served.url));
  const thread = await measureThread(browser, served.url);
  await browser.close();
  await served.close();
  rmSync(folder, { recursive: true, force: true });
  return {
    firstLoadGzipKb: Math.round(first * 10) / 10,
    workersGzipKb: Math.round(workers * 10) / 10,
    emptyPageMs: Math.round(middle(visits.map((times) => times.emptyMs))),
    interactiveMs: Math.round(middle(visits.map((times) => times.interactiveMs))),
    resultMs: Math.round(middle(visits.map((times) => times.resultMs))),
    thread,
  };
}

function inWords(figures: PageFigures): string {
  const times = (ms: number): string =>
    `${ms} ms, ${Math.round(ms / Math.max(figures.emptyPageMs, 1))} x an empty page`;
  const uses = Object.entries(figures.thread).map(
    ([what, use]) =>
      `  ${what.padEnd(44)}${use.longTasks} long tasks (longest ${use.longestMs} ms); by processor time ${use.longTasksCpu} (longest ${use.longestCpuMs} ms); thread busy ${Math.round(use.busyShare * 100)} %`,
  );
  return [
    `first load, compressed   ${figures.firstLoadGzipKb} kB (workers: ${figures.workersGzipKb} kB more, fetched beside it)`,
    `answers after            ${times(figures.interactiveMs)}`,
    `sample's result after    ${times(figures.resultMs)}`,
    "tasks of the page's thread over 50 ms, by the clock and by processor time:",
    ...uses,
  ].join('\n');
}

if (findBrowser() === null) {
  console.log('No Chromium, Chrome or Edge was found; CHROMIUM_PATH names one.');
} else {
  const busy = process.argv.includes('--busy') ? spawn(process.execPath, ['-e', 'for (;;) Math.sqrt(2);']) : null;
  const figures = await measure().finally(() => busy?.kill());
  console.log(process.argv.includes('--json') ? JSON.stringify(figures, null, 2) : inWords(figures));
}
