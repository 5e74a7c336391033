import { transformSegment } from '@underlap/geometry/contour';
import type { ContourView, Segment } from '@underlap/geometry/curve';
import { apply, IDENTITY, type Matrix } from '@underlap/geometry/matrix';
import { SegmentPacker } from '@underlap/geometry/packed-segments';
import type { Point } from '@underlap/geometry/point';
import { arcFromEndpoints } from './arc-from-endpoints.ts';
import { PathScanner } from './path-scanner.ts';

/** Ends that differ by less than this share of the coordinates' size are one point: sums of relative steps drift. */
const SAME_POINT = 1e-9;

/** What was wrong and where in the text (counted from 0); everything before it was read. */
export interface PathFault {
  readonly message: string;
  readonly at: number;
}

export interface ReadPath {
  readonly contours: readonly ContourView[];
  /** Number of segments in all contours. */
  readonly segments: number;
  readonly fault: PathFault | null;
}

/**
 * Read SVG path data (SVG 2, 'Paths', with the grammar's compact numbers and flags). A contour counts as
 * closed when `z` says so or when its end meets its start; a fault ends the reading and keeps what came before it, as the
 * standard asks.
 * @param limit - largest number of segments; one more is a fault.
 * @param matrix - from the path's own units to those wanted; applied as each segment is read, so that a huge path is never
 * held twice.
 * @param packer - holds the segments; one for a whole drawing saves memory.
 * @throws GeometryError `non-finite` when the matrix sends a point out of range.
 * @remarks O(length). Quadratic curves are raised to cubics, which is exact.
 */
export function readPath(
  data: string,
  limit: number,
  matrix: Matrix = IDENTITY,
  packer: SegmentPacker = new SegmentPacker(),
): ReadPath {
  const pen = new Pen(limit, matrix, packer);
  const scanner = new PathScanner(data);
  let fault: PathFault | null = null;
  let command = scanner.command();
  if (command !== null && command !== 'M' && command !== 'm') {
    return {
      contours: [],
      segments: 0,
      fault: { message: 'path data must begin with a move (M)', at: scanner.at - 1 },
    };
  }
  while (command !== null) {
    fault = pen.follow(command, scanner);
    if (fault !== null) break;
    command = scanner.command();
  }
  if (fault === null && !scanner.isDone()) {
    fault = { message: `'${scanner.rest(12)}' is no path command`, at: scanner.at };
  }
  return { contours: pen.finish(), segments: pen.segments, fault };
}

/** The pen of the path commands: where it is, and what it has drawn. */
class Pen {
  segments = 0;
  private readonly limit: number;
  private readonly matrix: Matrix;
  private readonly contours: ContourView[] = [];
  /** In the units wanted; the points below are in the path's own. */
  private readonly packer: SegmentPacker;
  private start: Point = { x: 0, y: 0 };
  private at: Point = { x: 0, y: 0 };
  /** Last control point and the kind of curve it belongs to, for smooth commands. */
  private control: Point | null = null;
  private controlKind: 'cubic' | 'quadratic' | null = null;

  constructor(limit: number, matrix: Matrix, packer: SegmentPacker) {
    this.limit = limit;
    this.matrix = matrix;
    this.packer = packer;
  }

  /** Carry out a command with all its repeated arguments. */
  follow(command: string, scanner: PathScanner): PathFault | null {
    const kind = command.toUpperCase();
    const isRelative = command !== kind;
    if (kind === 'Z') {
      this.close();
      return null;
    }
    let isFirst = true;
    while (isFirst || scanner.hasNumber()) {
      const at = scanner.at;
      const isDone = this.step(kind, isRelative, isFirst, scanner);
      if (!isDone) return { message: `'${command}' lacks a number or has one that cannot be read`, at };
      if (this.segments > this.limit) return { message: `the path has more than ${this.limit} segments`, at };
      isFirst = false;
    }
    return null;
  }

  finish(): readonly ContourView[] {
    this.end(false);
    return this.contours;
  }

