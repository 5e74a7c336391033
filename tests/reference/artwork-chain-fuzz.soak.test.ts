import { expect, it } from 'vitest';
import { chainRun } from '../support/spoil-chain.ts';

/** Drawings to spoil; fresh seeds each time. */
const COUNT = Number(process.env.SOAK_DRAWINGS ?? 100_000);
/** Portions, so that a run that is stopped has said how far it came. */
const PORTIONS = 100;
const PREFIX = `soak-${Date.now()}`;

it.each(Array.from({ length: PORTIONS }, (_, i) => i))(
  'takes spoilt drawings through reading, inspecting and finding parts, portion %i of 100',
  (portion) => {
    const count = Math.ceil(COUNT / PORTIONS);
    const { counts, slowest, slowestSeed } = chainRun(`${PREFIX}-${portion}`, count);
    process.stderr.write(`${PREFIX}-${portion} ${JSON.stringify(counts)} ${slowest} ${slowestSeed}\n`);
    expect(counts.refused + counts['no sign'] + counts.sign).toBe(count);
    // A hang would show as one drawing that takes far longer than its size explains.
    expect(slowest).toBeLessThan(60);
  },
);
