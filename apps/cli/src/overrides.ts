import { UsageError } from './exit.ts';

/** Fields that options lay over a job file; plain JSON, checked by the job's schema like everything else. */
export type Overrides = Readonly<Record<string, unknown>>;

/** Objects are merged field by field, everything else is replaced. */
export function merged(base: Overrides, over: Overrides): Record<string, unknown> {
  const out = { ...base };
  for (const [key, value] of Object.entries(over)) {
    const old = out[key];
    out[key] = isObject(old) && isObject(value) ? merged(old, value) : value;
  }
  return out;
}

/**
 * Fields of a job by their path: `marks.textHeight=8`, `seams.parts.backer.knob=round`, `turns.keepGrain=["backer"]`.
 * A value that is JSON is taken as such, everything else as text. @throws UsageError for text that names no field.
 */
export function fieldsOf(option: string, texts: readonly string[]): Overrides {
  return texts.reduce<Overrides>((fields, text) => {
    const [, path, value] = /^([^=]*)=(.*)$/s.exec(text) ?? [];
    const names = path?.trim().split('.') ?? [];
    if (value === undefined || !names.every((name) => /^[\p{L}\p{N}#]/u.test(name))) {
      throw new UsageError(
        `${option} takes a field of the job and its value, such as marks.textHeight=8, not "${text}".`,
      );
    }
    const field = names.reduceRight<unknown>((inner, name) => ({ [name]: inner }), jsonOr(value));
    return merged(fields, field as Overrides);
  }, {});
}

function jsonOr(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return text;
  }
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
