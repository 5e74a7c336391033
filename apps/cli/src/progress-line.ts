import { tell } from './print.ts';

/** Words for the stages, as a maker would say them. */
const STAGES: Readonly<Record<string, string>> = {
  read: 'reading the artwork',
  sign: 'finding the parts',
  split: 'splitting what does not fit',
  cut: 'kerf and marks',
  nest: 'laying out the boards',
  check: 'checking',
  files: 'writing',
};

/** Least time between two drawings of the line, ms. */
const PAUSE_MS = 80;

/** One line on the terminal that tells how far a job is; silent when nobody watches. */
export class ProgressLine {
  readonly #isShown: boolean;
  readonly #isTold: boolean;
  readonly #prefix: string;
  #last = 0;
  #isDrawn = false;

  constructor(isWanted: boolean, prefix = '') {
    this.#isShown = isWanted && process.stderr.isTTY === true;
    this.#isTold = isWanted || process.stderr.isTTY === true;
    this.#prefix = prefix;
  }

  show(progress: { readonly stage: string; readonly done: number; readonly message?: string }): void {
    if (!this.#isShown) return;
    const now = Date.now();
    if (now - this.#last < PAUSE_MS && progress.done < 1) return;
    this.#last = now;
    const width = 24;
    const full = Math.round(progress.done * width);
    const bar = `${'#'.repeat(full)}${'.'.repeat(width - full)}`;
    const words = [STAGES[progress.stage] ?? progress.stage, progress.message].filter(Boolean).join(': ');
    const line = `${this.#prefix}[${bar}] ${String(Math.round(progress.done * 100)).padStart(3)} %  ${words}`;
    process.stderr.write(`\r\x1b[2K${line.slice(0, (process.stderr.columns ?? 100) - 1)}`);
    this.#isDrawn = true;
  }

  /** A sentence above the line that stays; told also where nobody watches the line, such as in a log. */
  say(text: string): void {
    if (!this.#isTold) return;
    this.clear();
    tell(`${this.#prefix}${text}\n`);
  }

  /** Take the line away, so that what follows stands alone. */
  clear(): void {
    if (this.#isDrawn) process.stderr.write('\r\x1b[2K');
    this.#isDrawn = false;
  }
}
