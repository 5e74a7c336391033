import type { SheetView } from '../workers/views.ts';

/** Where a sheet hangs on the wall, or a pile of equal ones: its upper left corner, mm. */
export interface HungSheet {
  readonly x: number;
  readonly y: number;
  readonly sheet: SheetView;
  /** Its place in the layout; of a pile the place of the one on top. */
  readonly index: number;
  /** How many equal sheets the pile has. */
  readonly times: number;
}

/** Gap between sheets on the wall, as a share of the widest sheet. */
const GAP_SHARE = 0.06;

/**
 * Hang the sheets as a wall, in rows, about as wide as `aspect` asks; equal ones as one pile.
 * @param aspect - width / height of the place to fill.
 */
export function hangSheets(sheets: readonly SheetView[], aspect: number): readonly HungSheet[] {
  if (sheets.length === 0) return [];
  const piles = pilesOf(sheets);
  const width = Math.max(...sheets.map((sheet) => sheet.width));
  const height = Math.max(...sheets.map((sheet) => sheet.height));
  const gap = width * GAP_SHARE;
  let columns = 1;
  let best = Number.POSITIVE_INFINITY;
  for (let candidate = 1; candidate <= piles.length; candidate++) {
    const rows = Math.ceil(piles.length / candidate);
    // the larger of both ratios decides how small the wall has to be drawn
    const size = Math.max(candidate * (width + gap), rows * (height + gap * 1.6) * aspect);
    if (size < best) {
      best = size;
      columns = candidate;
    }
  }
  return piles.map((pile, at) => ({
    ...pile,
    x: (at % columns) * (width + gap),
    y: Math.floor(at / columns) * (height + gap * 1.6),
  }));
}

/** Equal sheets together, in the order of the first of each. */
function pilesOf(sheets: readonly SheetView[]): Omit<HungSheet, 'x' | 'y'>[] {
  const piles = new Map<string, { sheet: SheetView; index: number; times: number }>();
  for (const [index, sheet] of sheets.entries()) {
    const content = contentOf(sheet);
    const pile = piles.get(content);
    if (pile === undefined) piles.set(content, { sheet, index, times: 1 });
    else pile.times += 1;
  }
  return [...piles.values()];
}

/** What is cut from a sheet: equal for sheets that are cut alike, whichever sign their pieces are for. */
function contentOf({ material, stockId, width, height, placements, loadings }: SheetView): string {
  const places = placements.map(({ pieceId, x, y, turnDeg, mirrored }) => [pieceId, x, y, turnDeg, mirrored]);
  return JSON.stringify([material, stockId, width, height, places.sort(), loadings.map(({ page }) => page)]);
}

/** The sheet below a point of the wall, and the point in the sheet's own frame. */
export function sheetAt(
  hung: readonly HungSheet[],
  x: number,
  y: number,
): { index: number; x: number; y: number } | null {
  for (const at of hung) {
    if (x >= at.x && x <= at.x + at.sheet.width && y >= at.y && y <= at.y + at.sheet.height) {
      return { index: at.index, x: x - at.x, y: y - at.y };
    }
  }
  return null;
}

/** Where the sheet hangs, or the pile it is in; null when it is in none. */
export function hungAs(hung: readonly HungSheet[], sheet: number): HungSheet | null {
  return hung.find((at) => at.index === sheet) ?? null;
}
