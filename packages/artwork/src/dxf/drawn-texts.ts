import { type Matrix, multiply } from '@underlap/geometry/matrix';
import type { DrawnText } from '../drawing.ts';
import type { PlacedText } from './expand.ts';

/**
 * The texts of a drawing as they stand on its shapes: programs draw them last, whatever the order in the file.
 * @param toDrawing - from model coordinates. @param last - id of the uppermost shape.
 * @remarks Ids are the same from run to run: type and handle, else type and running number. An attribute is called by its tag.
 */
export function drawnTexts(texts: readonly PlacedText[], toDrawing: Matrix, last: string | null): DrawnText[] {
  const used = new Set<string>();
  return texts.map(({ type, handle, layer, colour, element, runs, name, matrix }): DrawnText => {
    const kind = type.toLowerCase();
    const base = handle === null ? kind : `${kind}-${handle}`;
    let id = handle === null ? `${kind}-1` : base;
    for (let number = 2; used.has(id); number++) id = `${base}-${number}`;
    used.add(id);
    const own = multiply(toDrawing, matrix);
    return {
      id,
      name,
      layer: layer === '0' ? null : layer,
      runs,
      matrix: own,
      fill: colour,
      stroke: null,
      strokeWidthMm: 0,
      after: last,
      place: { element, at: { x: own.e, y: own.f } },
    };
  });
}
