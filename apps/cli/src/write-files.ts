import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { FileError } from './exit.ts';

/** Folders that are being filled; emptied by `removeUnfinished` when the program is stopped. */
const unfinished = new Set<string>();

/**
 * Write files into a folder, all or none: they are written beside it first and moved in when every one is complete. Sheets
 * of an earlier run, as told by its report, are taken away so that nobody cuts them by mistake; other files stay, and so do
 * those of sheets that are finished.
 * @param files - by name, without folders.
 * @returns absolute paths in order.
 * @throws FileError when the folder cannot be made or written; nothing is left behind then.
 */
export function writeFolder(folder: string, files: ReadonlyMap<string, string | Uint8Array>): string[] {
  const target = resolve(folder);
  if (existsSync(target) && !statSync(target).isDirectory()) {
    throw new FileError(`${folder} is a file: name a folder with --out.`, { file: folder });
  }
  let draft: string | null = null;
  try {
    mkdirSync(dirname(target), { recursive: true });
    draft = join(dirname(target), `.${basename(target)}-${process.pid}-${Date.now().toString(36)}`);
    unfinished.add(draft);
    mkdirSync(draft);
    for (const [name, content] of files) writeFileSync(join(draft, name), content);
    if (existsSync(target)) {
      const stale = sheetsOf(target, finishedIn(files)).filter((name) => !files.has(name));
      for (const name of files.keys()) renameSync(join(draft, name), join(target, name));
      for (const name of stale) rmSync(join(target, name), { force: true });
      rmSync(draft, { recursive: true, force: true });
    } else {
      renameSync(draft, target);
    }
    unfinished.delete(draft);
  } catch (error) {
    if (draft !== null) rmSync(draft, { recursive: true, force: true });
    const why = error instanceof Error ? error.message : String(error);
    throw new FileError(`The files cannot be written to ${folder}: ${why}.`, { file: folder });
  }
  return [...files.keys()].map((name) => join(target, name));
}

/** Several folders below one, '.' being that one itself; written in turn, the folder itself last. */
export function writeTree(
  folder: string,
  folders: ReadonlyMap<string, ReadonlyMap<string, string | Uint8Array>>,
): void {
  for (const [name, files] of folders) if (name !== '.') writeFolder(join(folder, name), files);
  const own = folders.get('.');
  if (own !== undefined) writeFolder(folder, own);
}

/** Write one file, whole or not at all. */
export function writeOne(path: string, content: string | Uint8Array): void {
  const target = resolve(path);
  const draft = `${target}.${process.pid}.part`;
  try {
    mkdirSync(dirname(target), { recursive: true });
    unfinished.add(draft);
    writeFileSync(draft, content);
    renameSync(draft, target);
    unfinished.delete(draft);
  } catch (error) {
    rmSync(draft, { force: true });
    const why = error instanceof Error ? error.message : String(error);
    throw new FileError(`${path} cannot be written: ${why}.`, { file: path });
  }
}

/** What a stopped program must not leave. */
export function removeUnfinished(): void {
  for (const path of unfinished) rmSync(path, { recursive: true, force: true });
  unfinished.clear();
}

/** Ids of the sheets that a report among new files tells as finished. */
function finishedIn(files: ReadonlyMap<string, string | Uint8Array>): ReadonlySet<unknown> {
  const report = files.get('report.json');
  if (typeof report !== 'string') return new Set();
  const { finished } = JSON.parse(report) as { finished?: { id?: unknown }[] };
  return new Set((finished ?? []).map(({ id }) => id));
}

/** Files of sheets that the report in a folder speaks of, without those that belong to a finished sheet. */
function sheetsOf(folder: string, finished: ReadonlySet<unknown>): string[] {
  try {
    const report = JSON.parse(readFileSync(join(folder, 'report.json'), 'utf8')) as {
      sheets?: { id?: unknown; files?: unknown[] }[];
      paintPlan?: { bare?: { files?: unknown[] }[] };
    };
    const sheets = report.sheets ?? [];
    const kept = new Set(sheets.filter(({ id }) => finished.has(id)).flatMap(({ files }) => files ?? []));
    const masks = (report.paintPlan?.bare ?? []).flatMap(({ files }) => files ?? []);
    return [...sheets.flatMap((sheet) => sheet.files ?? []), ...masks]
      .filter((name) => !kept.has(name))
      .filter((name): name is string => typeof name === 'string' && basename(name) === name && name !== '');
  } catch {
    return [];
  }
}
