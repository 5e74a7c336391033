import { readArtwork } from '@underlap/artwork/read-artwork';
import { expect, it } from 'vitest';
import { foreignOutcome, looksLike } from '../support/foreign.ts';
import { isSameDxf } from '../support/foreign-dxf.ts';
import { comparedIcons } from '../support/icon-corpus.ts';
import { randomForeign } from '../support/random-foreign.ts';
import { randomForeignDxf } from '../support/random-foreign-dxf.ts';

/** Against @resvg/resvg-js 2.6, picture by picture, and dxf-parser 1.1, curve by curve: see `foreignOutcome`. The bench runs all of the icon sets. */

it('random drawings of clips, entities, switches and viewports look as an independent renderer draws them', {
  timeout: 240_000,
}, () => {
  const outcomes = Array.from({ length: 60 }, (_, i) => foreignOutcome(randomForeign(`foreign-${i}`), `foreign-${i}`));
  // All that they hold is followed, so nothing but the same picture will do.
  expect(outcomes.filter((outcome) => outcome !== 'right')).toEqual([]);
});

it('icons of the open sets are right or told', { timeout: 120_000 }, () => {
  const files = comparedIcons().filter((_, i) => i % 60 === 0);
  const outcomes = files.map((file) => ({ name: file.name, outcome: foreignOutcome(file.read(), file.name) }));
  expect(outcomes.filter(({ outcome }) => outcome === 'silent' || outcome === 'crashed')).toEqual([]);
});

it('a clip, a rule or a place that is misread is seen', { timeout: 120_000 }, () => {
  const faults = [
    (text: string) => text.replaceAll('clip-path="url(#c0)"', ''),
    (text: string) => text.replaceAll('fill-rule="evenodd"', 'fill-rule="nonzero"'),
    (text: string) => text.replaceAll('cx="', 'cx="1'),
  ];
  for (const faulty of faults) {
    const seen = Array.from({ length: 60 }, (_, i) => randomForeign(`foreign-${i}`)).filter(
      (text) => faulty(text) !== text && !looksLike(text, faulty(text)),
    );
    expect(seen.length).toBeGreaterThan(1);
  }
});

/** A sun over the sea: rays three wide beside the edge of a clip, an outline that ends where it began without saying so. */
const sunset = (horizon: number, ray = 39): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 64 64"><clipPath id="sky"><rect y="7" width="64" height="${horizon - 7}"/></clipPath><g clip-path="url(#sky)" fill="none" stroke="#f59e0b" stroke-width="3"><path d="M42.5 39A10.5 10.5 0 1 1 32 28.5 10.5 10.5 0 0 1 42.5 39ZM32 22V16M16 ${ray}H9M54 ${ray}H48"/></g><path fill="none" stroke="navy" stroke-width="2" d="M10 50L20 45L30 58L10 50"/></svg>`;

it('wide lines beside the edge of a clip count by their middle, and ends that meet as closed', () => {
  expect(foreignOutcome(sunset(39.5), 'sunset')).toBe('right');
  expect(looksLike(sunset(39.5), sunset(37))).toBe(false);
  expect(looksLike(sunset(39.5), sunset(39.5, 37.5))).toBe(false);
});

const dxfs = Array.from({ length: 16 }, (_, i) => randomForeignDxf(`dxf-${i}`));

it('random DXF of blocks, bulges, ellipses and splines are read where an independent reader finds them', {
  timeout: 120_000,
}, () => {
  expect(dxfs.map((text) => foreignOutcome(text, 'pier.dxf')).filter((outcome) => outcome !== 'right')).toEqual([]);
});

it('a bulge, a turn, a stretch or an end that is misread in a DXF is seen', () => {
  const faults: readonly ((text: string) => string)[] = [
    (text) => text.replaceAll(/( 42\n)-?0/g, '$11'),
    (text) => text.replaceAll(/( 50\n)(\d)/g, '$1-$2'),
    (text) => text.replace(/( 41\n)2\n/, '$13\n'),
    (text) => text.replace(/( 11\n)(\d)/, '$13$2'),
    (text) => text.replace(/ {2}0\nCIRCLE[\s\S]*? 40\n[\d.]+\n/, ''),
  ];
  for (const faulty of faults) {
    const changed = dxfs.filter((text) => faulty(text) !== text);
    // What is read is the spoilt drawing, what it is compared with the one that was meant.
    const seen = changed.filter(
      (text) => isSameDxf(text, readArtwork(faulty(text), { name: 'twin', repair: false })) === false,
    );
    expect(seen.length).toBeGreaterThan(changed.length / 2);
  }
});