  private step(kind: string, isRelative: boolean, isFirst: boolean, scanner: PathScanner): boolean {
    const dx = isRelative ? this.at.x : 0;
    const dy = isRelative ? this.at.y : 0;
    switch (kind) {
      case 'M': {
        const to = scanner.point(dx, dy);
        if (to === null) return false;
        if (isFirst) this.move(to);
        else this.add({ kind: 'line', to });
        return true;
      }
      case 'L': {
        const to = scanner.point(dx, dy);
        if (to === null) return false;
        this.add({ kind: 'line', to });
        return true;
      }
      case 'H': {
        const x = scanner.number();
        if (x === null) return false;
        this.add({ kind: 'line', to: { x: x + dx, y: this.at.y } });
        return true;
      }
      case 'V': {
        const y = scanner.number();
        if (y === null) return false;
        this.add({ kind: 'line', to: { x: this.at.x, y: y + dy } });
        return true;
      }
      case 'C':
      case 'S': {
        const c1 = kind === 'C' ? scanner.point(dx, dy) : this.reflected('cubic');
        const c2 = c1 && scanner.point(dx, dy);
        const to = c2 && scanner.point(dx, dy);
        if (!c1 || !c2 || !to) return false;
        this.add({ kind: 'cubic', c1, c2, to });
        this.control = c2;
        this.controlKind = 'cubic';
        return true;
      }
      case 'Q':
      case 'T': {
        const control = kind === 'Q' ? scanner.point(dx, dy) : this.reflected('quadratic');
        const to = control && scanner.point(dx, dy);
        if (!control || !to) return false;
        const c1 = {
          x: this.at.x + (2 / 3) * (control.x - this.at.x),
          y: this.at.y + (2 / 3) * (control.y - this.at.y),
        };
        const c2 = { x: to.x + (2 / 3) * (control.x - to.x), y: to.y + (2 / 3) * (control.y - to.y) };
        this.add({ kind: 'cubic', c1, c2, to });
        this.control = control;
        this.controlKind = 'quadratic';
        return true;
      }
      default:
        return this.arc(dx, dy, scanner);
    }
  }

  private arc(dx: number, dy: number, scanner: PathScanner): boolean {
    const rx = scanner.number();
    const ry = rx === null ? null : scanner.number();
    const axis = ry === null ? null : scanner.number();
    const isLarge = axis === null ? null : scanner.flag();
    const isPositive = isLarge === null ? null : scanner.flag();
    const to = isPositive === null ? null : scanner.point(dx, dy);
    if (rx === null || ry === null || axis === null || isLarge === null || isPositive === null || to === null)
      return false;
    const segment = arcFromEndpoints(this.at, rx, ry, axis, isLarge, isPositive, to);
    if (segment !== null) this.add(segment);
    else this.control = this.controlKind = null;
    return true;
  }

  private add(segment: Segment): void {
    this.packer.add(this.matrix === IDENTITY ? segment : transformSegment(segment, this.matrix));
    this.segments++;
    this.at = segment.to;
    this.control = this.controlKind = null;
  }

  private move(to: Point): void {
    this.end(false);
    this.start = this.at = to;
    this.control = this.controlKind = null;
  }

  private close(): void {
    this.end(true);
    this.at = this.start;
    this.control = this.controlKind = null;
  }

  private reflected(kind: 'cubic' | 'quadratic'): Point {
    if (this.control === null || this.controlKind !== kind) return this.at;
    return { x: 2 * this.at.x - this.control.x, y: 2 * this.at.y - this.control.y };
  }

  private end(isTold: boolean): void {
    if (this.packer.length === 0) return;
    const start = this.matrix === IDENTITY ? this.start : apply(this.matrix, this.start);
    let closed = isTold;
    if (isSamePoint(this.at, this.start)) {
      closed = true;
      this.packer.moveEnd(start);
    } else if (isTold) {
      this.packer.addLine(start.x, start.y);
      this.segments++;
    }
    this.contours.push({ start, segments: this.packer.take(), closed });
  }
}

function isSamePoint(a: Point, b: Point): boolean {
  const size = Math.max(Math.abs(a.x), Math.abs(a.y), Math.abs(b.x), Math.abs(b.y));
  return Math.abs(a.x - b.x) <= SAME_POINT * size && Math.abs(a.y - b.y) <= SAME_POINT * size;
}
