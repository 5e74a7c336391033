import { namedColour } from './colour-names.ts';
import type { Colour } from './drawing.ts';

/** A colour as written; `alpha` 0 draws nothing, anything else counts as opaque here. */
export interface ReadColour {
  readonly colour: Colour;
  readonly alpha: number;
}

/**
 * Read a CSS colour: names, #rgb, #rgba, #rrggbb, #rrggbbaa, rgb(), rgba(), hsl(), hsla(), hwb(), transparent.
 * @returns null when it is none of these (`none`, `currentColor` and `url()` are paints, not colours).
 */
export function parseColour(text: string): ReadColour | null {
  const word = text.trim().toLowerCase();
  if (word === 'transparent') return { colour: '#000000', alpha: 0 };
  if (word.startsWith('#')) return hexColour(word.slice(1));
  const named = namedColour(word);
  if (named !== null) return { colour: named, alpha: 1 };
  const call = /^(rgba?|hsla?|hwb)\(([^()]*)\)$/.exec(word);
  return call === null ? null : functionColour(call[1]!, call[2]!);
}

function hexColour(hex: string): ReadColour | null {
  if (!/^(?:[\da-f]{3,4}|[\da-f]{6}|[\da-f]{8})$/.test(hex)) return null;
  const long = hex.length <= 4 ? [...hex].map((digit) => digit + digit).join('') : hex;
  const alpha = long.length === 8 ? Number.parseInt(long.slice(6), 16) / 255 : 1;
  return { colour: `#${long.slice(0, 6)}`, alpha };
}

function functionColour(name: string, body: string): ReadColour | null {
  const words = body.replace(/[,/]/g, ' ').trim().split(/\s+/);
  if (words.length < 3 || words.length > 4) return null;
  const alpha = words[3] === undefined ? 1 : channel(words[3], 1);
  const [a, b, c] = words as [string, string, string];
  const rgb = name.startsWith('rgb')
    ? [channel(a, 255), channel(b, 255), channel(c, 255)].map((value) => value / 255)
    : name === 'hwb'
      ? hwbToRgb(angle(a), share(b), share(c))
      : hslToRgb(angle(a), share(b), share(c));
  if (![...rgb, alpha].every(Number.isFinite)) return null;
  return { colour: hexOf(rgb), alpha: clamp(alpha) };
}

/** A number, or a percentage of `whole`; NaN when it is neither. */
function channel(word: string, whole: number): number {
  return word.endsWith('%') ? (toNumber(word.slice(0, -1)) / 100) * whole : toNumber(word);
}

/** A percentage, with or without its sign, as 0..1. */
function share(word: string): number {
  return toNumber(word.replace(/%$/, '')) / 100;
}

function angle(word: string): number {
  const match = /^([^a-z]+?)(deg|rad|grad|turn)?$/.exec(word);
  if (match === null) return Number.NaN;
  const perUnit: Record<string, number> = { deg: 1, rad: 180 / Math.PI, grad: 0.9, turn: 360 };
  return toNumber(match[1]!) * (perUnit[match[2] ?? 'deg'] ?? 1);
}

/** `Number` without its taste for the empty string. */
function toNumber(word: string): number {
  return word === '' ? Number.NaN : Number(word);
}

function clamp(value: number): number {
  return Math.min(1, Math.max(0, value));
}

/** CSS Color 4, section 'Converting HSL Colors to sRGB'. */
function hslToRgb(hue: number, saturation: number, lightness: number): number[] {
  const s = clamp(saturation);
  const l = clamp(lightness);
  const turned = ((hue % 360) + 360) % 360;
  return [0, 8, 4].map((n) => {
    const k = (n + turned / 30) % 12;
    return l - s * Math.min(l, 1 - l) * Math.max(-1, Math.min(k - 3, 9 - k, 1));
  });
}

/** CSS Color 4, section 'Converting HWB Colors to sRGB'. */
function hwbToRgb(hue: number, whiteness: number, blackness: number): number[] {
  const white = clamp(whiteness);
  const black = clamp(blackness);
  if (white + black >= 1) return Array<number>(3).fill(white / (white + black));
  return hslToRgb(hue, 1, 0.5).map((value) => value * (1 - white - black) + white);
}

function hexOf(rgb: readonly number[]): Colour {
  const digits = rgb.map((value) =>
    Math.round(clamp(value) * 255)
      .toString(16)
      .padStart(2, '0'),
  );
  return `#${digits.join('')}`;
}
