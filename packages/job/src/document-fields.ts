import { z } from 'zod';
import { lengthAdvice, parseLength, parseSize } from './units.ts';

/** Largest length a job may name, mm: 20 m is beyond any board or bed, so more is a unit mistake. */
export const LONGEST_MM = 20_000;

/** Least side of a bed or board, mm: less holds no knob and no sign, so it is a unit mistake. */
export const SHORTEST_SIDE_MM = 20;

/**
 * A length: a number of mm, or text with a unit such as "20in".
 * @param what - how the message names it, e.g. 'the kerf'.
 */
export function length(least: number, most: number, description: string) {
  const allowed = `a length from ${least} to ${most} mm, such as ${example(least, most)}`;
  return z
    .union([z.number(), z.string()], { error: (issue) => `is ${shown(issue.input)}, but must be ${allowed}` })
    .transform((value, context) => {
      const mm = typeof value === 'number' ? value : parseLength(value);
      if (mm !== null && mm >= least && mm <= most) return mm;
      const advice = typeof value === 'string' && mm === null ? lengthAdvice(value) : '';
      const remark = advice === '' ? '' : ` (${advice})`;
      context.addIssue({ code: 'custom', message: `is ${shown(value)}, but must be ${allowed}${remark}` });
      return z.NEVER;
    })
    .meta({ description: `${description}. mm, or text with a unit ("20in"); from ${least} to ${most} mm.` });
}

/** A plain number with limits and a message that says both. */
export function number(least: number, most: number, description: string) {
  const message = (input: unknown) => `is ${shown(input)}, but must be a number from ${least} to ${most}`;
  return z
    .number({ error: (issue) => message(issue.input) })
    .min(least, { error: (issue) => message(issue.input) })
    .max(most, { error: (issue) => message(issue.input) })
    .meta({ description });
}

/** A whole number with limits. */
export function count(least: number, most: number, description: string) {
  const message = (input: unknown) => `is ${shown(input)}, but must be a whole number from ${least} to ${most}`;
  return z
    .int({ error: (issue) => message(issue.input) })
    .min(least, { error: (issue) => message(issue.input) })
    .max(most, { error: (issue) => message(issue.input) })
    .meta({ description });
}

/** One of a few words; the message lists them. */
export function choice<const Words extends readonly [string, ...string[]]>(words: Words, description: string) {
  return z
    .enum(words, { error: (issue) => `is ${shown(issue.input)}, but must be one of ${words.join(', ')}` })
    .meta({ description });
}

/** A part by its id. */
export const partId = z.string().min(1).meta({ description: 'Id of a part as `underlap inspect` prints it.' });

/** `#rrggbb` in any case, kept in lower case. */
export const colour = z
  .string()
  .regex(/^#[0-9a-f]{6}$/i, { error: (issue) => `is ${shown(issue.input)}, but must be a colour such as "#0072b2"` })
  .transform((text) => text.toLowerCase());

/** "508x305", "20x12in", or an object that has width and height. */
export function sizeText(description: string) {
  return z
    .string()
    .refine((text) => parseSize(text) !== null, {
      error: (issue) => `is ${shown(issue.input)}, but must be a size such as "508x305" or "20x12in"`,
    })
    .meta({ description });
}

/** How a value is quoted in a message: short, and never a whole document. */
export function shown(value: unknown): string {
  if (value === undefined) return 'missing';
  if (typeof value === 'number') return String(value);
  const text = JSON.stringify(value) ?? String(value);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

function example(least: number, most: number): string {
  const middle = Math.min(Math.max(10, least), most);
  return `${middle} or "${Number((middle / 25.4).toPrecision(3))}in"`;
}

/** For lists that are cut off somewhere: how many there are, and how many there may be. */
export function atMost(most: number): { readonly error: (issue: { readonly input?: unknown }) => string } {
  return {
    error: ({ input }) =>
      `has ${Array.isArray(input) ? input.length : 'too many'} entries, but must have at most ${most}`,
  };
}
