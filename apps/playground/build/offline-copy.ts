import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import type { Plugin } from 'vite';

/**
 * After a build, writes `sw.js` beside the page: a service worker that knows every file of this build by name and a
 * fingerprint of their contents, so that the page opens without a network after the first visit and a new build replaces
 * the old copy as a whole.
 */
export function offlineCopy(): Plugin {
  let source = '';
  return {
    name: 'offline-copy',
    apply: 'build',
    configResolved(config) {
      source = readFileSync(join(config.root, 'src/offline/service-worker.js'), 'utf8');
    },
    writeBundle(options) {
      const folder = options.dir;
      if (folder === undefined) return;
      const files = filesBelow(folder)
        .map((file) => relative(folder, file).split(sep).join('/'))
        .filter((file) => file !== 'sw.js' && !file.endsWith('.map'))
        .sort();
      const fingerprint = createHash('sha256');
      for (const file of files) fingerprint.update(file).update(readFileSync(join(folder, file)));
      const text = source
        .replace('__FINGERPRINT__', fingerprint.digest('hex').slice(0, 16))
        .replace(/\['__FILES__'\]/, JSON.stringify(['./', ...files.map((file) => `./${file}`)]));
      if (text.includes('__')) throw new Error('service-worker.js lacks a place for the files or the fingerprint');
      writeFileSync(join(folder, 'sw.js'), text);
    },
  };
}

function filesBelow(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) =>
    entry.isDirectory() ? filesBelow(join(folder, entry.name)) : [join(folder, entry.name)],
  );
}
