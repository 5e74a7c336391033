import type { Bounds } from '@underlap/geometry/ring';
import type { DrawnShape, Repair } from '../drawing.ts';
import { DoubleFinder, MeasuredContours } from './near-doubles.ts';
import type { RepairSettings, RepairStep } from './step.ts';
import { SAME_CONTOUR_MM } from './tolerances.ts';

/** A contour and where it stands. */
interface Standing {
  readonly shape: number;
  readonly contour: number;
}

interface Double extends Standing {
  readonly first: Standing;
  readonly deviation: number;
  readonly isSameWay: boolean;
}

/**
 * Remove contours drawn twice in the same style: the beam would cut them twice. A filled shape drawn again is a double only
 * when nothing but doubles lies between the two and their layers do not differ: in a stacked drawing two equal sheets with
 * something between them are two parts. Contours of one element that cancel each other's fill are left and told.
 */
export function removeDoubles(shapes: readonly DrawnShape[], settings: RepairSettings): RepairStep {
  const { mmPerUnit, complaints, repair } = settings;
  const measured = new MeasuredContours(shapes);
  const doubles = findDoubles(shapes, measured, SAME_CONTOUR_MM / mmPerUnit);
  if (doubles.length === 0) return { shapes, repairs: [] };
  const repairs: Repair[] = [];
  const removed = new Map<number, Set<number>>();
  const between = new Separators(measured, shapes, doubles);
  for (const double of doubles) {
    const shape = shapes[double.shape]!;
    const first = shapes[double.first.shape]!;
    const place = { element: shape.place.element, at: shape.contours[double.contour]!.start };
    if (cancels(shape, double)) {
      const message = 'it holds the same outline twice and the two cancel each other; delete one of them';
      complaints.add('cancelling-double', 'warning', message, place.element, place.at);
      continue;
    }
    if (isSeparatePart(shape, first, double, between)) {
      const message = `it is equal to ${first.place.element} and kept as a part of its own; delete one if it is the same part drawn twice`;
      complaints.add('equal-shapes', 'note', message, place.element, place.at);
      continue;
    }
    if (!repair) {
      const message = `it is drawn twice (${first.place.element}) and would be cut twice: delete one of them`;
      complaints.add('double-line', 'warning', message, place.element, place.at);
      continue;
    }
    const set = removed.get(double.shape) ?? new Set();
    removed.set(double.shape, set.add(double.contour));
    const whose = double.first.shape === double.shape ? 'its own outline' : `that of ${first.place.element}`;
    repairs.push({
      kind: 'removed-double',
      message: `outline removed that doubles ${whose}`,
      place,
      sizeMm: double.deviation * mmPerUnit,
    });
  }
  return { shapes: without(shapes, removed), repairs };
}

/** Every contour that doubles an earlier one of the same style. */
function findDoubles(shapes: readonly DrawnShape[], measured: MeasuredContours, tolerance: number): Double[] {
  const finder = new DoubleFinder(measured, tolerance);
  const styles = new Map<string, number>();
  const doubles: Double[] = [];
  shapes.forEach((shape, index) => {
    const name = `${shape.fill} ${shape.stroke}`;
    const style = styles.get(name) ?? styles.size;
    styles.set(name, style);
    const first = measured.firsts[index]!;
    const mayDouble = (other: number): boolean =>
      other === index || !isFilled(shape) || isSameShape(shapes[other]!, shape);
    for (let own = first; own < measured.firsts[index + 1]!; own++) {
      // A contour without extent has nothing to be cut twice.
      if (measured.extent(own) <= tolerance) continue;
      const found = finder.find(own, style).find((double) => mayDouble(measured.shapeOf(double.index)));
      if (found === undefined) {
        finder.remember(own, style);
        continue;
      }
      const { deviation, isSameWay } = found;
      const other = measured.shapeOf(found.index);
      const standing = { shape: other, contour: found.index - measured.firsts[other]! };
      doubles.push({ shape: index, contour: own - first, first: standing, deviation, isSameWay });
    }
  });
  return wholeShapesOnly(shapes, doubles);
}

/** A filled shape is another's double only as a whole: one equal hole in two parts is no double. */
function isSameShape(first: DrawnShape, second: DrawnShape): boolean {
  return first.contours.length === second.contours.length;
}

function wholeShapesOnly(shapes: readonly DrawnShape[], doubles: readonly Double[]): Double[] {
  const matched = new Map<string, number>();
  const key = (double: Double): string => `${double.shape} ${double.first.shape}`;
  for (const double of doubles) matched.set(key(double), (matched.get(key(double)) ?? 0) + 1);
  return doubles.filter((double) => {
    const shape = shapes[double.shape]!;
    if (double.first.shape === double.shape || !isFilled(shape)) return true;
    return matched.get(key(double)) === shape.contours.length;
  });
}

function isFilled(shape: DrawnShape): boolean {
  return shape.fill !== null;
}

/** Within one filled element a doubled contour may switch the fill off, which removing it would undo. */
function cancels(shape: DrawnShape, double: Double): boolean {
  if (double.first.shape !== double.shape || !isFilled(shape)) return false;
  return shape.fillRule === 'evenodd' || !double.isSameWay;
}

function isSeparatePart(shape: DrawnShape, first: DrawnShape, double: Double, between: Separators): boolean {
  if (double.first.shape === double.shape || !isFilled(shape)) return false;
  if (shape.layer !== first.layer && shape.layer !== null && first.layer !== null) return true;
  return between.any(double.first.shape, double.shape);
}

/** Looks for shapes between two others in the stack that touch their box and are no doubles themselves. */
class Separators {
  private readonly measured: MeasuredContours;
  /** Shapes that are not in any pair of doubles, in document order. */
  private readonly single: readonly number[];

  constructor(measured: MeasuredContours, shapes: readonly DrawnShape[], doubles: readonly Double[]) {
    const paired = new Set(doubles.flatMap((double) => [double.shape, double.first.shape]));
    this.single = shapes.map((_, index) => index).filter((index) => !paired.has(index));
    this.measured = measured;
  }

  any(lower: number, upper: number): boolean {
    const box = this.box(upper);
    return this.single.some((index) => index > lower && index < upper && doBoxesMeet(this.box(index), box));
  }

  private box(shape: number): Bounds {
    const { firsts } = this.measured;
    let { minX, minY, maxX, maxY } = this.measured.bounds(firsts[shape]!);
    for (let index = firsts[shape]! + 1; index < firsts[shape + 1]!; index++) {
      const bounds = this.measured.bounds(index);
      minX = Math.min(minX, bounds.minX);
      minY = Math.min(minY, bounds.minY);
      maxX = Math.max(maxX, bounds.maxX);
      maxY = Math.max(maxY, bounds.maxY);
    }
    return { minX, minY, maxX, maxY };
  }
}

function doBoxesMeet(a: Bounds, b: Bounds): boolean {
  return a.minX < b.maxX && a.maxX > b.minX && a.minY < b.maxY && a.maxY > b.minY;
}

function without(shapes: readonly DrawnShape[], removed: ReadonlyMap<number, ReadonlySet<number>>): DrawnShape[] {
  return shapes.flatMap((shape, index): DrawnShape[] => {
    const gone = removed.get(index);
    if (gone === undefined) return [shape];
    const contours = shape.contours.filter((_, contour) => !gone.has(contour));
    return contours.length === 0 ? [] : [{ ...shape, contours }];
  });
}
