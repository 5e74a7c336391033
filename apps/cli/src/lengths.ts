import { lengthAdvice, parseLength, parseSize, parseSizes, type Size } from '@underlap/job/units';
import { UsageError } from './exit.ts';

/** A length option: mm, or with a unit. @throws UsageError naming option and text. */
export function lengthOption(option: string, text: string): number {
  const mm = parseLength(text);
  if (mm === null)
    throw new UsageError(`${option} takes a length such as 6 (mm) or 0.25in, not "${text}"${adviceFor(text)}.`);
  return mm;
}

/** A size option. @throws UsageError naming option and text. */
export function sizeOption(option: string, text: string): Size {
  const size = parseSize(text);
  if (size === null)
    throw new UsageError(`${option} takes a size such as 520x320 (mm) or 20x12in, not "${text}"${adviceFor(text)}.`);
  return size;
}

function adviceFor(text: string): string {
  const advice = lengthAdvice(text);
  return advice === '' ? '' : `: ${advice}`;
}

/** Several sizes, separated by commas or semicolons. @throws UsageError naming option and text. */
export function sizesOption(option: string, text: string): Size[] {
  const sizes = parseSizes(text);
  if (sizes === 'ambiguous') {
    const cure = 'separate sizes by semicolons, such as "50,8x30,5cm; 61x30,5cm", or write decimal points';
    throw new UsageError(`${option} could be read in two ways, "${text}": ${cure}.`);
  }
  // The first that is no size names the fault best.
  return sizes ?? text.split(text.includes(';') ? ';' : /,(?=[^,]*[x×*])/).map((part) => sizeOption(option, part));
}

/** A whole number within limits. */
export function countOption(option: string, text: string, least: number, most: number): number {
  const value = Number(text);
  if (!/^\d+$/.test(text.trim()) || value < least || value > most) {
    throw new UsageError(`${option} takes a whole number from ${least} to ${most}, not "${text}".`);
  }
  return value;
}

/** `4`, `1..12`, `2,4,6`, or a mixture of these. */
export function countsOption(option: string, text: string, least: number, most: number): number[] {
  const counts = text.split(',').flatMap((part) => {
    const [from, to, rest] = part.split('..');
    if (rest !== undefined) throw new UsageError(`${option} takes numbers such as 4, 2,4,6 or 1..12, not "${text}".`);
    const first = countOption(option, from ?? '', least, most);
    const last = to === undefined ? first : countOption(option, to, least, most);
    if (last < first) throw new UsageError(`${option} counts upwards: "${part}" does not.`);
    return Array.from({ length: last - first + 1 }, (_, step) => first + step);
  });
  return [...new Set(counts)].sort((a, b) => a - b);
}
