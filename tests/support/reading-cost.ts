import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { ProcessCost } from './read-large.ts';

const PROGRAM = fileURLToPath(new URL('read-large.ts', import.meta.url));

const TINY = '<svg xmlns="http://www.w3.org/2000/svg" width="9mm" height="9mm"><path d="M0 0h1v1z"/></svg>';

/** What reading a drawing takes beyond what the program takes to read a tiny one. */
export interface ReadingCost extends ProcessCost {
  /** Memory of the process at its highest less that of one that reads a tiny drawing: garbage, text and bytes included. */
  readonly grownBytes: number;
}

let tiny: number | null = null;

/**
 * Read a drawing in a process of its own.
 * @param form - `unpacked` holds every segment as an object (the faulty twin of the tests).
 */
export function readingCost(text: string, form: 'packed' | 'unpacked' = 'packed'): ReadingCost {
  tiny ??= middle([processCost(TINY), processCost(TINY), processCost(TINY)].map(({ peakBytes }) => peakBytes));
  const cost = processCost(text, form);
  return { ...cost, grownBytes: cost.peakBytes - tiny };
}

function processCost(text: string, form = 'packed'): ProcessCost {
  const folder = mkdtempSync(join(tmpdir(), 'large-drawing-'));
  try {
    const file = join(folder, 'drawing');
    writeFileSync(file, text);
    const child = spawnSync(process.execPath, ['--expose-gc', '--import', 'tsx', PROGRAM, file, form], {
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    if (child.status !== 0) throw new Error(`reading failed: ${child.stderr.slice(0, 400)}`);
    return JSON.parse(child.stdout) as ProcessCost;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function middle(values: number[]): number {
  return values.sort((a, b) => a - b)[values.length >> 1]!;
}
