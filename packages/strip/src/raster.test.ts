import { scatterAll } from '@underlap/nest/search/disturb';
import { Layout } from '@underlap/nest/search/layout';
import { Model } from '@underlap/nest/search/model';
import { seededRandom } from '@underlap/nest/search/random';
import type { SearchInput } from '@underlap/nest/search/task';
import { describe, expect, it } from 'vitest';
import { mapKernel } from './map-kernel.ts';
import { packStrip } from './pack-strip.ts';
import { RasterSearch } from './raster-search.ts';
import { rasterFor } from './raster-space.ts';

const HEIGHT = 12;
const TOLERANCE = 1e-4;

/** Pieces on whole numbers: a bar, an L, a U whose gap the bar just fits, and a triangle. */
function latticePieces(scale: number): SearchInput {
  const rings = [
    [0, 0, 2, 0, 2, 6, 0, 6],
    [0, 0, 4, 0, 4, 2, 2, 2, 2, 6, 0, 6],
    [0, 0, 6, 0, 6, 6, 4, 6, 4, 2, 2, 2, 2, 6, 0, 6],
    [0, 0, 6, 0, 0, 6],
  ];
  const forms = rings.map((ring) => ({ outer: Float64Array.from(ring, (value) => value * scale), holes: [] }));
  const poses = rings.map((_, form) => [0, 90, 180, 270].map((turnDeg) => ({ form, turnDeg })));
  const items = Array.from({ length: 12 }, (_, index) => ({ poses: poses[index % 4]! }));
  return { forms, items, spacing: 0, tolerance: TOLERANCE * scale };
}

function layoutOf(input: SearchInput, length: number, height: number): Layout {
  const board = { minX: 0, minY: 0, maxX: length, maxY: height, obstacles: [], price: 1 };
  return new Layout(new Model(input, []), [board], []);
}

describe('map kernel', () => {
  it('gives the same bits with and without WebAssembly', () => {
    const random = seededRandom('kernel');
    const kernels = [mapKernel(true), mapKernel(false)];
    const starts = kernels.map((kernel) => kernel.reserve(20_000));
    expect(starts[0]).toBe(starts[1]);
    for (let k = 4000; k < 20_000; k++) {
      const value = random() * 3;
      for (const kernel of kernels) kernel.numbers[k] = value;
    }
    for (let round = 0; round < 500; round++) {
      const [to, from, weight] = [(random() * 1000) | 0, 4000 + ((random() * 9000) | 0), random() * 10];
      for (const kernel of kernels) kernel.add(to, from, 61, 23, 1 + (round % 5), 1 + (round % 17), weight);
    }
    expect(kernels[0]!.numbers.subarray(0, 4000)).toEqual(kernels[1]!.numbers.subarray(0, 4000));
    expect(kernels[0]!.least(2, 300)).toBe(kernels[1]!.least(2, 300));
    expect(kernels[0]!.least(2, 300)).toBe(Math.min(...kernels[0]!.numbers.subarray(2, 1202)));
  });
});

