/** One change with a name a person can read ('bed 520 x 320 mm'). */
export interface Step<T> {
  readonly name: string;
  readonly before: T;
  readonly after: T;
  /** Changes with the same key that follow each other closely count as one (dragging, typing); null = never. */
  readonly mergeKey: string | null;
  readonly atMs: number;
}

export interface History<T> {
  readonly present: T;
  readonly past: readonly Step<T>[];
  /** Nearest first. */
  readonly future: readonly Step<T>[];
}

/** More steps than anybody walks back; older ones are forgotten. */
const STEPS_KEPT = 100;
const MERGE_WITHIN_MS = 1200;

export function startHistory<T>(present: T): History<T> {
  return { present, past: [], future: [] };
}

/** Add a step; what had been undone is given up, as everywhere. An unchanged value adds nothing. */
export function takeStep<T>(
  history: History<T>,
  name: string,
  after: T,
  atMs: number,
  mergeKey: string | null = null,
): History<T> {
  if (Object.is(after, history.present)) return history;
  const last = history.past.at(-1);
  const isSameGesture =
    mergeKey !== null && last !== undefined && last.mergeKey === mergeKey && atMs - last.atMs <= MERGE_WITHIN_MS;
  const step: Step<T> = { name, before: isSameGesture ? last.before : history.present, after, mergeKey, atMs };
  const past = isSameGesture ? history.past.slice(0, -1) : history.past;
  return { present: after, past: [...past, step].slice(-STEPS_KEPT), future: [] };
}

/** One step back; the same history when there is none. */
export function undo<T>(history: History<T>): History<T> {
  const step = history.past.at(-1);
  if (step === undefined) return history;
  return { present: step.before, past: history.past.slice(0, -1), future: [step, ...history.future] };
}

/** One step forward again; the same history when there is none. */
export function redo<T>(history: History<T>): History<T> {
  const [step, ...rest] = history.future;
  if (step === undefined) return history;
  return { present: step.after, past: [...history.past, step], future: rest };
}
