import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { createServer, type Plugin } from 'vite';

const NAME = 'virtual:ready-sample';

/**
 * The first sample with its results, made by the page's own stages while the page is built, so that it opens with the result
 * already there (a build in mode `plain` does without). While developing it is there as soon as it is made, and the page's worker makes its own until then.
 */
export function readySample(): Plugin {
  let root = '';
  let isBuild = false;
  let made: Promise<string> | null = null;
  let ready: string | null = null;
  const make = (): Promise<string> => {
    made ??= planOrRecall(root).then((text) => {
      ready = text;
      return text;
    });
    return made;
  };
  return {
    name: 'ready-sample',
    configResolved(config) {
      root = config.root;
      isBuild = config.command === 'build' && config.mode !== 'plain';
    },
    configureServer() {
      make().catch((error: unknown) => console.warn('The sample was not made ready:', error));
    },
    resolveId: (id) => (id === NAME ? `\0${NAME}` : null),
    async load(id) {
      if (id !== `\0${NAME}`) return null;
      const text = isBuild ? await make() : ready;
      return `export const readySample = ${text === null ? 'null' : JSON.stringify(text)};`;
    },
  };
}

/** A sample planned by the very same sources before is not planned again. */
async function planOrRecall(root: string): Promise<string> {
  const repository = join(root, '../..');
  const hash = createHash('sha256');
  for (const folder of ['packages', 'samples', 'apps/playground/src']) hashFolder(join(repository, folder), hash);
  const kept = join(repository, 'node_modules/.cache/underlap', `${hash.digest('hex').slice(0, 32)}.json`);
  if (existsSync(kept)) return readFileSync(kept, 'utf8');
  const text = await plan(root);
  mkdirSync(dirname(kept), { recursive: true });
  writeFileSync(kept, text);
  return text;
}

/** Sources and samples by name and content; styles and views do not change a plan. */
function hashFolder(folder: string, hash: ReturnType<typeof createHash>): void {
  for (const entry of readdirSync(folder, { withFileTypes: true }).sort((a, b) => (a.name < b.name ? -1 : 1))) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) {
      if (!['node_modules', 'views', 'style', 'scene', 'sentence', 'storage'].includes(entry.name))
        hashFolder(path, hash);
    } else if (/\.(ts|svg|json)$/.test(entry.name) && !/\.test\.ts$/.test(entry.name)) {
      hash.update(entry.name).update(readFileSync(path));
    }
  }
}

async function plan(root: string): Promise<string> {
  const samples = join(root, '../../samples');
  const server = await createServer({
    root,
    configFile: false,
    logLevel: 'error',
    appType: 'custom',
    server: { middlewareMode: true, ws: false, watch: null },
    optimizeDeps: { noDiscovery: true },
  });
  try {
    const { makeReady } = await server.ssrLoadModule('/src/ready/make-ready.ts');
    const text = (name: string): string => readFileSync(join(samples, name), 'utf8');
    return await makeReady(text('harbour-sign.job.json'), text('harbour-sign.svg'));
  } finally {
    await server.close();
  }
}
