import type { Contour, ContourView, Segment, SegmentList } from './curve.ts';
import type { Point } from './point.ts';

/*
 * Segments as numbers in a row: 17 bytes for a line, 49 for an arc or a cubic, where objects take 110 to 280. A drawing of a
 * million segments is held in tens of megabytes; an algorithm takes the objects of one contour at a time (`plainContour`).
 */

/** Numbers of a chunk; chunks are never copied as the list grows, and small enough for a drawing of one line. */
const CHUNK_BITS = 11;
const CHUNK = 1 << CHUNK_BITS;
const MASK = CHUNK - 1;

const [LINE, ARC, ELLIPSE, CUBIC] = [0, 1, 2, 3];

/** How many numbers a segment of each kind takes. Its end comes first. */
const SIZES = [2, 6, 9, 6] as const;

interface Chunks {
  readonly kinds: Uint8Array[];
  readonly numbers: Float64Array[];
}

/** Packs segments, one contour after the other; all contours of one packer share its memory. */
export class SegmentPacker {
  private readonly chunks: Chunks = { kinds: [], numbers: [] };
  private count = 0;
  private offset = 0;
  private taken = 0;
  private takenOffset = 0;
  private lastOffset = 0;

  /** Segments since the last contour was taken. */
  get length(): number {
    return this.count - this.taken;
  }

  /** Takes over the numbers; the object is not kept. Amortised O(1). */
  add(segment: Segment): void {
    const at = this.room(kindOf(segment));
    const numbers = this.chunks.numbers[at >> CHUNK_BITS]!;
    let i = at & MASK;
    numbers[i++] = segment.to.x;
    numbers[i++] = segment.to.y;
    switch (segment.kind) {
      case 'line':
        return;
      case 'cubic':
        numbers[i++] = segment.c1.x;
        numbers[i++] = segment.c1.y;
        numbers[i++] = segment.c2.x;
        numbers[i] = segment.c2.y;
        return;
      case 'arc':
        numbers[i++] = segment.centre.x;
        numbers[i++] = segment.centre.y;
        numbers[i++] = segment.radius;
        numbers[i] = segment.sweep;
        return;
      case 'ellipse':
        numbers[i++] = segment.centre.x;
        numbers[i++] = segment.centre.y;
        numbers[i++] = segment.rx;
        numbers[i++] = segment.ry;
        numbers[i++] = segment.axisTurn;
        numbers[i++] = segment.from;
        numbers[i] = segment.sweep;
    }
  }

  /** A straight line, without an object for it. */
  addLine(x: number, y: number): void {
    const at = this.room(LINE);
    const numbers = this.chunks.numbers[at >> CHUNK_BITS]!;
    numbers[at & MASK] = x;
    numbers[(at & MASK) + 1] = y;
  }

  /** Let the last segment end elsewhere. */
  moveEnd({ x, y }: Point): void {
    const numbers = this.chunks.numbers[this.lastOffset >> CHUNK_BITS]!;
    numbers[this.lastOffset & MASK] = x;
    numbers[(this.lastOffset & MASK) + 1] = y;
  }

  /** The segments since the last call; they do not change any more. */
  take(): PackedSegments {
    const list = this.list(this.taken, this.takenOffset, this.length, this.lastOffset);
    this.taken = this.count;
    this.takenOffset = this.offset;
    return list;
  }

  /** Segments that were taken before, found again by the place they said. */
  list(first: number, offset: number, length: number, lastOffset: number): PackedSegments {
    return new PackedSegments(this.chunks, first, offset, length, lastOffset);
  }

  /** Where the next segment's numbers begin: a segment never lies across two chunks. */
  private room(kind: number): number {
    const at = placeFor(this.offset, SIZES[kind]!);
    const { kinds, numbers } = this.chunks;
    if (at >> CHUNK_BITS >= numbers.length) numbers.push(new Float64Array(CHUNK));
    if (this.count >> CHUNK_BITS >= kinds.length) kinds.push(new Uint8Array(CHUNK));
    kinds[this.count >> CHUNK_BITS]![this.count & MASK] = kind;
    this.count++;
    this.lastOffset = at;
    this.offset = at + SIZES[kind]!;
    return at;
  }
}

