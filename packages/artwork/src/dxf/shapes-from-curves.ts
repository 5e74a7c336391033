import { transformSegment } from '@underlap/geometry/contour';
import type { ContourView } from '@underlap/geometry/curve';
import { IntList } from '@underlap/geometry/growing-list';
import { apply, type Matrix } from '@underlap/geometry/matrix';
import { SegmentPacker } from '@underlap/geometry/packed-segments';
import type { Point } from '@underlap/geometry/point';
import type { ComplaintList } from '../complaint-list.ts';
import type { DrawnShape, Repair } from '../drawing.ts';
import { flatText } from '../flat-text.ts';
import { type Chains, chainCurves } from './chain.ts';
import type { CurveRow } from './measured-curves.ts';
import type { PlacedCurve, PlacedCurves } from './placed-curves.ts';

/** Shapes in the order of their first curve, and what had to be mended on the way. */
interface ShapesMade {
  readonly shapes: readonly DrawnShape[];
  readonly repairs: readonly Repair[];
}

/** Open curves of one layer and colour. */
class Group {
  /** Running numbers among all curves. */
  readonly members = new IntList();
  readonly row: CurveRow;

  constructor(curves: PlacedCurves) {
    const { members } = this;
    this.row = {
      get length() {
        return members.length;
      },
      at: (index) => curves.contour(members.get(index)),
    };
  }
}

/** The chains of one group. */
interface GroupChains {
  readonly chains: Chains;
  /** How many chains the groups before it have. */
  readonly before: number;
}

/**
 * One shape for every closed curve and for every chain of open ones. Open curves are joined only with curves of their own
 * layer and colour: those stand for one process.
 * @param curves - in model coordinates; `toDrawing` leads from there to those of the shapes.
 * @param size - extent of the model.
 */
export function shapesFromCurves(
  curves: PlacedCurves,
  toDrawing: Matrix,
  size: number,
  repair: boolean,
  complaints: ComplaintList,
): ShapesMade {
  const repairs: Repair[] = [];
  const packer = new SegmentPacker();
  const made: GroupChains[] = [];
  /** For every curve that a shape begins with the number of its chain, counted from 1 through all groups. */
  const chainAt = new Int32Array(curves.length);
  let before = 0;
  let joinedCurves = 0;
  let joinedOutlines = 0;
  let firstJoin: { element: string; at: Point } | null = null;
  for (const group of groupsOf(curves)) {
    const { chains, doubles } = chainCurves(group.row, size, repair);
    for (const { index, keeps } of doubles) {
      repairs.push(doubleRemoved(curves, group.members.get(index), group.members.get(keeps), toDrawing));
    }
    made.push({ chains, before });
    for (let chain = 0; chain < chains.length; chain++) {
      const curve = group.members.get(chains.first(chain));
      chainAt[curve] = before + chain + 1;
      const count = chains.count(chain);
      if (count === 1) continue;
      joinedCurves += count;
      joinedOutlines++;
    }
    before += chains.length;
  }
  const ids = new Ids();
  const shapes: DrawnShape[] = [];
  for (let index = 0; index < curves.length; index++) {
    if (curves.isClosed(index)) {
      const contour = placed(curves.contour(index), toDrawing, packer);
      const last = shapes.at(-1);
      // Further loops of an area come right behind its first.
      if (curves.area(index) === 'further' && last?.fill != null) {
        shapes[shapes.length - 1] = { ...last, contours: [...last.contours, contour] };
      } else shapes.push(shapeOf(curves.at(index), contour, ids, curves.element(index)));
      continue;
    }
    const number = chainAt[index]! - 1;
    if (number < 0) continue;
    const chained = made[groupOf(number, made)]!;
    const chain = number - chained.before;
    const contour = chained.chains.contour(chain, toDrawing, packer);
    const count = chained.chains.count(chain);
    const own = curves.element(index);
    const element = count === 1 ? own : flatText(own, ', and ', count - 1, ' more joined to it');
    if (count > 1) firstJoin ??= { element, at: contour.start };
    shapes.push(shapeOf(curves.at(index), contour, ids, element));
  }
  if (firstJoin !== null) {
    const message = `${joinedCurves} loose lines and arcs whose ends meet were joined to ${joinedOutlines} ${joinedOutlines === 1 ? 'line' : 'lines'}`;
    complaints.add('joined-ends', 'note', message, firstJoin.element, firstJoin.at);
  }
  return { shapes, repairs };
}

/** Which group a chain belongs to. O(log groups). */
function groupOf(chain: number, groups: readonly GroupChains[]): number {
  let low = 0;
  let high = groups.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (groups[middle]!.before <= chain) low = middle;
    else high = middle - 1;
  }
  return low;
}

function placed({ start, segments, closed }: ContourView, toDrawing: Matrix, packer: SegmentPacker): ContourView {
  for (const segment of segments) packer.add(transformSegment(segment, toDrawing));
  return { start: apply(toDrawing, start), segments: packer.take(), closed };
}

function groupsOf(curves: PlacedCurves): Iterable<Group> {
  const groups = new Map<string, Group>();
  for (let index = 0; index < curves.length; index++) {
    if (curves.isClosed(index)) continue;
    const { layer, colour } = curves.head(index);
    const key = `${layer}\n${colour}`;
    const group = groups.get(key) ?? new Group(curves);
    groups.set(key, group);
    group.members.push(index);
  }
  return groups.values();
}

function shapeOf(curve: PlacedCurve, contour: ContourView, ids: Ids, element: string): DrawnShape {
  const isArea = curve.area !== 'none';
  return {
    id: ids.next(curve),
    name: curve.block,
    // Layer 0 is where everything lies that was put nowhere.
    layer: curve.layer === '0' ? null : curve.layer,
    contours: [contour],
    // Loops of a hatch that lie in others are gaps in it, by its usual style.
    fillRule: isArea ? 'evenodd' : 'nonzero',
    fill: isArea ? curve.colour : null,
    stroke: isArea ? null : curve.colour,
    strokeWidthMm: 0,
    place: { element, at: contour.start },
  };
}

function doubleRemoved(curves: PlacedCurves, double: number, kept: number, toDrawing: Matrix): Repair {
  return {
    kind: 'removed-double',
    message: `it lies exactly on ${curves.element(kept)} and would be cut twice: left out`,
    place: { element: curves.element(double), at: apply(toDrawing, curves.contour(double).start) },
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
