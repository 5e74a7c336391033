import { readArtwork } from '@underlap/artwork/read-artwork';
import { describe, expect, it } from 'vitest';
import { differingShare, letterPaths, page, pixels } from '../support/letters-against-renderer.ts';

const lettersOf = (text: string): string => letterPaths(readArtwork(page(text), { name: 'quay.svg' }));

const text = (attributes: string, words: string) =>
  `<text id="words" font-family="DejaVu Sans" font-size="30" x="20" y="60" ${attributes}>${words}</text>`;

/** A curve, and 200 short lines along it. */
const CURVE = 'M40 90 Q150 0 260 90';
const CHORDS = Array.from({ length: 201 }, (_, i) => {
  const u = i / 200;
  const along = (a: number, b: number, c: number) => (1 - u) ** 2 * a + 2 * u * (1 - u) * b + u * u * c;
  return `${i === 0 ? 'M' : 'L'}${along(40, 150, 260)} ${along(90, 0, 90)}`;
}).join('');
const alongLine = (d: string) =>
  `<path id="arc" d="${d}" fill="none"/><text id="words" font-family="DejaVu Sans" font-size="24"><textPath href="#arc" startOffset="10">By the sea</textPath></text>`;

describe('letters are those of an independent renderer with the same font', () => {
  it.each([
    ['plain words, kerned', text('', 'AVATo Gull Wy.')],
    ['ligatures', text('', 'fi fl office')],
    ['accents, composed and not', text('', '\u00c5ngstr\u00f6m e\u0301 n\u0303')],
    ['Greek and Cyrillic', text('', '\u039b\u03b9\u03bc\u03ac\u03bd\u03b9 \u0413\u0430\u0432\u0430\u043d\u044c')],
    ['Hebrew, from right to left', text('', '\u05e0\u05de\u05dc \u05d9\u05dd')],
    ['Arabic, joined', text('', '\u0645\u064a\u0646\u0627\u0621')],
    [
      'anchored in the middle',
      '<text id="words" font-family="DejaVu Sans" font-size="30" x="150" y="60" text-anchor="middle">Quay 12</text>',
    ],
    [
      'anchored at the end',
      '<text id="words" font-family="DejaVu Sans" font-size="30" x="280" y="60" text-anchor="end">Quay 12</text>',
    ],
    ['spaced letters and words', text('letter-spacing="4" word-spacing="9"', 'Mole Head')],
    ['places of single letters', text('dx="0 3 0 5"', 'Buoys').replace('x="20"', 'x="20 60 110"')],
    [
      'several lines',
      '<text id="words" font-family="DejaVu Sans" font-size="22"><tspan x="20" y="40">Harbour</tspan><tspan x="20" dy="30">master</tspan></text>',
    ],
    ['turned and grown', text('transform="translate(40 30) rotate(-12) scale(1.4 1)"', 'Tide')],
  ])('%s', (_, body) => {
    const { ink, share } = differingShare(pixels(page(body)), pixels(page(lettersOf(body))));
    expect(ink).toBeGreaterThan(5000);
    expect(share).toBeLessThan(0.02);
  });

  it('stands along a level line as plain text does', () => {
    // The renderer's own text along a level line lies up to 0.2 mm beside its plain text, so that it serves as a rough check only.
    const plain = page('<text font-family="DejaVu Sans" font-size="24" x="50" y="60">By the sea</text>');
    const { share } = differingShare(pixels(plain), pixels(page(lettersOf(alongLine('M40 60 L260 60')))));
    expect(share).toBeLessThan(0.02);
  });

  it('follows a curve as it does many short lines along it', () => {
    const { share } = differingShare(
      pixels(page(lettersOf(alongLine(CURVE)))),
      pixels(page(lettersOf(alongLine(CHORDS)))),
    );
    expect(share).toBeLessThan(0.02);
    expect(
      differingShare(pixels(page(alongLine(CURVE))), pixels(page(lettersOf(alongLine(CURVE))))).share,
    ).toBeLessThan(0.1);
  });

  it('sees letters that lie a millimetre beside', () => {
    const body = text('', 'Gull');
    const beside = lettersOf(body.replace('x="20"', 'x="21"'));
    expect(differingShare(pixels(page(body)), pixels(page(beside))).share).toBeGreaterThan(0.1);
  });
});
