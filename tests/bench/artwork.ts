import { LARGE_DRAWINGS } from '../support/large-drawings.ts';
import { readingCost } from '../support/reading-cost.ts';

/**
 * What reading a drawing of ten megabytes costs, and a half and a quarter of it: `tsx tests/bench/artwork.ts [kind]`. Every
 * reading is a process of its own. Seconds are processor time with garbage collection. `exponent` is log2 of the time over the one
 * before it: 1 is linear, 2 quadratic. `memory` is the process's memory at its highest, garbage not yet collected included, less
 * that of one that reads a tiny drawing; `held` what the drawing keeps; both as multiples of the file. The checksum (total
 * length read) tells whether two runs read the same.
 */
const [only] = process.argv.slice(2);
console.log('drawing        segments     MB  seconds  exponent  memory   held   shapes          checksum');
for (const { name, segments, make } of LARGE_DRAWINGS) {
  if (only !== undefined && only !== name) continue;
  let before: number | null = null;
  for (const count of [segments / 4, segments / 2, segments]) {
    const cost = readingCost(make(count));
    const row = [
      name.padEnd(13),
      String(count).padStart(9),
      (cost.bytes / 1e6).toFixed(1).padStart(6),
      cost.seconds.toFixed(2).padStart(8),
      (before === null ? '' : Math.log2(cost.seconds / before).toFixed(2)).padStart(9),
      (cost.grownBytes / cost.bytes).toFixed(1).padStart(7),
      (cost.heldBytes / cost.bytes).toFixed(1).padStart(6),
      String(cost.shapes).padStart(8),
      cost.checksum.toFixed(3).padStart(17),
    ];
    console.log(row.join(' '));
    before = cost.seconds;
  }
}
