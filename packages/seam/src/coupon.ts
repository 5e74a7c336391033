import type { Contour, Segment, Shape } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import { knobbedStretch } from './assemble.ts';
import { cutOutline } from './cut-outline.ts';
import { SeamError } from './error.ts';
import { knobProfile } from './knob-profile.ts';
import { LARGEST_KERF_MM, seamSizes } from './sizes.ts';
import { spineOf } from './spine.ts';
import type { EdgeOrigin } from './task.ts';

/** Blocks in the comb: their gaps add up, which makes a kerf large enough for a ruler. */
const BLOCKS = 10;
const BLOCK_MM = 10;
const BLOCK_HEIGHT_MM = 12;
const FRAME_MM = 8;
/** Between the pieces of the coupon. */
const SPACE_MM = 4;

export interface CouponOptions {
  readonly thickness: number;
  /** The kerf believed so far: fit pairs are cut with it. */
  readonly kerf: number;
  /** Gaps to try, mm; negative = press fit. */
  readonly clearances: readonly number[];
}

/** One thing to cut, in the coupon's frame (origin upper left, y down). Paths are where the beam's centre goes. */
export interface CouponPiece {
  readonly id: string;
  readonly kind: 'comb' | 'tile' | 'bar';
  readonly shape: Shape;
  /** Open lines cut inside the piece before its outline. */
  readonly lines: readonly Contour[];
  readonly label: string;
  readonly labelAt: Point;
  readonly labelHeightMm: number;
}

export interface Coupon {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly pieces: readonly CouponPiece[];
  /** How to cut, read and enter it, line by line. */
  readonly instructions: readonly string[];
  /** Kerfs that the gap in the comb adds up. */
  readonly kerfsInGap: number;
}

/** Gaps tried when nothing else is asked for, mm. */
export const DEFAULT_CLEARANCES: readonly number[] = [-0.05, 0, 0.05, 0.1, 0.15];

/**
 * A small test piece: a comb that measures the kerf, and knobs with sockets at several clearances.
 * @returns paths for the beam: the comb uncompensated (its gap is the measure), knobs and sockets compensated with the kerf given.
 * @throws SeamError `bad-task` for numbers that make no sense.
 * @remarks O(clearances). The comb: cutting a window of ten blocks apart removes eleven kerfs from its length; common practice,
 * no source.
 */
export function couponShapes(options: CouponOptions): Coupon {
  const { thickness, kerf, clearances } = options;
  if (!(thickness > 0) || !Number.isFinite(thickness))
    throw new SeamError('bad-task', `thickness cannot be ${thickness} mm`);
  if (!(kerf >= 0) || kerf > LARGEST_KERF_MM) throw new SeamError('bad-task', `kerf cannot be ${kerf} mm`);
  if (clearances.length === 0 || clearances.some((each) => !Number.isFinite(each) || Math.abs(each) > 2)) {
    throw new SeamError('bad-task', `clearances must lie within 2 mm: ${clearances.join(', ')}`);
  }
  const comb = combPiece();
  const combHeight = BLOCK_HEIGHT_MM + 2 * FRAME_MM;
  const row = fitRow(options, combHeight + SPACE_MM);
  const combWidth = BLOCKS * BLOCK_MM + 2 * FRAME_MM;
  return {
    widthMm: Math.max(combWidth, row.width),
    heightMm: row.bottom,
    pieces: [comb, ...row.pieces],
    instructions: instructionsFor(options),
    kerfsInGap: BLOCKS + 1,
  };
}

/**
 * Kerf from gaps measured in the comb, mm.
 * @param gaps - the gap left when the blocks are pushed to one end, one or more readings.
 * @returns mean kerf and how far single readings differ from it.
 * @throws SeamError `bad-task` for readings that no kerf explains.
 */
export function kerfFromCoupon(gaps: readonly number[]): { readonly kerf: number; readonly spread: number } {
  if (gaps.length === 0) throw new SeamError('bad-task', 'a kerf needs at least one reading');
  const kerfs = gaps.map((gap) => gap / (BLOCKS + 1));
  for (const [index, kerf] of kerfs.entries()) {
    if (!(kerf >= 0) || kerf > LARGEST_KERF_MM) {
      throw new SeamError('bad-task', `a gap of ${gaps[index]} mm is no reading of the comb`, `reading ${index + 1}`);
    }
  }
  const kerf = kerfs.reduce((sum, each) => sum + each, 0) / kerfs.length;
  return { kerf, spread: Math.max(...kerfs.map((each) => Math.abs(each - kerf))) };
}

/** The fit to enter when a pair cut at `clearance` with `usedKerf` is liked and the kerf turned out to be `measuredKerf`, mm. */
export function fitFromCoupon(clearance: number, usedKerf: number, measuredKerf: number): number {
  return clearance + measuredKerf - usedKerf;
}

/** A frame with a window that nine lines divide into ten blocks. */
function combPiece(): CouponPiece {
  const width = BLOCKS * BLOCK_MM;
  const top = FRAME_MM;
  const bottom = FRAME_MM + BLOCK_HEIGHT_MM;
  const lines: Contour[] = [];
  for (let k = 1; k < BLOCKS; k++) {
    const x = FRAME_MM + k * BLOCK_MM;
    lines.push({ start: { x, y: top }, segments: [{ kind: 'line', to: { x, y: bottom } }], closed: false });
  }
  return {
    id: 'comb',
    kind: 'comb',
    shape: {
      outer: box(0, 0, width + 2 * FRAME_MM, BLOCK_HEIGHT_MM + 2 * FRAME_MM, false),
      holes: [box(FRAME_MM, top, width, BLOCK_HEIGHT_MM, true)],
    },
    lines,
    label: `kerf = gap / ${BLOCKS + 1}`,
    labelAt: { x: FRAME_MM + width / 2, y: bottom + FRAME_MM / 2 },
    labelHeightMm: 4,
  };
}

