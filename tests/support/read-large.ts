import { readFileSync } from 'node:fs';
import { readArtwork } from '@underlap/artwork/read-artwork';
import { contourLength } from '@underlap/geometry/contour';

/*
 * A program of its own, so that its memory is its own: reads the drawing in the file that is named and prints what that took.
 * Run with --expose-gc for what is held.
 */

/** What `read-large.ts` prints. */
export interface ReadingCost {
  readonly bytes: number;
  /** Processor time, garbage collection included. */
  readonly seconds: number;
  /** Growth of the process's memory at its highest, bytes. */
  readonly peakBytes: number;
  /** What the drawing keeps, bytes. */
  readonly heldBytes: number;
  readonly shapes: number;
  /** Total length of all contours: tells whether two runs read the same. */
  readonly checksum: number;
}

const collect = (globalThis as { gc?: () => void }).gc ?? (() => {});
readArtwork('<svg xmlns="http://www.w3.org/2000/svg" width="9mm" height="9mm"><path d="M0 0h1v1z"/></svg>', {
  name: 'a',
});
const bytes = readFileSync(process.argv[2]!);
collect();
const before = process.memoryUsage();
const started = process.cpuUsage();
const drawing = readArtwork(bytes, { name: 'drawing' });
const { user, system } = process.cpuUsage(started);
const peak = process.resourceUsage().maxRSS * 1024;
collect();
const cost: ReadingCost = {
  bytes: bytes.length,
  seconds: (user + system) / 1e6,
  peakBytes: peak - before.rss + bytes.length,
  heldBytes: process.memoryUsage().heapUsed - before.heapUsed,
  shapes: drawing.shapes.length,
  checksum: drawing.shapes.reduce(
    (sum, shape) => sum + shape.contours.reduce((length, contour) => length + contourLength(contour), 0),
    0,
  ),
};
console.log(JSON.stringify(cost));
