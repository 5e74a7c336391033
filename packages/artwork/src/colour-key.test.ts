import { describe, expect, it } from 'vitest';
import { colourUses } from './colour-key.ts';
import { readSvg } from './svg/read-svg.ts';

const CUT = '#b5179e';
const OTHER = '#3a7d44';

function uses(body: string) {
  const text = `<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="300mm" viewBox="0 0 400 300" fill="none">${body}</svg>`;
  return colourUses(readSvg(text, { name: 'pier.svg' }));
}

const rect = (x: number, y: number, side: number, paint: string): string =>
  `<rect x="${x}" y="${y}" width="${side}" height="${side}" ${paint}/>`;
const line = (colour: string): string => `stroke="${colour}"`;
const proposals = (body: string): Record<string, string> =>
  Object.fromEntries(uses(body).map(({ colour, usedAs, proposed }) => [`${usedAs} ${colour}`, proposed]));

describe('colourUses', () => {
  it('lists every colour with its counts, the longest first', () => {
    const found = uses(
      `${rect(0, 0, 100, line(CUT)) + rect(10, 10, 20, line(OTHER))}<path d="M5 5h10" ${line(OTHER)}/>`,
    );
    expect(found).toMatchObject([
      { colour: CUT, usedAs: 'line', shapes: 1, contours: 1, closedContours: 1, length: 400 },
      { colour: OTHER, usedAs: 'line', shapes: 2, contours: 2, closedContours: 1, length: 90 },
    ]);
  });

  it('cuts with the colour that bounds everything, whatever the order', () => {
    const parts = [rect(0, 0, 100, line(CUT)), rect(150, 0, 90, line(CUT)), rect(10, 10, 20, line(CUT))];
    const marks = [rect(40, 40, 30, line(OTHER)), rect(160, 10, 50, line(OTHER))];
    for (const body of [
      [...parts, ...marks],
      [...marks, ...parts],
    ]) {
      expect(proposals(body.join(''))).toEqual({ [`line ${CUT}`]: 'cut', [`line ${OTHER}`]: 'score' });
    }
  });

  it('cuts with every colour that draws outermost outlines', () => {
    expect(proposals(rect(0, 0, 100, line(CUT)) + rect(150, 0, 90, line(OTHER)))).toEqual({
      [`line ${CUT}`]: 'cut',
      [`line ${OTHER}`]: 'cut',
    });
  });

  it('does not let a stray label cut', () => {
    const body = rect(0, 0, 200, line(CUT)) + rect(50, 50, 20, line(OTHER)) + rect(250, 0, 5, line(OTHER));
    expect(proposals(body)[`line ${OTHER}`]).toBe('score');
  });

  it('scores open lines', () => {
    expect(
      proposals(`${rect(0, 0, 100, line(CUT))}<path d="M5 5c5 5 10 5 20 0" ${line(OTHER)}/>`)[`line ${OTHER}`],
    ).toBe('score');
  });

  it('takes fills for paint in a stack, and lines on them for score', () => {
    const body = rect(0, 0, 200, 'fill="teal"') + rect(20, 20, 50, 'fill="#ffcc00"') + rect(30, 30, 10, line(OTHER));
    expect(proposals(body)).toEqual({ 'fill #008080': 'paint', 'fill #ffcc00': 'paint', [`line ${OTHER}`]: 'score' });
  });

  it('takes areas inside cut outlines for engraving', () => {
    const body = rect(0, 0, 100, line(CUT)) + rect(20, 20, 50, 'fill="#000"');
    expect(proposals(body)['fill #000000']).toBe('engrave');
  });

  it('copes with many outlines', () => {
    const body = Array.from(
      { length: 3000 },
      (_, i) =>
        rect((i % 60) * 6, Math.floor(i / 60) * 6, 5, line(CUT)) +
        rect((i % 60) * 6 + 1, Math.floor(i / 60) * 6 + 1, 2, line(OTHER)),
    );
    expect(proposals(body.join(''))).toEqual({ [`line ${CUT}`]: 'cut', [`line ${OTHER}`]: 'score' });
  });
});