/** Tiles with a knob below, one for each clearance, over a bar with a socket for each. */
function fitRow(
  { thickness, kerf, clearances }: CouponOptions,
  top: number,
): { width: number; bottom: number; pieces: CouponPiece[] } {
  const sizes = seamSizes(thickness, kerf);
  const design = { kind: 'round' as const, neck: sizes.neck, fillet: sizes.fillet, reach: sizes.reach };
  const tile = Math.ceil(sizes.neck * 1.35 + 2 * sizes.web + 8);
  const pitch = tile + SPACE_MM;
  const body = Math.ceil(Math.max(16, sizes.reach + sizes.web));
  const pieces: CouponPiece[] = [];
  const barTop = top + body + sizes.reach + SPACE_MM;
  const barHeight = Math.ceil(sizes.reach + sizes.web + 9);
  // The bar's upper edge runs from right to left, with the wood on the left of travel.
  const barEdges: Segment[] = [];
  const barOrigins: EdgeOrigin[] = [];
  const width = clearances.length * pitch;
  clearances.forEach((clearance, k) => {
    const x = k * pitch + SPACE_MM / 2;
    const seam = (y: number) => {
      const spine = spineOf({ x: x + tile, y }, [{ kind: 'line', to: { x, y } }]);
      const knob = knobProfile(spine, tile / 2, -1, design);
      if (knob === null) throw new SeamError('internal', 'a knob does not fit its own tile');
      return knobbedStretch(spine, [knob], 0, spine.length);
    };
    pieces.push(tilePiece(clearance, kerf, x, top, tile, body, seam(top + body).segments));
  });
  // Sockets from left to right: the same line as the tiles' edges, travelled the other way.
  for (let k = 0; k < clearances.length; k++) {
    const x = k * pitch + SPACE_MM / 2;
    const spine = spineOf({ x, y: barTop }, [{ kind: 'line', to: { x: x + tile, y: barTop } }]);
    const knob = knobProfile(spine, tile / 2, 1, design);
    if (knob === null) throw new SeamError('internal', 'a socket does not fit its bar');
    barEdges.push({ kind: 'line', to: { x, y: barTop } });
    barOrigins.push(null);
    for (const segment of knobbedStretch(spine, [knob], 0, spine.length).segments) {
      barEdges.push(segment);
      barOrigins.push('fit');
    }
  }
  const right = width;
  const bottom = barTop + barHeight;
  for (const to of [
    { x: right, y: barTop },
    { x: right, y: bottom },
    { x: 0, y: bottom },
    { x: 0, y: barTop },
  ]) {
    barEdges.push({ kind: 'line', to });
    barOrigins.push(null);
  }
  const bar: Shape = { outer: { start: { x: 0, y: barTop }, segments: barEdges, closed: true }, holes: [] };
  pieces.push({
    id: 'bar',
    kind: 'bar',
    shape: cutOutline({ id: 'bar', shape: bar, edges: [barOrigins] }, { kerf, fit: 0 }),
    lines: [],
    label: `${thickness} mm, kerf ${kerf}`,
    labelAt: { x: width / 2, y: bottom - 4 },
    labelHeightMm: 4,
  });
  return { width, bottom, pieces };
}

/** The whole clearance is taken off the tile, so that all tiles share one bar. */
function tilePiece(
  clearance: number,
  kerf: number,
  x: number,
  y: number,
  tile: number,
  body: number,
  lower: readonly Segment[],
): CouponPiece {
  const segments: Segment[] = [
    { kind: 'line', to: { x: x + tile, y } },
    { kind: 'line', to: { x: x + tile, y: y + body } },
    ...lower,
    { kind: 'line', to: { x, y } },
  ];
  const edges: EdgeOrigin[] = [null, null, ...lower.map(() => 'fit'), null];
  const shape: Shape = { outer: { start: { x, y }, segments, closed: true }, holes: [] };
  const label = clearance.toFixed(2);
  return {
    id: `tile ${label}`,
    kind: 'tile',
    shape: cutOutline({ id: `tile ${label}`, shape, edges: [edges] }, { kerf, fit: 2 * clearance }),
    lines: [],
    label,
    labelAt: { x: x + tile / 2, y: y + body / 2 - 2 },
    labelHeightMm: 5,
  };
}

function box(x: number, y: number, width: number, height: number, isHole: boolean): Contour {
  const corners = [
    { x, y },
    { x: x + width, y },
    { x: x + width, y: y + height },
    { x, y: y + height },
  ];
  if (isHole) corners.reverse();
  const [start, ...rest] = corners;
  return { start: start!, segments: [...rest, start!].map((to) => ({ kind: 'line', to })), closed: true };
}

function instructionsFor({ kerf, thickness, clearances }: CouponOptions): string[] {
  return [
    `Cut this coupon from the same ${thickness} mm stock, with the settings you cut signs with. The file is compensated already: switch kerf compensation in the machine off.`,
    'Kerf: push all blocks of the comb to one end of their window, without force. Measure the gap that is left with a calliper or feeler gauge.',
    `The gap is ${BLOCKS + 1} kerfs: divide it by ${BLOCKS + 1}. Measure two or three times and take the mean.`,
    `Fit: press each tile's knob into a socket of the bar. They are cut with gaps of ${clearances.map((each) => each.toFixed(2)).join(', ')} mm, for a kerf of ${kerf} mm.`,
    'Take the tile that goes in with the push of a thumb and stays when the bar is lifted; its number is the clearance.',
    `Enter the kerf as "kerf". Enter as "fit" the clearance plus the measured kerf less ${kerf}: a pair cut with too small a kerf is looser by the difference.`,
  ];
}
