/** What a shell or another program can tell from the number. */
export const EXIT = { done: 0, unusableInput: 1, wrongUsage: 2, doesNotFit: 3, interrupted: 130 } as const;

export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

/** The command was called wrongly: exit code 2. The message names the option and what it takes. */
export class UsageError extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'UsageError';
  }
}

/** A file that cannot be read or written: exit code 1. */
export class FileError extends Error {
  readonly code = 'file';
  constructor(
    message: string,
    readonly place: { readonly file: string },
  ) {
    super(message);
    this.name = 'FileError';
  }
}

/** Errors that the packages throw on purpose: a sentence for the maker, a stable code, a place. */
const TOLD = new Set([
  'JobError',
  'ArtworkError',
  'LetteringError',
  'StackError',
  'SeamError',
  'NestError',
  'GeometryError',
  'FileError',
]);

/** How a failure leaves the program. */
export interface Failure {
  readonly exit: ExitCode;
  readonly code: string;
  readonly message: string;
  readonly place: unknown;
}

/** Turn whatever was thrown into an exit code and one sentence; what nobody foresaw keeps its stack for a report of the fault. */
export function failureOf(error: unknown): Failure {
  if (error instanceof UsageError) return { exit: EXIT.wrongUsage, code: 'usage', message: error.message, place: null };
  if (error instanceof Error && TOLD.has(error.name)) {
    const { code, place } = error as Error & { code?: string; place?: unknown };
    const exit = code === 'cancelled' ? EXIT.interrupted : EXIT.unusableInput;
    return { exit, code: code ?? 'unknown', message: error.message, place: place ?? null };
  }
  const message = error instanceof Error ? (error.stack ?? error.message) : String(error);
  return {
    exit: EXIT.unusableInput,
    code: 'internal',
    message: `A fault of the program, not of the file: ${message}`,
    place: null,
  };
}
