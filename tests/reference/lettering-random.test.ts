import { readArtwork } from '@underlap/artwork/read-artwork';
import seedrandom from 'seedrandom';
import { describe, expect, it } from 'vitest';
import { differingShare, letterPaths, page, pixels } from '../support/letters-against-renderer.ts';
import { randomText } from '../support/random-text.ts';

/** How far apart the pictures of one random text are. */
function apart(seed: number): { readonly body: string; readonly ink: number; readonly share: number } {
  const body = randomText(seedrandom(`text ${seed}`));
  const ours = page(letterPaths(readArtwork(page(body), { name: 'quay.svg' })));
  return { body, ...differingShare(pixels(page(body)), pixels(ours)) };
}

describe('random texts', { timeout: 300_000 }, () => {
  it('have the outlines of an independent renderer with the same font', () => {
    let ink = 0;
    for (let seed = 1; seed <= 24; seed++) {
      const found = apart(seed);
      ink += found.ink;
      expect(found.share, found.body).toBeLessThan(0.03);
    }
    expect(ink / 24).toBeGreaterThan(3000);
  });
});
