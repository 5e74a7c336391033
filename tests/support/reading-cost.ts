import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { ReadingCost } from './read-large.ts';

const PROGRAM = fileURLToPath(new URL('read-large.ts', import.meta.url));

/**
 * Read a drawing in a process of its own.
 * @param heapMb - largest heap that it may have; the engine's own choice when left out.
 * @returns null when the process ended early, as it does when the heap is used up.
 */
export function readingCost(text: string, heapMb?: number): ReadingCost | null {
  const folder = mkdtempSync(join(tmpdir(), 'large-drawing-'));
  try {
    const file = join(folder, 'drawing');
    writeFileSync(file, text);
    const limit = heapMb === undefined ? [] : [`--max-old-space-size=${Math.ceil(heapMb)}`];
    const child = spawnSync(process.execPath, [...limit, '--expose-gc', '--import', 'tsx', PROGRAM, file], {
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'ignore'],
    });
    return child.status === 0 ? (JSON.parse(child.stdout) as ReadingCost) : null;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Heap of the program itself, megabytes: compiled sources and the loader. */
export const PROGRAM_HEAP_MB = 30;
