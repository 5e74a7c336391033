import type { ContourView } from './curve.ts';
import { FloatList, IntList } from './growing-list.ts';
import { SegmentPacker } from './packed-segments.ts';

/** Integers kept for each contour: where its segments are, and how many with whether it is closed. */
const FIELDS = 4;

/** Contours as numbers, without an object for each: 32 bytes and its segments'. For drawings of many loose lines. */
export class PackedContours {
  private readonly packer = new SegmentPacker();
  private readonly starts = new FloatList();
  private readonly fields = new IntList();

  get length(): number {
    return this.starts.length / 2;
  }

  add({ start, segments, closed }: ContourView): void {
    for (const segment of segments) this.packer.add(segment);
    const { first, offset, length, lastOffset } = this.packer.take();
    this.starts.push(start.x);
    this.starts.push(start.y);
    this.fields.push(first);
    this.fields.push(offset);
    this.fields.push(lastOffset);
    this.fields.push(2 * length + (closed ? 1 : 0));
  }

  /** Made anew at every call; its segments stay packed. */
  at(index: number): ContourView {
    const { fields } = this;
    const i = FIELDS * index;
    return {
      start: { x: this.starts.get(2 * index), y: this.starts.get(2 * index + 1) },
      segments: this.packer.list(fields.get(i), fields.get(i + 1), fields.get(i + 3) >> 1, fields.get(i + 2)),
      closed: this.isClosed(index),
    };
  }

  isClosed(index: number): boolean {
    return (this.fields.get(FIELDS * index + 3) & 1) === 1;
  }
}
