import { Resvg } from '@resvg/resvg-js';

/** What a drawing covers when it is drawn `pixels` wide, in square pixels (sum of coverage). */
export function rasterArea(svg: string, pixels: number): number {
  const image = new Resvg(svg, { fitTo: { mode: 'width', value: pixels }, font: { loadSystemFonts: false } }).render();
  const { pixels: rgba } = image;
  let sum = 0;
  for (let i = 3; i < rgba.length; i += 4) sum += rgba[i]!;
  return sum / 255;
}
