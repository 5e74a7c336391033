import { transferHandlers } from 'comlink';

/** An error as it crosses from a worker to the page: a stable code, a sentence, and the place when it is known. */
export interface Fault {
  readonly code: string;
  readonly message: string;
  readonly place: string | null;
  /** What the page fills into its own sentence for this code; the message is the engine's. */
  readonly values?: Readonly<Record<string, string | number>>;
}

/** A fault thrown again on the page's side. */
export class WorkFault extends Error {
  constructor(readonly fault: Fault) {
    super(fault.message);
    this.name = 'WorkFault';
  }
}

/** Any thrown value as a fault; errors of the packages keep their code and place. */
export function faultOf(error: unknown): Fault {
  if (error instanceof WorkFault) return error.fault;
  if (!(error instanceof Error)) return { code: 'internal', message: String(error), place: null };
  const { code, place } = error as { code?: unknown; place?: unknown };
  const isExpected = typeof code === 'string';
  return {
    code: isExpected ? code : 'internal',
    message: error.message,
    place: placeInWords(place),
  };
}

function placeInWords(place: unknown): string | null {
  if (typeof place === 'string') return place;
  if (typeof place !== 'object' || place === null) return null;
  const words = Object.entries(place).flatMap(([key, value]) => {
    if (value === null || value === undefined) return [];
    if (typeof value === 'object' && 'x' in value && 'y' in value) {
      return [`at ${Number(value.x).toFixed(1)}, ${Number(value.y).toFixed(1)} mm`];
    }
    return typeof value === 'object' ? [] : [key === 'element' ? String(value) : `${key} ${String(value)}`];
  });
  return words.length === 0 ? null : words.join(', ');
}

/** Make comlink carry faults whole, both ways; call once on either side before anything is exposed or wrapped. */
export function carryFaults(): void {
  const usual = transferHandlers.get('throw');
  transferHandlers.set('throw', {
    canHandle: (value): value is { value: unknown } => usual?.canHandle(value) ?? false,
    serialize: ({ value }: { value: unknown }) => [faultOf(value), []],
    deserialize: (fault: Fault): never => {
      throw new WorkFault(fault);
    },
  });
}
