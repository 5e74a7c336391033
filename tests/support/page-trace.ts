import type { Browser, CDPSession, Page } from 'playwright-core';

/** What the page's own thread did during a stretch of use. */
export interface ThreadUse {
  /** Tasks over 50 ms by the clock, as a user feels them on this machine under its present load. */
  readonly longTasks: number;
  readonly longestMs: number;
  /** Tasks over 50 ms of processor time: what the page itself is to blame for. */
  readonly longTasksCpu: number;
  readonly longestCpuMs: number;
  /** Share of the time in which the thread was at work. */
  readonly busyShare: number;
}

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  readonly ts: number;
  readonly dur?: number;
  readonly tdur?: number;
}

const LONG_US = 50_000;
const MARK = 'underlap-bench';

/**
 * Watch the page's thread while something is done, by the browser's own trace of tasks.
 * @remarks Starting and ending the trace themselves take the thread some ten milliseconds; both lie outside of the marks and are not
 * counted.
 */
export async function watchThread(browser: Browser, page: Page, use: () => Promise<void>): Promise<ThreadUse> {
  const cdp: CDPSession = await browser.newBrowserCDPSession();
  const events: TraceEvent[] = [];
  cdp.on('Tracing.dataCollected', ({ value }) => events.push(...(value as unknown as TraceEvent[])));
  const mark = (): Promise<void> =>
    page.evaluate(
      (name) =>
        new Promise<void>((resolve) => {
          performance.mark(name);
          setTimeout(resolve, 0);
        }),
      MARK,
    );
  await cdp.send('Tracing.start', {
    traceConfig: { includedCategories: ['toplevel', 'blink.user_timing'] },
    transferMode: 'ReportEvents',
  });
  // the beginning of a trace interrupts the thread once; let that pass
  await page.waitForTimeout(200);
  await mark();
  await use();
  await mark();
  const complete = new Promise<void>((resolve) => cdp.once('Tracing.tracingComplete', () => resolve()));
  await cdp.send('Tracing.end');
  await complete;
  await cdp.detach();
  return threadUse(events);
}

function threadUse(events: readonly TraceEvent[]): ThreadUse {
  const marks = events.filter((event) => event.name === MARK).sort((a, b) => a.ts - b.ts);
  const first = marks[0];
  const last = marks.at(-1);
  if (first === undefined || last === undefined || first === last) throw new Error('the trace lacks its marks');
  const tasks = events.filter(
    ({ name, ph, pid, tid, ts }) =>
      ph === 'X' && name.endsWith('RunTask') && pid === first.pid && tid === first.tid && ts > first.ts && ts < last.ts,
  );
  const walls = tasks.map((task) => task.dur ?? 0);
  const cpus = tasks.map((task) => task.tdur ?? 0);
  const isLong = (us: number): boolean => us > LONG_US;
  const ms = (values: readonly number[]): number => Math.round(Math.max(0, ...values) / 1000);
  return {
    longTasks: walls.filter(isLong).length,
    longestMs: ms(walls),
    longTasksCpu: cpus.filter(isLong).length,
    longestCpuMs: ms(cpus),
    busyShare: cpus.reduce((sum, us) => sum + us, 0) / (last.ts - first.ts),
  };
}
