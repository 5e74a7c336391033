import ClipperLib, { type IntPoint, type PolyNode } from 'clipper-lib';
import { areProductsEqual } from './equal-slopes.ts';
import { GeometryError } from './error.ts';
import type { Region } from './region.ts';
import { orientedRing, type Ring, ringArea, ringPerimeter } from './ring.ts';

/**
 * The only door to clipper-lib, which works on whole numbers: one millimetre is a million units, so that rounding stays a
 * hundred times below every other tolerance here. A scale this fine switches on the library's wide numbers.
 */
export const CLIPPER_UNITS_PER_MM = 1e6;

/*
 * The library's wide numbers are long integers in script; they took a third of a boolean. It uses them only to ask whether two
 * directions are the same: the same question, answered as exactly, without them.
 */
const base = ClipperLib.ClipperBase;
base.SlopesEqual3 = ({ Delta: p }, { Delta: q }) => areProductsEqual(p.Y, q.X, p.X, q.Y);
base.SlopesEqual4 = (p, q, r) => areProductsEqual(p.Y - q.Y, q.X - r.X, p.X - q.X, q.Y - r.Y);
base.SlopesEqual5 = (p, q, r, s) => areProductsEqual(p.Y - q.Y, r.X - s.X, p.X - q.X, r.Y - s.Y);

/**
 * Coordinates beyond this are refused, mm. The library itself would take 4.5e9 mm; but it intersects lines in double
 * numbers, which hold a millionth of a millimetre only up to here. A kilometre is no sign.
 */
const LARGEST_COORDINATE_MM = 1e6;

/**
 * On its finest grid the library gives up on a rare tangle of crossings that lie within a unit of each other; on a coarser one, still
 * below a thousandth of a millimetre, these are one point.
 */
const GRIDS = [CLIPPER_UNITS_PER_MM, CLIPPER_UNITS_PER_MM / 16, CLIPPER_UNITS_PER_MM / 256];

/** A ring with less area than its perimeter times this is rounding, not a shape; mm. */
const SLIVER_WIDTH_MM = 2 / CLIPPER_UNITS_PER_MM;

export type FillRule = 'nonzero' | 'evenodd' | 'positive';

export type BooleanKind = 'union' | 'intersection' | 'difference';

const FILLS: Record<FillRule, number> = {
  nonzero: ClipperLib.PolyFillType.pftNonZero,
  evenodd: ClipperLib.PolyFillType.pftEvenOdd,
  positive: ClipperLib.PolyFillType.pftPositive,
};

const KINDS: Record<BooleanKind, number> = {
  union: ClipperLib.ClipType.ctUnion,
  intersection: ClipperLib.ClipType.ctIntersection,
  difference: ClipperLib.ClipType.ctDifference,
};

/**
 * Combine two sets of rings; within each set the fill rule says what is inside.
 * @returns disjoint regions, oriented by convention; slivers thinner than two units of the whole-number grid are dropped.
 * @throws GeometryError `non-finite` or `out-of-range` with ring and vertex, `internal` when the library gives up.
 * @remarks O((n + k) log n) for k crossings. Vertices move by at most half a unit (0.5 nm), crossings by about one.
 */
export function clip(kind: BooleanKind, subject: readonly Ring[], clipper: readonly Ring[], rule: FillRule): Region[] {
  for (const units of GRIDS) {
    const regions = clipOnGrid(kind, subject, clipper, rule, units);
    if (regions !== null) return regions;
  }
  throw new GeometryError('internal', `the ${kind} of ${subject.length} and ${clipper.length} rings failed`);
}

/** Null when the library gives up. */
function clipOnGrid(
  kind: BooleanKind,
  subject: readonly Ring[],
  clipper: readonly Ring[],
  rule: FillRule,
  units: number,
): Region[] | null {
  const engine = new ClipperLib.Clipper();
  const paths = toPaths(subject, units);
  if (paths.length > 0) engine.AddPaths(paths, ClipperLib.PolyType.ptSubject, true);
  const others = toPaths(clipper, units);
  if (others.length > 0) engine.AddPaths(others, ClipperLib.PolyType.ptClip, true);
  // The library calls combining nothing with nothing a failure; it is an empty result.
  if (paths.length === 0 && others.length === 0) return [];
  const tree = new ClipperLib.PolyTree();
  const fill = FILLS[rule];
  if (!engine.Execute(KINDS[kind], tree, fill, fill)) return null;
  const regions: Region[] = [];
  collectRegions(tree, regions, units);
  return regions;
}

/** Outer nodes with their holes; what lies inside a hole is a region of its own. */
function collectRegions(parent: PolyNode, regions: Region[], units: number): void {
  for (const node of parent.Childs()) {
    const outer = toRing(node.Contour(), 1, units);
    const holes: Ring[] = [];
    for (const child of node.Childs()) {
      const hole = toRing(child.Contour(), -1, units);
      if (hole !== null) holes.push(hole);
    }
    if (outer !== null) regions.push({ outer, holes });
    for (const child of node.Childs()) collectRegions(child, regions, units);
  }
}

function toRing(path: readonly IntPoint[], sign: 1 | -1, units: number): Ring | null {
  if (path.length < 3) return null;
  const ring = new Float64Array(path.length * 2);
  path.forEach((point, index) => {
    ring[2 * index] = point.X / units;
    ring[2 * index + 1] = point.Y / units;
  });
  if (Math.abs(ringArea(ring)) <= SLIVER_WIDTH_MM * ringPerimeter(ring)) return null;
  return orientedRing(ring, sign);
}

function toPaths(rings: readonly Ring[], units: number): IntPoint[][] {
  const paths: IntPoint[][] = [];
  rings.forEach((ring, ringIndex) => {
    const path: IntPoint[] = [];
    for (let i = 0; i < ring.length; i += 2) {
      path.push({ X: toUnits(ring[i]!, ringIndex, i, units), Y: toUnits(ring[i + 1]!, ringIndex, i, units) });
    }
    if (path.length >= 3) paths.push(path);
  });
  return paths;
}

function toUnits(value: number, ringIndex: number, at: number, units: number): number {
  if (!(Math.abs(value) <= LARGEST_COORDINATE_MM)) {
    const place = `ring ${ringIndex}, vertex ${at >> 1}`;
    if (!Number.isFinite(value)) throw new GeometryError('non-finite', `a coordinate is ${value}`, place);
    throw new GeometryError('out-of-range', `a coordinate of ${value} mm is beyond ${LARGEST_COORDINATE_MM} mm`, place);
  }
  return Math.round(value * units);
}
