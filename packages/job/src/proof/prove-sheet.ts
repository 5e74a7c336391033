import type { Contour, Shape } from '@underlap/geometry/curve';
import {
  type ExactOutline,
  exactOutline,
  isInOutline,
  measureContour,
  outlineGap,
} from '@underlap/geometry/exact-outline';
import type { Bounds } from '@underlap/geometry/ring';
import { joinedOverBridges } from './bridged-outline.ts';
import type { FoundOutline, FoundSheet } from './found-sheet.ts';

/** One outline as it was meant, in the file's frame. */
export interface MeantOutline {
  /** What it is written under: a process in SVG, a layer in DXF and PDF. */
  readonly group: string;
  readonly pieceId: string;
  readonly cut: 'outer' | 'inner' | null;
  readonly contour: Contour;
}

/** What a file was meant to hold, and what the machine can take. */
export interface MeantSheet {
  readonly widthMm: number;
  readonly heightMm: number;
  /** What one loading reaches. */
  readonly bed: { readonly width: number; readonly height: number };
  readonly spacingMm: number;
  /** Where cuts may run: the file, less the margin where its edge is the board's. */
  readonly inner: Bounds;
  /** Width of the uncut bridges that outlines of pieces have, mm, and how far a straight line across one may be off; null = none. */
  readonly bridges: { readonly widthMm: number; readonly sagMm: number } | null;
  readonly outlines: readonly MeantOutline[];
  /** How far a written outline may be from the meant one, mm: its last digit, and how curves are written in this format. */
  readonly toleranceMm: number;
}

/** Why a file is not what was meant; null when it is. */
export type SheetFault = string | null;

/**
 * Compare a file, as an independent reader found it, with what was meant: size, reach of the bed, outlines by process and piece,
 * their boxes, lengths and areas, and the distances between neighbours and to the edge, all measured by @flatten-js/core.
 * @remarks About n log n for n outlines; distances are asked of neighbours nearer than the spacing alone.
 */
export function sheetFault(meant: MeantSheet, found: FoundSheet): SheetFault {
  const t = meant.toleranceMm;
  if (!(Math.abs(found.widthMm - meant.widthMm) <= t && Math.abs(found.heightMm - meant.heightMm) <= t)) {
    return `it measures ${mm(found.widthMm)} x ${mm(found.heightMm)} mm instead of ${mm(meant.widthMm)} x ${mm(meant.heightMm)} mm: not true size`;
  }
  if (!(found.widthMm <= meant.bed.width + t && found.heightMm <= meant.bed.height + t)) {
    return `it measures ${mm(found.widthMm)} x ${mm(found.heightMm)} mm, more than the bed reaches at one loading`;
  }
  const outlines = found.outlines.map(measured);
  const beyond = outlines.find(({ box }) => !isWithin(box, 0, 0, found.widthMm, found.heightMm, t));
  if (beyond !== undefined) return `an outline near ${placeOf(beyond.box)} reaches beyond the file`;
  const matched = new Map<MeantOutline, Measured>();
  return unmatched(meant, outlines, matched) ?? tooNear(meant, outlines, matched);
}

interface Measured extends FoundOutline {
  readonly box: Bounds;
  readonly lengthMm: number;
  readonly areaMm2: number;
}

function measured<T extends { readonly contour: Contour }>(outline: T): T & Omit<Measured, keyof FoundOutline> {
  const { box, lengthMm, areaMm2 } = measureContour(outline.contour);
  return { ...outline, box, lengthMm, areaMm2: Math.abs(areaMm2) };
}

/** Every meant outline needs one found, each found one serves once, and none may be left. @param matched - filled. */
function unmatched(meant: MeantSheet, found: readonly Measured[], matched: Map<MeantOutline, Measured>): SheetFault {
  const counts = new Map<string, number>();
  for (const { group } of meant.outlines) counts.set(group, (counts.get(group) ?? 0) + 1);
  for (const { group } of found) counts.set(group, (counts.get(group) ?? 0) - 1);
  for (const [group, rest] of counts) {
    if (rest !== 0)
      return `it holds ${Math.abs(rest)} ${rest > 0 ? 'outlines too few' : 'outlines too many'} of ${group}`;
  }
  const buckets = new Map<string, Measured[]>();
  for (const outline of found) {
    const key = outline.group;
    const bucket = buckets.get(key);
    if (bucket === undefined) buckets.set(key, [outline]);
    else bucket.push(outline);
  }
  for (const outline of meant.outlines) {
    const wanted = measured(outline);
    const bucket = buckets.get(outline.group) ?? [];
    const at = bucket.findIndex((candidate) => isAsMeant(candidate, wanted, meant.toleranceMm));
    if (at < 0) return `an outline of ${outline.pieceId} near ${placeOf(wanted.box)} is not as meant`;
    matched.set(outline, bucket.splice(at, 1)[0]!);
  }
  return null;
}

