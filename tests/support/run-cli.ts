import { spawn } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { vi } from 'vitest';

/** Root of the project. */
export const ROOT = fileURLToPath(new URL('../..', import.meta.url));

/** What a run of the command line left. */
export interface CliRun {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/**
 * Run the real command line as a process of its own.
 * @param interrupt - the process gets SIGINT after so many milliseconds, or once its messages hold the text.
 */
export function runCli(args: readonly string[], interrupt?: number | string): Promise<CliRun> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [join(ROOT, 'apps/cli/bin/underlap.js'), ...args], { cwd: ROOT });
    let stdout = '';
    let stderr = '';
    let isInterrupted = false;
    child.stdout.on('data', (data) => {
      stdout += String(data);
    });
    child.stderr.on('data', (data) => {
      stderr += String(data);
      if (typeof interrupt === 'string' && !isInterrupted && stderr.includes(interrupt)) {
        isInterrupted = true;
        child.kill('SIGINT');
      }
    });
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, stdout, stderr }));
    if (typeof interrupt === 'number') setTimeout(() => child.kill('SIGINT'), interrupt);
  });
}

/**
 * The same within this process, one run at a time: for runs whose answer is looked at and not the start of the program, which
 * takes seconds from the sources.
 */
export async function runWithin(args: readonly string[]): Promise<CliRun> {
  const { main } = await import('../../apps/cli/src/main.ts');
  const told = { stdout: '', stderr: '' };
  const spies = (['stdout', 'stderr'] as const).map((name) =>
    vi.spyOn(process[name], 'write').mockImplementation((text) => {
      told[name] += String(text);
      return true;
    }),
  );
  try {
    return { code: await main(args), ...told };
  } finally {
    for (const spy of spies) spy.mockRestore();
  }
}

/** A folder of one's own that nobody else writes to. */
export function freshFolder(): string {
  return mkdtempSync(join(tmpdir(), 'underlap-'));
}

/** Write a text beside others in a fresh folder and return its path. */
export function fileWith(name: string, content: string, folder = freshFolder()): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

/** A sign of four parts that is quickly planned: a plate of 260 x 180 mm, a strip across it, two discs with a hole. */
export const SMALL_SIGN = `<svg xmlns="http://www.w3.org/2000/svg" width="280mm" height="200mm" viewBox="0 0 280 200">
<rect id="plate" x="10" y="10" width="260" height="180" fill="#7fb2c8"/>
<rect id="strip" x="5" y="70" width="270" height="60" fill="#23395b"/>
<path id="ring-1" fill="#f2b632" fill-rule="evenodd" d="M40 35A20 20 0 1 1 80 35A20 20 0 1 1 40 35ZM52 35A8 8 0 1 0 68 35A8 8 0 1 0 52 35Z"/>
<path id="leaf" fill="#c8452f" d="M150 20C180 15 200 30 210 50C180 60 160 45 150 20Z"/>
</svg>
`;
