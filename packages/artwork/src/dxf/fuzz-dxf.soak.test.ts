import seedrandom from 'seedrandom';
import { it } from 'vitest';
import { everythingText, spoilt } from '../../testing/dxf-mutations.ts';
import { outcomeOf } from '../../testing/fuzz-dxf.ts';

/** Minutes to run; fresh seeds each time. */
const MINUTES = Number(process.env.SOAK_MINUTES ?? 5);

it('reads or refuses spoilt drawings for as long as it is let', () => {
  const text = everythingText();
  const first = Date.now();
  for (let i = 0; Date.now() - first < MINUTES * 60_000; i++) {
    const seed = `soak-${first}-${i}`;
    try {
      // Faults on top of faults go further astray.
      outcomeOf(spoilt(spoilt(text, seedrandom(seed)), seedrandom(`${seed}-again`)));
    } catch (error) {
      throw new Error(`seed ${seed}: ${error instanceof Error ? error.stack : error}`);
    }
  }
});
