import type { ContourView } from '@underlap/geometry/curve';
import { SegmentPacker } from '@underlap/geometry/packed-segments';
import type { DrawnShape, Repair } from '../drawing.ts';
import { type Chain, chainLines } from './chain-lines.ts';
import type { RepairSettings, RepairStep } from './step.ts';

/** Open lines and the shape that each belongs to, side by side. */
interface Loose {
  readonly lines: ContourView[];
  readonly shapes: number[];
}

/**
 * Join open lines of one colour that come round end to end: many programs write every edge of an outline as a line of its own.
 * The outline takes the place and name of the first line. Filled shapes are left alone, since their fill says what they are.
 */
export function joinLines(shapes: readonly DrawnShape[], settings: RepairSettings): RepairStep {
  const { repair, gap, mmPerUnit, complaints } = settings;
  const byStyle = new Map<string, Loose>();
  shapes.forEach((shape, index) => {
    if (shape.fill !== null) return;
    const key = `${shape.stroke} ${shape.layer}`;
    for (const contour of shape.contours) {
      if (contour.closed) continue;
      let loose = byStyle.get(key);
      if (loose === undefined) {
        loose = { lines: [], shapes: [] };
        byStyle.set(key, loose);
      }
      loose.lines.push(contour);
      loose.shapes.push(index);
    }
  });
  const used = new Set<ContourView>();
  const made = new Map<number, ContourView[]>();
  const repairs: Repair[] = [];
  const packer = new SegmentPacker();
  const messages = new Map<string, string>();
  for (const loose of byStyle.values()) {
    for (const chain of chainLines(loose.lines, gap, packer)) {
      const owner = chain.members.reduce((least, member) => Math.min(least, loose.shapes[member]!), Infinity);
      const shape = shapes[owner]!;
      const place = { element: shape.place.element, at: chain.contour.start };
      if (!repair) {
        const message = `${chain.members.length} loose lines come round to one outline here: join them in the drawing`;
        complaints.add('loose-lines', 'warning', message, place.element, place.at);
        continue;
      }
      for (const member of chain.members) used.add(loose.lines[member]!);
      made.set(owner, [...(made.get(owner) ?? []), chain.contour]);
      repairs.push({
        kind: 'chained-segments',
        message: sameText(messageFor(chain, mmPerUnit), messages),
        place,
        sizeMm: chain.gap * mmPerUnit,
      });
    }
  }
  if (repairs.length === 0) return { shapes, repairs };
  const joined = shapes.flatMap((shape, index): DrawnShape[] => {
    const own = made.get(index) ?? [];
    if (own.length === 0 && !shape.contours.some((contour) => used.has(contour))) return [shape];
    const contours = [...shape.contours.filter((contour) => !used.has(contour)), ...own];
    return contours.length === 0 ? [] : [{ ...shape, contours }];
  });
  return { shapes: joined, repairs };
}

/** Equal texts kept once: a drawing of loose lines has thousands. */
function sameText(text: string, known: Map<string, string>): string {
  const first = known.get(text);
  if (first === undefined) known.set(text, text);
  return first ?? text;
}

function messageFor({ members, gap }: Chain, mmPerUnit: number): string {
  const widest = gap * mmPerUnit;
  const gaps = widest < 1e-6 ? 'whose ends meet' : `with gaps of up to ${Number(widest.toPrecision(3))} mm`;
  return `${members.length} loose lines ${gaps} joined to one outline`;
}
