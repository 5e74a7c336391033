import { bufferPolyline } from '@underlap/geometry/offset';
import type { Region } from '@underlap/geometry/region';
import type { Ring } from '@underlap/geometry/ring';
import type { SeamTask } from './task.ts';

/** A straight run of a drawn line at least this long leads seams without being asked, mm: shorter ones are lettering and ornament. */
const LONG_LINE_MM = 60;

/** A run is straight while no point of it lies farther off than this, mm. */
const STRAIGHT_WITHIN_MM = 0.1;

/** A seam this near to a drawn line shows nothing new, mm: about the width of a burnt line. */
const ON_LINE_MM = 0.3;

/** Drawn lines end short of the outline by up to this, mm; a seam runs on straight. */
const RUN_ON_MM = 15;

/**
 * The drawn lines that seams may follow as plank joints: long straight runs, all of them where that is wished, or none.
 * @returns flat open polylines; runs are two points each.
 * @remarks O(points) but for runs, O(points^2) in the worst case of one long curve.
 */
export function leadLines({ marks = [], wishes }: Pick<SeamTask, 'marks' | 'wishes'>): Ring[] {
  const wish = wishes.alongLines ?? 'long';
  if (wish === 'none') return [];
  return wish === 'all' ? marks.filter((line) => line.length >= 4) : marks.flatMap(straightRuns);
}

/** Drawn lines that seams keep away from: those that lead none. */
export function linesToAvoid(task: Pick<SeamTask, 'marks' | 'wishes' | 'avoid'>): Ring[] {
  const isLed = (task.wishes.alongLines ?? 'long') === 'all';
  const others = isLed ? [] : (task.marks ?? []).filter((line) => task.wishes.alongLines === 'none' || !isOneRun(line));
  return [...task.avoid, ...others];
}

function isOneRun(line: Ring): boolean {
  const [run] = straightRuns(line);
  return run !== undefined && line[0] === run[0] && line[line.length - 1] === run[3];
}

function straightRuns(line: Ring): Ring[] {
  const out: Ring[] = [];
  const last = line.length - 2;
  for (let from = 0; from < last; ) {
    let to = from + 2;
    while (to < last && isStraight(line, from, to + 2)) to += 2;
    const run = Float64Array.of(line[from]!, line[from + 1]!, line[to]!, line[to + 1]!);
    if (Math.hypot(run[2]! - run[0]!, run[3]! - run[1]!) >= LONG_LINE_MM) out.push(run);
    from = to;
  }
  return out;
}

function isStraight(line: Ring, from: number, to: number): boolean {
  const dx = line[to]! - line[from]!;
  const dy = line[to + 1]! - line[from + 1]!;
  const size = Math.hypot(dx, dy);
  if (size === 0) return false;
  for (let i = from + 2; i < to; i += 2) {
    const px = line[i]! - line[from]!;
    const py = line[i + 1]! - line[from + 1]!;
    const along = (px * dx + py * dy) / size;
    if (Math.abs(px * dy - py * dx) / size > STRAIGHT_WITHIN_MM || along < 0 || along > size) return false;
  }
  return true;
}

/** Where a seam shows nothing new, for `CoverMeasure`. One buffer a line, O(n log n). */
export function onLines(lines: readonly Ring[]): Region[] {
  return lines.flatMap((line) => bufferPolyline(line, ON_LINE_MM, ON_LINE_MM / 20));
}

/** The line with both ends run on straight, so that it reaches the outline it was drawn to. */
export function runOn(line: Ring): Ring {
  const out = line.slice();
  extend(out, 0, 2);
  extend(out, line.length - 2, line.length - 4);
  return out;
}

function extend(line: Ring, end: number, inner: number): void {
  const dx = line[end]! - line[inner]!;
  const dy = line[end + 1]! - line[inner + 1]!;
  const size = Math.hypot(dx, dy);
  if (size === 0) return;
  line[end] = line[end]! + (RUN_ON_MM * dx) / size;
  line[end + 1] = line[end + 1]! + (RUN_ON_MM * dy) / size;
}

/** The nearest point of the lines within `reach` mm; null when there is none. O(segments). */
export function nearestOnLines(
  lines: readonly Ring[],
  x: number,
  y: number,
  reach: number,
): { x: number; y: number } | null {
  let best = reach * reach;
  let found: { x: number; y: number } | null = null;
  for (const line of lines) {
    for (let i = 0; i + 3 < line.length; i += 2) {
      const dx = line[i + 2]! - line[i]!;
      const dy = line[i + 3]! - line[i + 1]!;
      const size = dx * dx + dy * dy;
      const u = size > 0 ? Math.min(1, Math.max(0, ((x - line[i]!) * dx + (y - line[i + 1]!) * dy) / size)) : 0;
      const at = { x: line[i]! + u * dx, y: line[i + 1]! + u * dy };
      const squared = (x - at.x) ** 2 + (y - at.y) ** 2;
      if (squared > best) continue;
      best = squared;
      found = at;
    }
  }
  return found;
}
