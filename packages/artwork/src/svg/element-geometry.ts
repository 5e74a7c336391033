import { transformSegment } from '@underlap/geometry/contour';
import type { Contour, ContourView } from '@underlap/geometry/curve';
import { apply, type Matrix } from '@underlap/geometry/matrix';
import type { SegmentPacker } from '@underlap/geometry/packed-segments';
import { readPath } from '../path-grammar.ts';
import { ellipseContour, pointsContour, rectContour } from './basic-shapes.ts';
import { LengthReader, type ViewportSize } from './lengths.ts';
import type { Style } from './style.ts';
import type { XmlNode } from './xml-tree.ts';

export interface ElementGeometry {
  readonly contours: readonly ContourView[];
  /** What was wrong, in words; the contours are what could be read all the same. */
  readonly fault: string | null;
}

export const SHAPE_ELEMENTS: ReadonlySet<string> = new Set([
  'path',
  'rect',
  'circle',
  'ellipse',
  'line',
  'polyline',
  'polygon',
]);

/**
 * Contours of a shape element.
 * @param matrix - from its own coordinates to those wanted.
 * @param packer - holds the segments.
 * @throws GeometryError when the matrix sends a point out of range.
 */
export function elementGeometry(
  node: XmlNode,
  style: Style,
  viewport: ViewportSize,
  segmentLimit: number,
  matrix: Matrix,
  packer: SegmentPacker,
): ElementGeometry {
  if (node.name === 'path') {
    const { contours, fault } = readPath(pathData(node, style), segmentLimit, matrix, packer);
    return { contours, fault: fault && `${fault.message} (character ${fault.at + 1} of the path data)` };
  }
  const lengths = new LengthReader(node, style, viewport);
  const { contours, fault } = basicShape(node, lengths);
  if (lengths.fault !== null) return { contours: [], fault: lengths.fault };
  return { contours: contours.map((contour) => placed(contour, matrix, packer)), fault };
}

function placed({ start, segments, closed }: Contour, matrix: Matrix, packer: SegmentPacker): ContourView {
  for (const segment of segments) packer.add(transformSegment(segment, matrix));
  return { start: apply(matrix, start), segments: packer.take(), closed };
}

/** In its own coordinates. */
interface BasicShape extends ElementGeometry {
  readonly contours: readonly Contour[];
}

function basicShape(node: XmlNode, lengths: LengthReader): BasicShape {
  switch (node.name) {
    case 'rect':
      return rectangle(lengths);
    case 'circle': {
      const r = lengths.read('r', 'both') ?? 0;
      if (r < 0) return { contours: [], fault: 'its radius is negative' };
      return r === 0
        ? empty
        : { contours: [ellipseContour(lengths.orZero('cx', 'x'), lengths.orZero('cy', 'y'), r, r)], fault: null };
    }
    case 'ellipse': {
      const wide = lengths.read('rx', 'x');
      const high = lengths.read('ry', 'y');
      const rx = wide ?? high ?? 0;
      const ry = high ?? wide ?? 0;
      if (rx < 0 || ry < 0) return { contours: [], fault: 'a radius is negative' };
      if (rx === 0 || ry === 0) return empty;
      return { contours: [ellipseContour(lengths.orZero('cx', 'x'), lengths.orZero('cy', 'y'), rx, ry)], fault: null };
    }
    case 'line': {
      const start = { x: lengths.orZero('x1', 'x'), y: lengths.orZero('y1', 'y') };
      const to = { x: lengths.orZero('x2', 'x'), y: lengths.orZero('y2', 'y') };
      if (start.x === to.x && start.y === to.y) return empty;
      return { contours: [{ start, segments: [{ kind: 'line', to }], closed: false }], fault: null };
    }
    default: {
      const { contour, fault } = pointsContour(node.attributes.points ?? '', node.name === 'polygon');
      return { contours: contour === null ? [] : [contour], fault };
    }
  }
}

const empty: BasicShape = { contours: [], fault: null };

/** `d` as an attribute, or as SVG 2's property with path("..."). */
function pathData(node: XmlNode, style: Style): string {
  const property = /^path\(\s*(["'])([^"']*)\1\s*\)$/.exec(style.own.d ?? '');
  const data = property?.[2] ?? node.attributes.d ?? '';
  return data.trim() === 'none' ? '' : data;
}

function rectangle(lengths: LengthReader): BasicShape {
  const width = lengths.orZero('width', 'x');
  const height = lengths.orZero('height', 'y');
  if (width < 0 || height < 0) return { contours: [], fault: 'its width or height is negative' };
  if (width === 0 || height === 0) return empty;
  const given = (value: number | null): number | null => (value === null || value < 0 ? null : value);
  const wide = given(lengths.read('rx', 'x'));
  const high = given(lengths.read('ry', 'y'));
  const rx = Math.min(wide ?? high ?? 0, width / 2);
  const ry = Math.min(high ?? wide ?? 0, height / 2);
  return {
    contours: [rectContour(lengths.orZero('x', 'x'), lengths.orZero('y', 'y'), width, height, rx, ry)],
    fault: null,
  };
}
