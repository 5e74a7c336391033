import { describe, expect, it } from 'vitest';
import { entities } from '../testing/dxf-reading.ts';
import { dxfText, line } from '../testing/dxf-text.ts';
import { readDxf } from './dxf/read-dxf.ts';
import { ArtworkError } from './error.ts';
import { harmlessText } from './harmless-text.ts';
import { readSvg } from './svg/read-svg.ts';

/** ESC, BEL, a one-byte control sequence introducer, a right-to-left override. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what must be gone
const STEERING = /[\u001b\u0007\u009b\u202e]/;

describe('names that steer a terminal', () => {
  it('keeps words of every language and line ends', () => {
    const text = 'möwe 海 чайка نورس\tone\ntwo';
    expect(harmlessText(text)).toBe(text);
  });

  it.each([
    ['as bytes', 'a\u001b[2Jb\u0007'],
    ['as their codes', 'a\\U+001B[2J\\U+202Eb'],
    ['as one byte', 'a\u009b2Jb'],
  ])('are made harmless in DXF layers, blocks and handles, written %s', (_, name) => {
    const drawing = readDxf(
      dxfText({
        header: { $INSUNITS: 4 },
        layers: [[2, `${name}off`, 70, 1, 62, 3]],
        blocks: [{ name, entities: line(0, 0, 50, 40, name) }],
        entities: [
          ...[0, 'INSERT', 2, name, 5, name, 8, name, 10, 0, 20, 0],
          ...line(0, 0, 9, 9, `${name}off`),
          ...[0, 'TEXT', 8, name, 5, name, 10, 1, 20, 2, 1, name],
          ...[0, name, 8, name, 10, 0, 20, 0],
          ...[0, 'INSERT', 2, `${name}gone`, 8, name],
          ...[0, 'CIRCLE', 8, name, 10, name, 20, 0, 40, 3],
        ],
      }),
      { name: 'boat.dxf' },
    );
    expect(drawing.shapes[0]!.layer).toMatch(/^a\ufffd/);
    expect(drawing.complaints.length).toBeGreaterThan(4);
    expect(JSON.stringify(drawing)).not.toMatch(/\\u001b|\\u0007/);
    expect(JSON.stringify(drawing)).not.toMatch(STEERING);
  });

  it('are made harmless in SVG ids, labels, groups and what is quoted', () => {
    const csi = '&#155;2J&#8238;';
    const drawing = readSvg(
      `<svg xmlns="http://www.w3.org/2000/svg" width="50mm" height="40mm" viewBox="0 0 50 40"><defs><path id="u${csi}" d="M0 0h5v5z"/></defs><g id="layer${csi}"><rect id="part${csi}_x1b_" width="50" height="40"/><rect aria-label="${csi}" width="5" height="5" transform="turn${csi}"/></g><use href="#u${csi}"/><strange${'\u0001'} id="${csi}"/></svg>`,
      { name: 'boat.svg' },
    );
    expect(drawing.shapes.length).toBe(2);
    expect(JSON.stringify(drawing)).not.toMatch(STEERING);
    expect(JSON.stringify(drawing)).not.toContain('\\u001b');
  });

  it('are made harmless in the sentence of a refusal', () => {
    try {
      entities([0, 'CIRCLE', 8, '0', 5, 'x\u001b[31m', 10, 0, 20, 0, 40, '\u001b[5m'], { name: 'a\u001b]0;b.dxf' });
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(ArtworkError);
      const { message, place } = error as ArtworkError;
      expect(`${message} ${place}`).not.toMatch(STEERING);
    }
  });
});