describe('raster', () => {
  it('finds the lattice of the pieces in any unit, and none where a corner is off it', () => {
    for (const scale of [1, 0.37, 25.4]) {
      const space = rasterFor(layoutOf(latticePieces(scale), 30 * scale, 30 * scale), 30 * scale, 50 * scale, 1e-6);
      expect(space!.isLattice).toBe(true);
      expect((2 * scale) / space!.unit).toBeCloseTo(Math.round((2 * scale) / space!.unit), 6);
    }
    const pieces = latticePieces(1);
    pieces.forms[0]!.outer[2] = 2.000123;
    expect(rasterFor(layoutOf(pieces, 30, 30), 30, 50, 1e-6)!.isLattice).toBe(false);
  });

  it('leaves a layout whose depths are what the layout itself finds', () => {
    const input = latticePieces(1);
    const layout = layoutOf(input, 27, HEIGHT);
    const space = rasterFor(layout, HEIGHT, 27, TOLERANCE)!;
    const random = seededRandom('raster');
    const search = new RasterSearch(layout, space, random);
    for (const length of [27, 20, 15]) {
      layout.boards[0] = { minX: 0, minY: 0, maxX: length, maxY: HEIGHT, obstacles: [], price: 1 };
      scatterAll(layout, random);
      const isApart = search.separate(40, () => false);
      layout.refreshAll();
      expect(layout.total(TOLERANCE)).toBeCloseTo(search.bestTotal, 4);
      expect(isApart).toBe(search.bestTotal === 0);
      for (let i = 0; i < layout.items; i++) {
        const pose = layout.model.poses[layout.pose[i]!]!;
        expect(layout.x[i]! + pose.minX).toBeGreaterThan(-1e-9);
        expect(layout.x[i]! + pose.maxX).toBeLessThan(length + 1e-9);
        expect(layout.y[i]! + pose.maxY).toBeLessThan(HEIGHT + 1e-9);
      }
    }
  });

  it('sees a slot of no play, and that half a unit beside it is none', () => {
    const model = new Model(latticePieces(1), []);
    const layout = new Layout(model, [{ minX: 0, minY: 0, maxX: 30, maxY: 30, obstacles: [], price: 1 }], []);
    // The bar (item 0) in the gap of the U (item 2): both upright, middles of the boxes as origins.
    const put = (dx: number) => {
      layout.put(2, 0, model.itemPoses[2]![0]!, 10, 10);
      layout.put(0, 0, model.itemPoses[0]![0]!, 10 + dx, 12);
      return layout.pairDepth(0, 2);
    };
    expect(put(0)).toBeGreaterThan(0.5);
    model.seeSlots(TOLERANCE);
    expect(put(0)).toBe(0);
    expect(put(0.5)).toBeGreaterThan(0.1);
    expect(put(1)).toBeGreaterThan(0.5);
  });

  it('takes the tip of a spike that reaches in deeper than the play for no slot', () => {
    const square = Float64Array.of(0, 0, 10, 0, 10, 10, 0, 10);
    const spike = Float64Array.of(0, 0, 8, -0.7, 8, 0.7);
    const forms = [square, spike].map((outer) => ({ outer, holes: [] }));
    const items = forms.map((_, form) => ({ poses: [{ form, turnDeg: 0 }] }));
    const model = new Model({ forms, items, spacing: 0, tolerance: TOLERANCE }, []);
    const layout = new Layout(model, [{ minX: 0, minY: 0, maxX: 30, maxY: 30, obstacles: [], price: 1 }], []);
    // The tip, 4 left of the middle of the spike's box, in the right side of the square, 5 right of its middle.
    const depthAt = (reach: number) => {
      layout.put(0, 0, model.itemPoses[0]![0]!, 10, 10);
      layout.put(1, 0, model.itemPoses[1]![0]!, 10 + 5 + 4 - reach, 10);
      return layout.pairDepth(0, 1);
    };
    model.seeSlots(TOLERANCE);
    expect(depthAt(0.5 * TOLERANCE)).toBeLessThan(TOLERANCE);
    for (const times of [2, 5, 9]) expect(depthAt(times * TOLERANCE)).toBeCloseTo(times * TOLERANCE, 7);
  });

  it('keeps an incumbent that uses slots', () => {
    const { forms, items } = latticePieces(1);
    const input = { forms, items: [items[2]!, items[0]!], spacing: 0, tolerance: TOLERANCE, height: 8 };
    const spots = [
      { item: 0, board: 0, pose: 0, turnDeg: 0, x: 0, y: 0 },
      { item: 1, board: 0, pose: 0, turnDeg: 0, x: 2, y: 2 },
    ];
    expect(packStrip(input, { evaluations: 1 }, { seed: 1 }, spots).length).toBeCloseTo(6, 9);
  });
});
