import { contourArea, contourLength } from '@underlap/geometry/contour';
import { expect } from 'vitest';
import type { Drawing, DrawnShape, ReadOptions } from '../src/drawing.ts';
import { readDxf } from '../src/dxf/read-dxf.ts';
import { type DxfParts, dxfText, type Groups } from './dxf-text.ts';

/* Short words for what the tests of the DXF reader do all the time. */

export const MM = { $INSUNITS: 4 };

export const read = (parts: DxfParts, options: Partial<ReadOptions> = {}): Drawing =>
  readDxf(dxfText({ header: MM, ...parts }), { name: 'boat.dxf', ...options });
export const entities = (groups: Groups, options: Partial<ReadOptions> = {}) => read({ entities: groups }, options);
export const only = (drawing: Drawing): DrawnShape => {
  expect(drawing.shapes).toHaveLength(1);
  return drawing.shapes[0]!;
};
export const area = (shape: DrawnShape) => Math.abs(contourArea(shape.contours[0]!));
export const length = (shape: DrawnShape) => contourLength(shape.contours[0]!);
export const codes = (drawing: Drawing) => drawing.complaints.map(({ code }) => code);
export const kinds = (shape: DrawnShape) =>
  [...new Set([...shape.contours[0]!.segments].map(({ kind }) => kind))].sort();
export const box = [
  [0, 0],
  [40, 0],
  [40, 30],
  [0, 30],
];
