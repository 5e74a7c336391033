import { readFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { unzipSync } from 'fflate';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { builtPage } from './built-page.ts';
import { openBrowser, type ServedPage, servePage } from './page-browser.ts';

/** Patience with a busy machine, ms; nothing here asserts a time. */
export const PATIENCE_MS = 180_000;

/** The build plans the sample as well. */
export const BUILD_PATIENCE_MS = 600_000;

/** A built and served page with a browser before it. */
export interface Workshop {
  readonly url: string;
  /** Of the built page. */
  readonly folder: string;
  readonly browser: Browser;
  close(): Promise<void>;
}

export async function openWorkshop(withSample: boolean): Promise<Workshop> {
  const folder = await builtPage(withSample);
  const served: ServedPage = await servePage(folder);
  const browser = await openBrowser();
  return {
    url: served.url,
    folder,
    browser,
    close: async () => {
      await browser.close();
      await served.close();
    },
  };
}

/** A user of the page: what a person does with it, in a person's words. */
export class User {
  private constructor(
    readonly page: Page,
    readonly context: BrowserContext,
    /** Errors that reached the browser's console. */
    readonly faults: readonly string[],
  ) {}

  static async arrive(
    workshop: Pick<Workshop, 'url' | 'browser'>,
    size: { width: number; height: number } = { width: 1280, height: 800 },
    look: 'light' | 'dark' = 'light',
    context?: BrowserContext,
    /** What shows that the page stands; without a worker no job does. */
    awaited: '.header-job' | '.header-tools' = '.header-job',
  ): Promise<User> {
    const own = context ?? (await workshop.browser.newContext({ viewport: size, colorScheme: look, locale: 'en-GB' }));
    own.setDefaultTimeout(PATIENCE_MS);
    const page = await own.newPage();
    const faults: string[] = [];
    page.on('pageerror', (error) => faults.push(error.message));
    page.on('console', (message) => {
      if (message.type() === 'error') faults.push(message.text());
    });
    await page.goto(workshop.url);
    await page.waitForSelector(awaited);
    return new User(page, own, faults);
  }

  async leave(): Promise<void> {
    await this.context.close();
  }

  async openText(name: string, text: string): Promise<void> {
    await this.page.setInputFiles('input[type=file]', { name, mimeType: 'text/plain', buffer: Buffer.from(text) });
  }

  /** Open a job and wait until it has taken the place of what was on the desk: a page that has just begun finishes that first. */
  async openJob(name: string, text: string): Promise<void> {
    await this.openText(name, text);
    await this.page.getByText(`The job ${name} is open.`).waitFor();
  }

  async look(stage: 'Artwork' | 'Stack' | 'Split' | 'Boards' | 'Files'): Promise<void> {
    await this.page.getByRole('button', { name: new RegExp(`^${stage}`) }).click();
    await this.page.locator(`#stage[aria-label="Stage: ${stage}" i]`).waitFor();
  }

  /** Wait until the line below a picture says so. */
  async reads(stage: string, words: RegExp): Promise<string> {
    const line = this.page
      .locator('.card', { has: this.page.locator('.card-title', { hasText: stage }) })
      .locator('.card-line');
    await line.filter({ hasText: words }).waitFor();
    return (await line.textContent()) ?? '';
  }

  /** Wait until everything is up to date. */
  async settled(): Promise<void> {
    await this.page.waitForFunction(() => document.querySelectorAll('.card.is-done').length === 5);
  }

  /** Fill an editable place of a sentence. */
  async fill(label: string | RegExp, text: string): Promise<void> {
    const place = this.page.getByLabel(label).first();
    await place.fill(text);
    await place.press('Enter');
  }

  async press(name: string | RegExp): Promise<void> {
    await this.page.getByRole('button', { name }).first().click();
  }

  /** Take a file that the page hands over. */
  async take(name: string | RegExp): Promise<{ name: string; bytes: Uint8Array }> {
    const waiting = this.page.waitForEvent('download');
    await this.press(name);
    const download = await waiting;
    return { name: download.suggestedFilename(), bytes: new Uint8Array(await readFile(await download.path())) };
  }

  /** The archive with everything, opened. */
  async archive(): Promise<Readonly<Record<string, Uint8Array>>> {
    await this.look('Files');
    const { bytes } = await this.take('Take everything in one archive');
    return unzipSync(bytes);
  }
}

export function textOf(files: Readonly<Record<string, Uint8Array>>, name: string): string {
  const bytes = files[name];
  if (bytes === undefined) throw new Error(`there is no ${name} among ${Object.keys(files).join(', ')}`);
  return new TextDecoder().decode(bytes);
}

/** A small sign of a harbour: backer, banner, letters, sun. `size` is written as the file's own; null leaves it open. */
export function smallSign(size: 'mm' | null = 'mm'): string {
  const told = size === 'mm' ? 'width="300mm" height="220mm" ' : '';
  return `<svg xmlns="http://www.w3.org/2000/svg" ${told}viewBox="0 0 300 220">
  <path id="backer" fill="#7fb2c8" d="M20 110C20 40 80 10 150 10C220 10 280 40 280 110C280 180 220 210 150 210C80 210 20 180 20 110Z"/>
  <path id="banner" fill="#23395b" d="M5 80C100 70 200 70 295 80V145C200 135 100 135 5 145Z"/>
  <rect id="letter-i" fill="#f4ead2" x="120" y="90" width="12" height="36"/>
  <rect id="letter-l" fill="#f4ead2" x="150" y="90" width="12" height="36"/>
  <circle id="sun" fill="#f0a23a" cx="150" cy="45" r="22"/>
</svg>`;
}

/** A job for it that is planned quickly. */
export function smallJob(change: Readonly<Record<string, unknown>> = {}): string {
  return JSON.stringify({
    version: 1,
    name: 'Small sign',
    artwork: { text: smallSign(), name: 'small.svg' },
    bed: { width: 520, height: 320 },
    boards: [{ width: 508, height: 305 }],
    batch: 2,
    effort: 'quick',
    ...change,
  });
}

/** The first sample as one job file with its artwork inside. */
export function harbourJob(change: Readonly<Record<string, unknown>> = {}): string {
  const read = (name: string): string => readFileSync(new URL(`../../samples/${name}`, import.meta.url), 'utf8');
  const job: unknown = JSON.parse(read('harbour-sign.job.json'));
  const artwork = { text: read('harbour-sign.svg'), name: 'harbour-sign.svg' };
  return JSON.stringify({ ...(job as object), artwork, ...change });
}
