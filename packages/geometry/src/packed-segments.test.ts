import seedrandom from 'seedrandom';
import { describe, expect, it } from 'vitest';
import { contourArea, contourBounds, contourEnd, contourLength, reversedContour } from './contour.ts';
import type { Contour, Segment } from './curve.ts';
import { PackedContours } from './packed-contours.ts';
import { plainContour, SegmentPacker } from './packed-segments.ts';
import type { Point } from './point.ts';

const random = seedrandom('packed');
const point = (): Point => ({ x: random() * 100, y: random() * 100 });

function anySegment(): Segment {
  const kind = Math.floor(random() * 4);
  if (kind === 0) return { kind: 'line', to: point() };
  if (kind === 1) return { kind: 'cubic', c1: point(), c2: point(), to: point() };
  if (kind === 2) return { kind: 'arc', to: point(), centre: point(), radius: random(), sweep: random() };
  const [rx, ry, axisTurn, from] = [random(), random(), random(), random()];
  return { kind: 'ellipse', to: point(), centre: point(), rx, ry, axisTurn, from, sweep: -random() };
}

const anyContour = (count: number): Contour => ({
  start: point(),
  segments: Array.from({ length: count }, anySegment),
  closed: random() < 0.5,
});

describe('packed segments', () => {
  it('are what was packed, over many chunks and contours of one packer', () => {
    const packer = new SegmentPacker();
    const contours = [1, 5000, 0, 3, 700, 1, 1].map(anyContour);
    const lists = contours.map(({ segments }) => {
      for (const segment of segments) packer.add(segment);
      expect(packer.length).toBe(segments.length);
      return packer.take();
    });
    contours.forEach(({ segments }, i) => {
      expect([...lists[i]!]).toEqual(segments);
      expect(lists[i]!.length).toBe(segments.length);
      for (const index of [0, 1, 2, segments.length >> 1, segments.length - 1, segments.length, -1, -2]) {
        expect(lists[i]!.at(index)).toEqual(segments.at(index));
      }
    });
  });

  it('may end elsewhere until they are taken', () => {
    const packer = new SegmentPacker();
    packer.addLine(1, 2);
    packer.add({ kind: 'cubic', c1: { x: 1, y: 1 }, c2: { x: 2, y: 2 }, to: { x: 3, y: 3 } });
    packer.moveEnd({ x: 7, y: 8 });
    expect([...packer.take()]).toEqual([
      { kind: 'line', to: { x: 1, y: 2 } },
      { kind: 'cubic', c1: { x: 1, y: 1 }, c2: { x: 2, y: 2 }, to: { x: 7, y: 8 } },
    ]);
  });

  it('answer like an array', () => {
    const { segments } = anyContour(50);
    const packer = new SegmentPacker();
    for (const segment of segments) packer.add(segment);
    const list = packer.take();
    const isLine = ({ kind }: Segment): boolean => kind === 'line';
    expect([list.some(isLine), list.every(isLine)]).toEqual([segments.some(isLine), segments.every(isLine)]);
    expect([list.some(() => false), list.every(() => true)]).toEqual([false, true]);
  });
});

describe('packed contours', () => {
  const contours = Array.from({ length: 200 }, () => anyContour(1 + Math.floor(random() * 20)));
  const packed = new PackedContours();
  for (const contour of contours) packed.add(contour);

  it('measure as they did', () => {
    expect(packed.length).toBe(contours.length);
    contours.forEach((contour, i) => {
      const view = packed.at(i);
      expect(view.start).toEqual(contour.start);
      expect(packed.isClosed(i)).toBe(contour.closed);
      expect(contourEnd(view)).toEqual(contourEnd(contour));
      expect(contourBounds(view)).toEqual(contourBounds(contour));
      expect(contourLength(view)).toBe(contourLength(contour));
      expect(contourArea(view)).toBe(contourArea(contour));
      expect(reversedContour(view)).toEqual(reversedContour(contour));
    });
  });

  it('are plain again when taken out, and can be sent to a worker then', () => {
    contours.forEach((contour, i) => {
      expect(structuredClone(plainContour(packed.at(i)))).toEqual(contour);
    });
    const plain = contours[0]!;
    expect(plainContour(plain).segments).toBe(plain.segments);
  });
});
