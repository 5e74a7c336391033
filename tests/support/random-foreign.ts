import seedrandom from 'seedrandom';

/**
 * A drawing that combines what programs write now and then and the independent renderer follows too: clips by shapes, by several and
 * in shares of a box, within each other and within nested viewports, entities with elements, switches, both fill rules. The same seed gives the same drawing.
 */
export function randomForeign(seed: string): string {
  const random = seedrandom(seed);
  const number = (low: number, high: number): number => Number((low + random() * (high - low)).toFixed(2));
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!;
  const colour = (): string => pick(['#b5179e', 'teal', 'olive', '#335577', 'rgb(240,160,30)']);
  const outline = (): string =>
    pick([
      () =>
        `<rect x="${number(0, 60)}" y="${number(0, 60)}" width="${number(10, 40)}" height="${number(10, 40)}" rx="${number(0, 8)}"`,
      () => `<circle cx="${number(20, 80)}" cy="${number(20, 80)}" r="${number(8, 30)}"`,
      () => `<ellipse cx="${number(20, 80)}" cy="${number(20, 80)}" rx="${number(8, 30)}" ry="${number(5, 20)}"`,
      () =>
        `<path d="M${number(0, 40)} ${number(0, 40)}C${number(40, 99)} ${number(0, 40)} ${number(40, 99)} ${number(60, 99)} ${number(50, 90)} ${number(60, 99)}L${number(0, 40)} ${number(60, 99)}Z"`,
      () => `<path d="M10 10H${number(50, 90)}V${number(50, 90)}H10ZM${number(15, 25)} 20h20v20h-20z"`,
    ])();
  const rule = (kind: 'fill' | 'clip'): string =>
    random() < 0.5 ? ` ${kind}-rule="${pick(['evenodd', 'nonzero'])}"` : '';
  const clips = Array.from({ length: 3 }, (_, i) => {
    const inner = i > 0 && random() < 0.4 ? ` clip-path="url(#c${i - 1})"` : '';
    const several = random() < 0.4 ? `${outline()}${rule('clip')}/>` : '';
    return `<clipPath id="c${i}">${outline()}${rule('clip')}${inner}/>${several}</clipPath>`;
  }).join('');
  const box = '<clipPath id="box" clipPathUnits="objectBoundingBox"><circle cx="0.5" cy="0.5" r="0.45"/></clipPath>';
  const clip = (): string =>
    random() < 0.6 ? ` clip-path="${pick(['url(#c0)', 'url(#c1)', 'url(#c2)', 'url(#box)'])}"` : '';
  const shape = (): string => {
    const clipped = clip();
    // The renderer takes the box of control points where the standard asks for that of the curve.
    const drawn = clipped.includes('#box')
      ? `<circle cx="${number(20, 80)}" cy="${number(20, 80)}" r="${number(8, 30)}"`
      : outline();
    return `${drawn} fill="${colour()}"${rule('fill')}${clipped}${random() < 0.3 ? ` transform="rotate(${number(-40, 40)} 50 50)"` : ''}/>`;
  };
  const piece = (): string =>
    pick([
      shape,
      () => `<g${random() < 0.6 ? ` clip-path="url(#c${pick([0, 1, 2])})"` : ''}>${shape()}${shape()}</g>`,
      () => `<switch><g systemLanguage="tlh">${shape()}</g>${shape()}</switch>`,
      () => '&boat;',
      () =>
        `<svg x="${number(0, 30)}" y="${number(0, 30)}" width="60" height="50" viewBox="0 0 100 ${number(60, 110)}">${shape()}</svg>`,
      () => `<use href="#boat"${clip().replace('#box', '#c0')} x="${number(0, 30)}"/>`,
    ])();
  const body = Array.from({ length: 5 }, piece).join('');
  return `<!DOCTYPE svg [<!ENTITY boat "<path fill='navy' d='M${number(5, 30)} 50h30l-8 12h-16z'/>">]><svg xmlns="http://www.w3.org/2000/svg" width="100" height="100" viewBox="0 0 100 100"><defs>${clips}${box}<path id="boat" d="M10 70h40l-9 14h-22z" fill="maroon"/></defs>${body}</svg>`;
}
