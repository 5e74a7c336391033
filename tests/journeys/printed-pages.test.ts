import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { PDFiumLibrary } from '@hyzyla/pdfium';
import { createCanvas } from '@napi-rs/canvas';
import { jobFrom } from '@underlap/job/parse-job';
import { planJob } from '@underlap/job/plan-job';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { hasBrowser, openBrowser } from '../support/page-browser.ts';
import { harbourJob, PATIENCE_MS } from '../support/page-user.ts';

/** Pixels to the point: 100 to the inch. */
const SCALE = 100 / 72;

/** Printers reach no nearer to the edge, mm (common practice, no source); the pages ask for more. */
const UNPRINTABLE_MM = 6;

const PAPERS = { A4: [210, 297], Letter: [215.9, 279.4] } as const;
type Paper = keyof typeof PAPERS;

interface PrintedPage {
  /** mm */
  readonly width: number;
  readonly height: number;
  /** Is anything dark within the edge that no printer reaches? */
  readonly isCutOff: boolean;
  /** Share of the paper that is dark. */
  readonly ink: number;
}

/** What the pages leave free on both sides together, mm: see their style. */
const SIDE_MARGINS_MM = 24;

/** Where pictures of the pages are written, for looking at them; left out = nowhere. */
const LOOK = process.env.PRINTED_PAGES;

describe.skipIf(!hasBrowser())('what is printed', { timeout: PATIENCE_MS }, () => {
  let browser: Browser;
  let papers: ReadonlyMap<string, string>;
  let sheets = 0;
  beforeAll(async () => {
    browser = await openBrowser();
    const job = jobFrom(JSON.parse(harbourJob({ batch: 2, effort: 1 })), 'harbour sign');
    const { files, report } = await planJob(job);
    papers = new Map([...files].flatMap(([name, text]) => (typeof text === 'string' ? [[name, text] as const] : [])));
    sheets = report.sheets.filter(({ sameAs }) => sameAs === null).length;
  }, PATIENCE_MS);
  afterAll(() => browser?.close());

  /** A page of the shop as it leaves the printer. */
  async function printed(
    html: string,
    paper: Paper,
    name: string,
  ): Promise<{ readonly pages: readonly PrintedPage[]; readonly tooWidePx: number }> {
    const page = await browser.newPage();
    await page.setContent(html);
    await page.emulateMedia({ media: 'print' });
    // A browser prints smaller what is too wide, until nobody can read it.
    await page.setViewportSize({ width: Math.floor(((PAPERS[paper][0] - SIDE_MARGINS_MM) / 25.4) * 96), height: 900 });
    const tooWidePx = await page.locator('html').evaluate((root) => root.scrollWidth - root.clientWidth);
    const bytes = await page.pdf({ format: paper, preferCSSPageSize: false });
    await page.close();
    const library = await PDFiumLibrary.init();
    const document = await library.loadDocument(bytes);
    try {
      const pages: PrintedPage[] = [];
      for (const one of document.pages()) {
        const { width, height, data } = await one.render({ scale: SCALE, render: 'bitmap' });
        if (LOOK !== undefined) save(join(LOOK, `${name}-${paper}-${pages.length + 1}.png`), { width, height, data });
        const edge = Math.floor((UNPRINTABLE_MM / 25.4) * 100);
        let [dark, atEdge] = [0, 0];
        for (let i = 0; i < width * height; i++) {
          if (data[4 * i + 1]! > 200) continue;
          dark++;
          const [x, y] = [i % width, Math.floor(i / width)];
          if (x < edge || y < edge || x >= width - edge || y >= height - edge) atEdge++;
        }
        const mm = (pixels: number) => (pixels / 100) * 25.4;
        pages.push({
          width: mm(width),
          height: mm(height),
          isCutOff: atEdge > 0,
          ink: dark / (width * height),
        });
      }
      return { pages, tooWidePx };
    } finally {
      document.destroy();
      library.destroy();
    }
  }

  it.each(['A4', 'Letter'] as const)('fills pages of %s without cutting anything off', async (paper) => {
    const [short, long] = PAPERS[paper];
    for (const name of ['report.html', 'build-guide.html']) {
      const { pages, tooWidePx } = await printed(papers.get(name)!, paper, name.replace('.html', ''));
      expect(pages.length, name).toBeGreaterThan(1);
      expect(tooWidePx, name).toBeLessThanOrEqual(0);
      for (const [at, { width, height, isCutOff, ink }] of pages.entries()) {
        const which = `${name}, page ${at + 1} of ${pages.length}`;
        expect(Math.abs(Math.min(width, height) - short), which).toBeLessThan(1);
        expect(Math.abs(Math.max(width, height) - long), which).toBeLessThan(1);
        expect(isCutOff, which).toBe(false);
        // No page is left all but empty.
        expect(ink, which).toBeGreaterThan(0.002);
      }
      // One page a board at least, and all of them upright.
      if (name === 'report.html') expect(pages.length).toBeGreaterThan(sheets);
      expect(pages.every(({ width, height }) => width < height)).toBe(true);
    }
  });

  it('is noticed when something is too wide (a faulty twin)', async () => {
    const wide = papers
      .get('build-guide.html')!
      .replace('<main>', '<main><div style="width:400mm;border:1mm solid #000">wide</div>');
    expect((await printed(wide, 'A4', 'faulty')).tooWidePx).toBeGreaterThan(100);
  });
});

function save(path: string, { width, height, data }: { width: number; height: number; data: Uint8Array }): void {
  mkdirSync(join(path, '..'), { recursive: true });
  const canvas = createCanvas(width, height);
  const context = canvas.getContext('2d');
  const image = context.createImageData(width, height);
  image.data.set(data);
  context.putImageData(image, 0, 0);
  writeFileSync(path, canvas.toBuffer('image/png'));
}
