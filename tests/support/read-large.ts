import { readFileSync } from 'node:fs';
import type { Drawing } from '@underlap/artwork/drawing';
import { readArtwork } from '@underlap/artwork/read-artwork';
import { contourLength } from '@underlap/geometry/contour';
import { plainContour } from '@underlap/geometry/packed-segments';

/*
 * A program of its own, so that its memory is its own: reads the drawing in the file that is named and prints what that took.
 * Run with --expose-gc for what is held. With `unpacked` as its second word it holds every segment as an object.
 */

/** What `read-large.ts` prints. */
export interface ProcessCost {
  readonly bytes: number;
  /** Processor time of the reading, garbage collection included. */
  readonly seconds: number;
  /** The process's memory at its highest, from its start on, bytes. */
  readonly peakBytes: number;
  /** What the drawing keeps, bytes. */
  readonly heldBytes: number;
  readonly shapes: number;
  /** Total length of all contours: tells whether two runs read the same. */
  readonly checksum: number;
}

function inUse(): number {
  // Twice: array memory is given back behind the first collection.
  const { gc } = globalThis as { gc?: () => void };
  gc?.();
  gc?.();
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  return heapUsed + arrayBuffers;
}

function costOf(bytes: Uint8Array, isUnpacked: boolean): ProcessCost {
  const started = process.cpuUsage();
  const held = { drawing: readArtwork(bytes, { name: 'drawing' }) as Drawing | null, objects: [] as unknown[] };
  const { user, system } = process.cpuUsage(started);
  const shapes = held.drawing!.shapes.length;
  if (isUnpacked) held.objects = held.drawing!.shapes.map(({ contours }) => contours.map(plainContour));
  const peakBytes = process.resourceUsage().maxRSS * 1024;
  const checksum = lengthOf(held.drawing!);
  const before = inUse();
  held.drawing = null;
  held.objects = [];
  const heldBytes = before - inUse();
  return { bytes: bytes.length, seconds: (user + system) / 1e6, peakBytes, heldBytes, shapes, checksum };
}

function lengthOf({ shapes }: Drawing): number {
  return shapes.reduce(
    (sum, { contours }) => sum + contours.reduce((length, contour) => length + contourLength(contour), 0),
    0,
  );
}

const [, , file, form] = process.argv;
console.log(JSON.stringify(costOf(readFileSync(file!), form === 'unpacked')));
