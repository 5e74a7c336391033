import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

/** One drawing of a corpus, read when asked for. */
export interface CorpusFile {
  /** Folder and file; some are marks of firms, so lists of exceptions go by the place among the files. */
  readonly name: string;
  read(): string;
}

const require = createRequire(import.meta.url);

/** The folder of an installed package's own files. */
function folderOf(packageFile: string, folder: string): CorpusFile[] {
  const directory = join(dirname(packageFile), folder);
  return readdirSync(directory)
    .filter((name) => name.endsWith('.svg'))
    .sort()
    .map((name) => ({ name: `${folder}/${name}`, read: () => readFileSync(join(directory, name), 'utf8') }));
}

/**
 * Thousands of drawings by many hands, as development dependencies:
 * - @mdi/svg 7.4.47, Apache License 2.0 (7,447 files: one path each, compact numbers and flags, relative commands);
 * - bootstrap-icons 1.13, MIT (2,078 files: several shapes each, fill rules, inherited fills).
 */
export function iconCorpus(): CorpusFile[] {
  return [
    ...folderOf(require.resolve('@mdi/svg/package.json'), 'svg'),
    ...folderOf(require.resolve('bootstrap-icons/package.json'), 'icons'),
  ];
}

/** The files that are compared with outsiders: every file of the smaller set and every second of the larger one, 5,802 in all. */
export function comparedIcons(): CorpusFile[] {
  return iconCorpus().filter((file, index) => !file.name.startsWith('svg/') || index % 2 === 0);
}
