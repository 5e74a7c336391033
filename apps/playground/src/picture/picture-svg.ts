import type { Ink, Picture, Tint, Tone } from './ink.ts';

/** Tones as they are printed: dark on white paper, whatever the page looks like. */
export const PRINT_TONES: Readonly<Record<Tone, string>> = {
  ink: '#2a2420',
  soft: '#5e544a',
  rule: '#d5cab7',
  paper: '#ffffff',
  card: '#ffffff',
  wood: '#d9c19a',
  board: '#f3e8d3',
  grain: '#c9a976',
  good: '#0f5c78',
  look: '#a33a0a',
  mark: '#6b4a2f',
  number: '#5a36a8',
  shade: '#2a2420',
  glass: '#2a2420',
};

/** Border round a picture, share of its longer side. */
const BORDER_SHARE = 0.02;

/** The part of the plane that a picture file shows, mm. */
export function pictureFrame(picture: Picture): { x: number; y: number; width: number; height: number } {
  const { minX, minY, maxX, maxY } = picture.bounds;
  const border = Math.max(maxX - minX, maxY - minY) * BORDER_SHARE;
  return { x: minX - border, y: minY - border, width: maxX - minX + 2 * border, height: maxY - minY + 2 * border };
}

/** A picture as a file of its own, true size. */
export function pictureSvg(picture: Picture): string {
  const { x, y, width, height } = pictureFrame(picture);
  const inks = picture.inks.map(inkElement).join('\n');
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${round(width)}mm" height="${round(height)}mm" viewBox="${[x, y, width, height].map(round).join(' ')}">\n${inks}\n</svg>\n`;
}

function inkElement(ink: Ink): string {
  const attributes = [
    `d="${ink.d}"`,
    'fill-rule="evenodd"',
    `fill="${ink.fill === undefined ? 'none' : colour(ink.fill)}"`,
    ...(ink.stroke === undefined
      ? []
      : [`stroke="${colour(ink.stroke)}"`, `stroke-width="${round(ink.widthMm ?? (ink.widthPx ?? 1) * 0.3)}"`]),
    ...(ink.alpha === undefined ? [] : [`opacity="${ink.alpha}"`]),
    ...transform(ink),
  ];
  return `<path ${attributes.join(' ')}/>`;
}

function transform(ink: Ink): string[] {
  if (ink.spot === undefined) return [];
  const { x, y, turnDeg, mirrored } = ink.spot;
  const steps = [
    ...(x === 0 && y === 0 ? [] : [`translate(${round(x)} ${round(y)})`]),
    ...(turnDeg === 0 ? [] : [`rotate(${round(turnDeg)})`]),
    ...(mirrored ? ['scale(-1 1)'] : []),
  ];
  return steps.length === 0 ? [] : [`transform="${steps.join(' ')}"`];
}

function colour(tint: Tint): string {
  return tint.startsWith('#') ? tint : PRINT_TONES[tint as Tone];
}

function round(value: number): number {
  return Math.round(value * 1000) / 1000;
}
