import { intersectRegions, regionRings, regionsFromRings, unionRegions } from './boolean.ts';
import { clipPolyline } from './clip-polyline.ts';
import { contourBounds } from './contour.ts';
import type { Contour, ContourView } from './curve.ts';
import { CurveTable } from './curve-table.ts';
import { type Region, regionsArea } from './region.ts';
import { ringPerimeter } from './ring.ts';

/** Contours that together bound an area. */
export interface FilledContours {
  readonly contours: readonly ContourView[];
  readonly fillRule: 'nonzero' | 'evenodd';
}

/** What is left of contours after cutting. `untouched` when nothing was cut off. */
export type CutContours =
  | { readonly kind: 'untouched' }
  | { readonly kind: 'cut'; readonly contours: readonly Contour[] };

/** Size that shapes are scaled to before they are cut, table units: the grid of polygons is a billionth of it. */
const TABLE_SIZE = 1000;

/** Gap between curves and chords while cutting, table units; the result is turned back to curves, so this only tells what meets what. */
const TABLE_TOLERANCE = 0.002;

/** A strip cut off that is narrower than this all along, table units, is rounding. */
const UNSEEN_STRIP = 2e-3;

/**
 * What of a filled area lies inside all of the others (each the union of its members). Curves stay curves.
 * @param subject - any units.
 * @param clips - the same units; members of one clip are united.
 * @returns contours that bound the rest by the nonzero rule: outer ones of positive area, holes of negative; none when nothing is left.
 * @throws GeometryError `non-finite`, `out-of-range`, `internal`.
 * @remarks O((n + k) log n) for k crossings, and the chords of a strip of the plane for each crossing.
 */
export function cutArea(subject: FilledContours, clips: readonly (readonly FilledContours[])[]): CutContours {
  const table = tableFor([subject, ...clips.flat()]);
  const whole = regionOf(subject, table);
  let rest = whole;
  for (const members of clips) rest = intersectRegions(rest, unionOf(members, table));
  const lost = regionsArea(whole) - regionsArea(rest);
  const outline = regionRings(whole).reduce((sum, ring) => sum + ringPerimeter(ring), 0);
  if (lost <= UNSEEN_STRIP * outline) return { kind: 'untouched' };
  return { kind: 'cut', contours: regionRings(rest).map((ring) => table.contour(ring, true)) };
}

/**
 * What of lines lies inside all of the clips; closed lines become open ones where they are cut.
 * @param lines - any units. Other parameters, errors and costs as for `cutArea`; the cost of clipping grows with lines times clip edges.
 */
export function cutLines(lines: readonly ContourView[], clips: readonly (readonly FilledContours[])[]): CutContours {
  const table = tableFor([{ contours: lines, fillRule: 'nonzero' }, ...clips.flat()]);
  const regions = clips.map((members) => unionOf(members, table));
  let isCut = false;
  const contours = lines.flatMap((line): Contour[] => {
    const whole = table.add(line);
    let pieces = [{ line: whole, closed: line.closed }];
    for (const inside of regions) {
      pieces = pieces.flatMap((piece) => {
        const kept = clipPolyline(piece.line, piece.closed, inside, 'inside');
        return isWhole(kept, piece) ? [piece] : kept.map((part) => ({ line: part, closed: false }));
      });
    }
    isCut ||= pieces.length !== 1 || pieces[0]!.line !== whole;
    return pieces.map((piece) => table.contour(piece.line, piece.closed));
  });
  return isCut ? { kind: 'cut', contours } : { kind: 'untouched' };
}

function isWhole(
  kept: readonly Float64Array[],
  piece: { readonly line: Float64Array; readonly closed: boolean },
): boolean {
  if (kept.length !== 1) return false;
  const length = (line: Float64Array, closed: boolean): number => {
    const open = ringPerimeter(line);
    const n = line.length;
    return closed ? open : open - Math.hypot(line[0]! - line[n - 2]!, line[1]! - line[n - 1]!);
  };
  return length(piece.line, piece.closed) - length(kept[0]!, false) <= UNSEEN_STRIP;
}

function unionOf(members: readonly FilledContours[], table: CurveTable): Region[] {
  const regions = members.flatMap((member) => regionOf(member, table));
  return members.length < 2 ? regions : unionRegions(regions);
}

/** Open contours bound what they would when closed by a straight line. */
function regionOf({ contours, fillRule }: FilledContours, table: CurveTable): Region[] {
  return regionsFromRings(
    contours.map((contour) => table.add(contour)),
    fillRule,
  );
}

function tableFor(all: readonly FilledContours[]): CurveTable {
  let extent = 0;
  for (const { contours } of all) {
    for (const contour of contours) {
      for (const side of Object.values(contourBounds(contour))) extent = Math.max(extent, Math.abs(side));
    }
  }
  return new CurveTable(extent > 0 ? 2 ** Math.floor(Math.log2(TABLE_SIZE / extent)) : 1, TABLE_TOLERANCE);
}