/** Segments of one contour in a packer's memory. */
export class PackedSegments implements SegmentList {
  readonly length: number;
  /** Place in the packer: running number of the first segment, and where its and the last one's numbers are. */
  readonly first: number;
  readonly offset: number;
  readonly lastOffset: number;
  private readonly chunks: Chunks;

  constructor(chunks: Chunks, first: number, offset: number, length: number, lastOffset: number) {
    this.chunks = chunks;
    this.first = first;
    this.offset = offset;
    this.length = length;
    this.lastOffset = lastOffset;
  }

  at(index: number): Segment | undefined {
    const i = index < 0 ? index + this.length : index;
    if (i < 0 || i >= this.length) return undefined;
    if (i === this.length - 1) return read(this.chunks, this.first + i, this.lastOffset);
    let at = this.offset;
    for (let k = 0; k < i; k++) {
      const size = SIZES[kindAt(this.chunks, this.first + k)]!;
      at = placeFor(at, size) + size;
    }
    return read(this.chunks, this.first + i, placeFor(at, SIZES[kindAt(this.chunks, this.first + i)]!));
  }

  some(test: (segment: Segment) => boolean): boolean {
    return !this.every((segment) => !test(segment));
  }

  every(test: (segment: Segment) => boolean): boolean {
    for (const segment of this) if (!test(segment)) return false;
    return true;
  }

  [Symbol.iterator](): Iterator<Segment> {
    return new PackedIterator(this.chunks, this.first, this.offset, this.length);
  }
}

/** A class rather than a closure: it runs millions of times. */
class PackedIterator implements Iterator<Segment> {
  private readonly chunks: Chunks;
  private readonly end: number;
  private index: number;
  private offset: number;

  constructor(chunks: Chunks, first: number, offset: number, length: number) {
    this.chunks = chunks;
    this.index = first;
    this.end = first + length;
    this.offset = offset;
  }

  next(): IteratorResult<Segment> {
    if (this.index >= this.end) return { done: true, value: undefined };
    const size = SIZES[kindAt(this.chunks, this.index)]!;
    const at = placeFor(this.offset, size);
    this.offset = at + size;
    return { done: false, value: read(this.chunks, this.index++, at) };
  }
}

/** The contour with its segments in an array: what algorithms work on, and what may be sent to a worker. */
export function plainContour(view: ContourView): Contour {
  const { start, segments, closed } = view;
  return isPlain(segments) ? { start, segments, closed } : { start, segments: [...segments], closed };
}

function isPlain(segments: SegmentList): segments is readonly Segment[] {
  return Array.isArray(segments);
}

function placeFor(offset: number, size: number): number {
  return (offset & MASK) + size > CHUNK ? (offset | MASK) + 1 : offset;
}

function kindOf(segment: Segment): number {
  switch (segment.kind) {
    case 'line':
      return LINE;
    case 'arc':
      return ARC;
    case 'ellipse':
      return ELLIPSE;
    case 'cubic':
      return CUBIC;
  }
}

function kindAt(chunks: Chunks, index: number): number {
  return chunks.kinds[index >> CHUNK_BITS]![index & MASK]!;
}

function read(chunks: Chunks, index: number, offset: number): Segment {
  const n = chunks.numbers[offset >> CHUNK_BITS]!;
  const i = offset & MASK;
  const to: Point = { x: n[i]!, y: n[i + 1]! };
  const kind = kindAt(chunks, index);
  if (kind === LINE) return { kind: 'line', to };
  const second: Point = { x: n[i + 2]!, y: n[i + 3]! };
  if (kind === CUBIC) return { kind: 'cubic', c1: second, c2: { x: n[i + 4]!, y: n[i + 5]! }, to };
  if (kind === ARC) return { kind: 'arc', to, centre: second, radius: n[i + 4]!, sweep: n[i + 5]! };
  return {
    kind: 'ellipse',
    to,
    centre: second,
    rx: n[i + 4]!,
    ry: n[i + 5]!,
    axisTurn: n[i + 6]!,
    from: n[i + 7]!,
    sweep: n[i + 8]!,
  };
}
