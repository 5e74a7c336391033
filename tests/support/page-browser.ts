import { existsSync, readFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Browser, chromium } from 'playwright-core';
import { build, preview } from 'vite';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

/** Where browsers that Playwright can drive usually lie. */
const USUAL_PLACES = [
  process.env.CHROMIUM_PATH ?? '',
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
  '/usr/bin/microsoft-edge',
  '/snap/bin/chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe',
];

/** The first browser found, or null. */
export function findBrowser(): string | null {
  return USUAL_PLACES.find((place) => place !== '' && existsSync(place)) ?? null;
}

/**
 * Is there a browser for the journeys? When there is none, says so once; on a build server (CI=true) that is an error.
 */
export function hasBrowser(): boolean {
  if (findBrowser() !== null) return true;
  const words =
    'No Chromium, Chrome or Edge was found (CHROMIUM_PATH names one): the journeys through the page are left out.';
  if (process.env.CI === 'true') throw new Error(words);
  console.warn(words);
  return false;
}

export async function openBrowser(): Promise<Browser> {
  const executablePath = findBrowser();
  if (executablePath === null) throw new Error('no browser was found');
  return chromium.launch({ executablePath, headless: true, args: ['--no-sandbox'] });
}

/**
 * The page built as it is published, in a folder of its own.
 * @param withSample - with the sample's result in it, which takes as long as planning it (once for the same sources).
 */
export async function buildPage(outDir: string, withSample: boolean): Promise<void> {
  // The test runner calls its environment 'test'; a build in it would not be the page that is published.
  const before = process.env.NODE_ENV;
  process.env.NODE_ENV = 'production';
  try {
    await build({
      mode: withSample ? 'production' : 'plain',
      root: join(ROOT, 'apps/playground'),
      logLevel: 'error',
      build: { outDir, emptyOutDir: true },
    });
  } finally {
    process.env.NODE_ENV = before;
  }
}

const MIME: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.webmanifest': 'application/manifest+json',
};

export interface ServedPage {
  /** Ends with a slash; lies under a sub-path, as on a web host that serves more than this page. */
  readonly url: string;
  close(): Promise<void>;
}

/** Serve a built page from a folder, under a sub-path, as any static web host does. */
export async function servePage(folder: string): Promise<ServedPage> {
  const base = '/shop/underlap/';
  const server: Server = createServer((request, response) => {
    const path = decodeURIComponent(new URL(request.url ?? '/', 'http://localhost').pathname);
    const file = normalize(join(folder, path.slice(base.length) || 'index.html'));
    if (!path.startsWith(base) || !file.startsWith(folder) || !existsSync(file)) {
      response.writeHead(404).end();
      return;
    }
    response.writeHead(200, { 'content-type': MIME[extname(file)] ?? 'application/octet-stream' });
    response.end(readFileSync(file));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  return {
    url: `http://127.0.0.1:${port}${base}`,
    close: () =>
      new Promise((resolve) => {
        server.closeAllConnections();
        server.close(() => resolve());
      }),
  };
}

/** Serve a built page as `npm start` does, by vite's preview server with the page's own settings. */
export async function previewPage(folder: string): Promise<ServedPage> {
  const server = await preview({
    root: join(ROOT, 'apps/playground'),
    logLevel: 'error',
    build: { outDir: folder },
    preview: { host: '127.0.0.1', port: 0, open: false },
  });
  const url = server.resolvedUrls?.local[0];
  if (url === undefined) throw new Error('the preview server has no address');
  return { url, close: () => server.close() };
}
