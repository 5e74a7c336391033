import type { Contour } from '@underlap/geometry/curve';
import type { DrawnShape, Repair } from '../drawing.ts';
import { type Chain, chainLines } from './chain-lines.ts';
import type { RepairSettings, RepairStep } from './step.ts';

/** An open line and where it stands. */
interface Loose {
  readonly shape: number;
  readonly contour: Contour;
}

/**
 * Join open lines of one colour that come round end to end: many programs write every edge of an outline as a line of its own.
 * The outline takes the place and name of the first line. Filled shapes are left alone, since their fill says what they are.
 */
export function joinLines(shapes: readonly DrawnShape[], settings: RepairSettings): RepairStep {
  const { repair, gap, mmPerUnit, complaints } = settings;
  const byStyle = new Map<string, Loose[]>();
  shapes.forEach((shape, index) => {
    if (shape.fill !== null) return;
    const key = `${shape.stroke} ${shape.layer}`;
    for (const contour of shape.contours) {
      if (contour.closed) continue;
      const list = byStyle.get(key) ?? [];
      list.push({ shape: index, contour });
      byStyle.set(key, list);
    }
  });
  const used = new Set<Contour>();
  const made = new Map<number, Contour[]>();
  const repairs: Repair[] = [];
  for (const loose of byStyle.values()) {
    for (const chain of chainLines(
      loose.map((line) => line.contour),
      gap,
    )) {
      const owner = Math.min(...chain.members.map((member) => loose[member]!.shape));
      const shape = shapes[owner]!;
      const place = { element: shape.place.element, at: chain.contour.start };
      if (!repair) {
        const message = `${chain.members.length} loose lines come round to one outline here: join them in the drawing`;
        complaints.add('loose-lines', 'warning', message, place.element, place.at);
        continue;
      }
      for (const member of chain.members) used.add(loose[member]!.contour);
      made.set(owner, [...(made.get(owner) ?? []), chain.contour]);
      repairs.push({
        kind: 'chained-segments',
        message: messageFor(chain, mmPerUnit),
        place,
        sizeMm: chain.gap * mmPerUnit,
      });
    }
  }
  if (repairs.length === 0) return { shapes, repairs };
  const joined = shapes.flatMap((shape, index): DrawnShape[] => {
    const contours = [...shape.contours.filter((contour) => !used.has(contour)), ...(made.get(index) ?? [])];
    return contours.length === 0 ? [] : [{ ...shape, contours }];
  });
  return { shapes: joined, repairs };
}

function messageFor({ members, gap }: Chain, mmPerUnit: number): string {
  const widest = gap * mmPerUnit;
  const gaps = widest < 1e-6 ? 'whose ends meet' : `with gaps of up to ${Number(widest.toPrecision(3))} mm`;
  return `${members.length} loose lines ${gaps} joined to one outline`;
}
