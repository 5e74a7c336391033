import seedrandom from 'seedrandom';

const COLOURS = ['#b5179e', 'teal', 'rgb(240, 160, 30)', 'hsl(210 60% 40%)', '#4a8', 'currentColor'];

/**
 * A drawing 200 x 150 units large of every shape element, under nested transforms of every kind, shown by `use` and `symbol`, in
 * nested viewports, styled by attributes, style attributes and a sheet, with lengths in several units. The same seed gives
 * the same drawing. Left out, since the renderer compared with does not follow CSS there (Chromium does, and so do we):
 * `!important` against a style attribute, and `currentColor` handed down to another `color`.
 */
export function randomSvg(seed: string): string {
  const random = seedrandom(seed);
  const between = (low: number, high: number): number => Number((low + random() * (high - low)).toFixed(3));
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!;
  const maybe = (share: number, text: () => string): string => (random() < share ? text() : '');

  const shape = (): string => {
    const x = between(2, 60);
    const y = between(2, 60);
    const paint =
      maybe(0.3, () => ` fill="${pick(COLOURS)}"`) + maybe(0.3, () => ` class="${pick(['a', 'b', 'a b'])}"`);
    const style = maybe(0.3, () => ` style="fill:${pick(COLOURS)};fill-rule:${pick(['evenodd', 'nonzero'])}"`);
    const rest = paint + style + maybe(0.3, () => ` transform="${transform()}"`);
    switch (Math.floor(random() * 7)) {
      case 0:
        return `<rect x="${x}" y="${y}" width="${between(5, 30)}" height="${between(5, 30)}"${maybe(0.5, () => ` rx="${between(0, 20)}"`)}${maybe(0.3, () => ` ry="${between(0, 9)}"`)}${rest}/>`;
      case 1:
        return `<circle cx="${x}" cy="${y}" r="${between(3, 18)}"${rest}/>`;
      case 2:
        return `<ellipse cx="${x}px" cy="${y}" rx="${between(3, 18)}" ry="${between(3, 6)}mm"${rest}/>`;
      case 3:
        return `<polygon points="${points(5)}"${rest}/>`;
      case 4:
        return `<polyline points="${points(4)}"${rest}/>`;
      default:
        return `<path d="${path(x, y)}"${rest}/>`;
    }
  };
  const points = (count: number): string =>
    Array.from({ length: count }, () => `${between(0, 60)}${pick([',', ' '])}${between(0, 60)}`).join(
      pick([' ', '  ', ', ']),
    );
  const path = (x: number, y: number): string => {
    const n = (): string => String(between(-14, 14)).replace('0.', random() < 0.5 ? '.' : '0.');
    let data = `${pick(['M', 'm'])}${x} ${y}`;
    for (let i = 0; i < 5; i++) {
      data += pick([
        () => `l${n()} ${n()}`,
        () => `h${n()}v${n()}`,
        () => `c${n()} ${n()} ${n()},${n()} ${n()} ${n()}`,
        () => `s${n()} ${n()} ${n()} ${n()}`,
        () => `q${n()} ${n()} ${n()} ${n()}t${n()} ${n()}`,
        () =>
          `a${between(2, 12)} ${between(2, 12)} ${between(-90, 90)} ${pick(['0', '1'])}${pick(['', ' '])}${pick(['0', '1'])} ${n()} ${n()}`,
        () => `A9 9 0 01${between(5, 60)} ${between(5, 60)}`,
        () => `L${between(5, 60)} ${between(5, 60)} ${between(5, 60)} ${between(5, 60)}`,
        () => `z m${n()} ${n()}`,
      ])();
    }
    return data + maybe(0.6, () => pick(['z', ' Z']));
  };
  const transform = (): string =>
    pick([
      () => `translate(${between(-9, 9)},${between(-9, 9)})`,
      () => `translate(${between(-9, 9)})`,
      () => `rotate(${between(-180, 180)} ${between(0, 50)} ${between(0, 50)})`,
      () => `scale(${between(0.5, 1.3)})`,
      () => `scale(${between(0.5, 1.3)} ${between(-1.2, 1.2) || 1})`,
      () => `skewX(${between(-30, 30)})`,
      () => `skewY(${between(-30, 30)})`,
      () =>
        `matrix(${between(0.6, 1.2)} ${between(-0.4, 0.4)} ${between(-0.4, 0.4)} ${between(0.6, 1.2)} ${between(-5, 5)} ${between(-5, 5)})`,
      () => `translate(3 4) rotate(${between(0, 90)})scale(.9)`,
    ])();
  const group = (depth: number): string => {
    const inner = Array.from({ length: 2 }, () => (depth > 0 && random() < 0.5 ? group(depth - 1) : shape())).join('');
    return `<g${maybe(0.5, () => ` transform="${transform()}"`)}${maybe(0.3, () => ` fill="${pick(COLOURS.slice(0, 5))}"`)}${maybe(0.2, () => ` style="color:${pick(COLOURS.slice(0, 5))}"`)}${maybe(0.1, () => ' display="none"')}>${inner}</g>`;
  };
  const aspect = (): string => ` preserveAspectRatio="${pick(['xMinYMin', 'xMidYMid', 'xMaxYMax', 'xMidYMin'])} meet"`;
  const defs = `<defs><symbol id="s" viewBox="0 0 80 80"${aspect()} overflow="visible">${shape()}${shape()}</symbol><g id="d">${shape()}</g>${shape().replace('/>', ' id="one"/>')}</defs>`;
  const sheet =
    '<style>.a { fill: #335577 } g > .b { fill: rgb(20%, 60%, 30%) } #d path, circle.a{fill:olive} g g rect { fill-rule: evenodd; fill: #c8a }</style>';
  const uses = [
    `<use href="#s" x="${between(0, 60)}" y="${between(0, 60)}" width="${between(30, 80)}" height="${between(30, 80)}"/>`,
    `<use xlink:href="#d" x="${between(0, 90)}" transform="${transform()}" fill="${pick(COLOURS)}"/>`,
    `<use href="#one" y="${between(0, 60)}" style="fill:${pick(COLOURS)}"/>`,
  ].join('');
  const nested = `<svg x="${between(0, 60)}" y="${between(0, 40)}" width="90" height="70" viewBox="-10 -10 100 110"${aspect()} overflow="visible">${shape()}${group(1)}</svg>`;
  const root = pick([
    'width="200" height="150" viewBox="0 0 200 150"',
    'width="200" height="150"',
    `width="200" height="150" viewBox="-5 -8 ${between(150, 260)} ${between(120, 200)}"${aspect()}`,
    'width="200" height="150" viewBox="0 0 100 100" preserveAspectRatio="none"',
  ]);
  return `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" ${root} color="#274">${sheet}${defs}${group(2)}${uses}${nested}${group(3)}</svg>`;
}
