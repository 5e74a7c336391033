import { expect, it } from 'vitest';
import { foreignOutcome, looksLike } from '../support/foreign.ts';
import { comparedIcons } from '../support/icon-corpus.ts';
import { randomForeign } from '../support/random-foreign.ts';

/** Against @resvg/resvg-js 2.6, picture by picture: see `foreignOutcome`. The bench runs all of the icon sets. */

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

it('a clip, a rule or a place that is misread is seen', () => {
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
