import type { Point } from '@underlap/geometry/point';
import type { ComplaintList } from '../complaint-list.ts';
import type { DrawnShape, Repair } from '../drawing.ts';
import { chainCurves } from './chain.ts';
import type { PlacedCurve } from './expand.ts';

/** Shapes in the order of their first curve, and what had to be mended on the way. */
interface ShapesMade {
  readonly shapes: readonly DrawnShape[];
  readonly repairs: readonly Repair[];
}

/**
 * One shape for every closed curve and for every chain of open ones. Open curves are joined only with curves of their own
 * layer and colour: those stand for one process.
 * @param size - extent of the drawing, in its unit.
 */
export function shapesFromCurves(
  curves: readonly PlacedCurve[],
  size: number,
  repair: boolean,
  complaints: ComplaintList,
): ShapesMade {
  const ids = new Ids();
  const repairs: Repair[] = [];
  const made: { order: number; shape: () => DrawnShape }[] = [];
  const open = new Map<string, number[]>();
  curves.forEach((curve, index) => {
    if (curve.contour.closed) {
      made.push({ order: index, shape: () => shapeOf(curve, curve.contour, ids, curve.element) });
      return;
    }
    const key = `${curve.layer}\n${curve.colour}`;
    const group = open.get(key);
    if (group === undefined) open.set(key, [index]);
    else group.push(index);
  });
  let joinedCurves = 0;
  let joinedOutlines = 0;
  let firstJoin: { element: string; at: Point } | null = null;
  for (const group of open.values()) {
    const members = group.map((index) => curves[index]!);
    const chained = chainCurves(
      members.map(({ contour }) => contour),
      size,
      repair,
    );
    for (const { index, keeps } of chained.doubles) repairs.push(doubleRemoved(members[index]!, members[keeps]!));
    for (const chain of chained.chains) {
      const first = chain.members.reduce((least, index) => Math.min(least, index));
      const curve = members[first]!;
      const count = chain.members.length;
      const element = count === 1 ? curve.element : `${curve.element}, and ${count - 1} more joined to it`;
      if (count > 1) {
        joinedCurves += count;
        joinedOutlines++;
        firstJoin ??= { element, at: chain.contour.start };
      }
      made.push({ order: group[first]!, shape: () => shapeOf(curve, chain.contour, ids, element) });
    }
  }
  if (firstJoin !== null) {
    const message = `${joinedCurves} loose lines and arcs whose ends meet were joined to ${joinedOutlines} ${joinedOutlines === 1 ? 'line' : 'lines'}`;
    complaints.add('joined-ends', 'note', message, firstJoin.element, firstJoin.at);
  }
  made.sort((a, b) => a.order - b.order);
  return { shapes: made.map(({ shape }) => shape()), repairs };
}

function shapeOf(curve: PlacedCurve, contour: PlacedCurve['contour'], ids: Ids, element: string): DrawnShape {
  return {
    id: ids.next(curve),
    name: curve.block,
    // Layer 0 is where everything lies that was put nowhere.
    layer: curve.layer === '0' ? null : curve.layer,
    contours: [contour],
    fillRule: 'nonzero',
    fill: null,
    stroke: curve.colour,
    strokeWidthMm: 0,
    place: { element, at: contour.start },
  };
}

function doubleRemoved(double: PlacedCurve, kept: PlacedCurve): Repair {
  return {
    kind: 'removed-double',
    message: `it lies exactly on ${kept.element} and would be cut twice: left out`,
    place: { element: double.element, at: double.contour.start },
    sizeMm: 0,
  };
}

/** The same from run to run: type and handle, else type and running number; repeats get a number behind them. */
class Ids {
  readonly #numbers = new Map<string, number>();
  readonly #used = new Set<string>();

  next({ type, handle }: PlacedCurve): string {
    const kind = type.toLowerCase();
    const base = handle === null ? `${kind}-${this.#count(kind)}` : `${kind}-${handle}`;
    let id = base;
    while (this.#used.has(id)) id = `${base}~${this.#count(`~${base}`) + 1}`;
    this.#used.add(id);
    return id;
  }

  #count(key: string): number {
    const count = (this.#numbers.get(key) ?? 0) + 1;
    this.#numbers.set(key, count);
    return count;
  }
}