function isAsMeant(found: Measured, wanted: Measured, t: number): boolean {
  if (found.contour.closed !== wanted.contour.closed) return false;
  if (found.pieceId !== null && found.pieceId !== wanted.pieceId) return false;
  if (!isWithin(found.box, wanted.box.minX, wanted.box.minY, wanted.box.maxX, wanted.box.maxY, t)) return false;
  if (!isWithin(wanted.box, found.box.minX, found.box.minY, found.box.maxX, found.box.maxY, t)) return false;
  // An outline that lies off by t everywhere changes its area by t times its length, and its length by t a bend.
  const bends = found.contour.segments.length + wanted.contour.segments.length;
  if (Math.abs(found.lengthMm - wanted.lengthMm) > t * bends + 1e-4 * wanted.lengthMm) return false;
  return !found.contour.closed || Math.abs(found.areaMm2 - wanted.areaMm2) <= t * wanted.lengthMm;
}

/** Distances between neighbours and to the edge, of the cuts as found. */
function tooNear(
  meant: MeantSheet,
  found: readonly Measured[],
  matched: ReadonlyMap<MeantOutline, Measured>,
): SheetFault {
  const { inner } = meant;
  const bridged = bridgedOutlines(meant, matched);
  if (typeof bridged === 'string') return bridged;
  const t = meant.toleranceMm + (bridged.length === 0 ? 0 : (meant.bridges?.sagMm ?? 0));
  const groupsOf = (cut: 'outer' | 'inner') =>
    new Set(meant.outlines.filter((outline) => outline.cut === cut).map((outline) => outline.group));
  const outer = groupsOf('outer');
  const holes = groupsOf('inner');
  const pieces = [...found.filter(({ group, contour }) => outer.has(group) && contour.closed), ...bridged].map(
    (piece) => ({ ...piece, holes: [] as Contour[] }),
  );
  for (const hole of found.filter(({ group }) => holes.has(group) && !outer.has(group))) {
    // the smallest outline round a hole is the piece it belongs to
    const owners = pieces.filter((piece) =>
      isWithin(hole.box, piece.box.minX, piece.box.minY, piece.box.maxX, piece.box.maxY, t),
    );
    owners.sort((a, b) => a.areaMm2 - b.areaMm2)[0]?.holes.push(hole.contour);
  }
  for (const { box, pieceId } of pieces) {
    if (!isWithin(box, inner.minX, inner.minY, inner.maxX, inner.maxY, t)) {
      return `${pieceId ?? 'a piece'} near ${placeOf(box)} is nearer to the edge than the margin`;
    }
  }
  const ready = new Map<(typeof pieces)[number], ExactOutline>();
  const outlineOf = (piece: (typeof pieces)[number]): ExactOutline => {
    const shape: Shape = { outer: piece.contour, holes: piece.holes };
    const made = ready.get(piece) ?? exactOutline(shape);
    ready.set(piece, made);
    return made;
  };
  pieces.sort((a, b) => a.box.minX - b.box.minX);
  for (let i = 0; i < pieces.length; i++) {
    const a = pieces[i]!;
    for (let j = i + 1; j < pieces.length && pieces[j]!.box.minX <= a.box.maxX + meant.spacingMm; j++) {
      const b = pieces[j]!;
      if (b.box.minY > a.box.maxY + meant.spacingMm || a.box.minY > b.box.maxY + meant.spacingMm) continue;
      const gap = outlineGap(outlineOf(a), outlineOf(b), meant.spacingMm);
      const isInside = isInOutline(outlineOf(a), b.contour.start) || isInOutline(outlineOf(b), a.contour.start);
      if (!isInside && (gap === null || gap.distance >= meant.spacingMm - t)) continue;
      const names = `${a.pieceId ?? 'a piece'} and ${b.pieceId ?? 'another'} near ${placeOf(b.box)}`;
      return isInside
        ? `${names} overlap`
        : `${names} are ${mm(gap?.distance ?? 0)} mm apart instead of ${mm(meant.spacingMm)} mm`;
    }
  }
  return null;
}

/** Outlines that bridges interrupt, closed again by straight lines over them; a fault where what is left open is no bridge. */
function bridgedOutlines(
  { outlines, bridges, toleranceMm }: MeantSheet,
  matched: ReadonlyMap<MeantOutline, Measured>,
): Measured[] | string {
  const open = new Map<string, { meant: Contour; found: Contour }[]>();
  const groups = new Map<string, string>();
  for (const outline of outlines) {
    const found = matched.get(outline);
    if (outline.cut !== 'outer' || outline.contour.closed || found === undefined) continue;
    open.set(outline.pieceId, [...(open.get(outline.pieceId) ?? []), { meant: outline.contour, found: found.contour }]);
    groups.set(outline.pieceId, outline.group);
  }
  const closed: Measured[] = [];
  for (const [pieceId, stretches] of open) {
    const contour = joinedOverBridges(stretches, bridges?.widthMm ?? 0, toleranceMm);
    if (contour === null) return `the outline of ${pieceId} is not closed, and what is open is no bridge`;
    closed.push(measured({ group: groups.get(pieceId)!, pieceId, contour }));
  }
  return closed;
}

function isWithin(box: Bounds, minX: number, minY: number, maxX: number, maxY: number, t: number): boolean {
  return box.minX >= minX - t && box.minY >= minY - t && box.maxX <= maxX + t && box.maxY <= maxY + t;
}

function placeOf({ minX, minY }: Bounds): string {
  return `${minX.toFixed(1)}, ${minY.toFixed(1)} mm`;
}

function mm(value: number): string {
  return String(Number(value.toFixed(3)));
}
