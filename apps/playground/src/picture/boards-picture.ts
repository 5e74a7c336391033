import type { BoardsView, PlacementView, SheetView } from '../workers/views.ts';
import { boxAt, type Caption, type Ink, type Picture, type Thing } from './ink.ts';
import { NO_WORDS, type PictureWords } from './picture-words.ts';
import { markTint, paintOf } from './pictures.ts';

export const placementKey = (id: string): string => `placement ${id}`;

/** Where each sheet hangs on the wall: its upper left corner, mm. */
export interface HungSheet {
  readonly x: number;
  readonly y: number;
  readonly sheet: SheetView;
}

/** Gap between sheets on the wall, as a share of the widest sheet. */
const GAP_SHARE = 0.06;

/**
 * Hang the sheets as a wall, in rows, about as wide as `aspect` asks.
 * @param aspect - width / height of the place to fill.
 */
export function hangSheets(sheets: readonly SheetView[], aspect: number): readonly HungSheet[] {
  if (sheets.length === 0) return [];
  const width = Math.max(...sheets.map((sheet) => sheet.width));
  const height = Math.max(...sheets.map((sheet) => sheet.height));
  const gap = width * GAP_SHARE;
  let columns = 1;
  let best = Number.POSITIVE_INFINITY;
  for (let candidate = 1; candidate <= sheets.length; candidate++) {
    const rows = Math.ceil(sheets.length / candidate);
    // the larger of both ratios decides how small the wall has to be drawn
    const size = Math.max(candidate * (width + gap), rows * (height + gap * 1.6) * aspect);
    if (size < best) {
      best = size;
      columns = candidate;
    }
  }
  return sheets.map((sheet, index) => ({
    x: (index % columns) * (width + gap),
    y: Math.floor(index / columns) * (height + gap * 1.6),
    sheet,
  }));
}

export interface BoardsLook {
  readonly aspect: number;
  readonly selected: string | null;
  readonly partId: string | null;
  readonly pinned: ReadonlySet<string>;
  readonly showsMarks: boolean;
  readonly words: PictureWords;
  /** Follows the hand: drawn instead of its place in the layout. */
  readonly held: { readonly placement: PlacementView; readonly sheet: number; readonly isFree: boolean } | null;
}

export const PLAIN_LOOK: BoardsLook = {
  aspect: 1.5,
  selected: null,
  partId: null,
  pinned: new Set(),
  showsMarks: false,
  words: NO_WORDS,
  held: null,
};

/** All boards as a wall of sheets, pieces in the paint of their parts. */
export function boardsPicture(boards: BoardsView, look: BoardsLook): Picture {
  const kinds = new Map(
    boards.kinds.map((kind) => [kind.pieceId, { kind, fill: paintOf(kind.paint), tint: markTint(kind.paint) }]),
  );
  const hung = hangSheets(boards.sheets, look.aspect);
  const inks: Ink[] = [];
  const captions: Caption[] = [];
  const things: Thing[] = [];
  let maxX = 100;
  let maxY = 75;
  for (const [index, { x, y, sheet }] of hung.entries()) {
    const board = { x, y, turnDeg: 0, mirrored: false };
    maxX = Math.max(maxX, x + sheet.width);
    maxY = Math.max(maxY, y + sheet.height);
    inks.push({ d: sheet.outline, spot: board, fill: 'card', stroke: 'soft', widthPx: 1 });
    if (sheet.offcut !== null) {
      inks.push({ d: sheet.offcut.d, spot: board, fill: 'good', alpha: 0.12 });
      inks.push({ d: sheet.offcut.d, spot: board, stroke: 'good', widthPx: 1.2, dashPx: [6, 4] });
    }
    for (const placement of sheet.placements) {
      const isHeld = look.held?.placement.id === placement.id;
      if (isHeld) continue;
      const known = kinds.get(placement.pieceId);
      if (known === undefined) continue;
      const { kind, fill, tint } = known;
      const { turnDeg, mirrored } = placement;
      const spot = { x: placement.x + x, y: placement.y + y, turnDeg, mirrored };
      const isSelected = look.selected === placement.id;
      const isPartSelected = look.partId === kind.partId;
      inks.push({
        d: kind.d,
        spot,
        fill,
        stroke: isSelected || isPartSelected ? 'ink' : 'glass',
        widthPx: isSelected ? 3.5 : isPartSelected ? 2.2 : 0.8,
        key: placementKey(placement.id),
      });
      if (look.showsMarks) {
        for (const d of kind.marks) inks.push({ d, spot, stroke: tint, widthPx: 0.8 });
      }
      const box = boxAt(kind.box, spot);
      things.push({
        key: placementKey(placement.id),
        name: look.words.placement(kind, placement, index),
        box,
      });
      if (look.pinned.has(placement.id)) captions.push(pinCaption(box, look.words.pinned));
    }
    captions.push(sheetCaption(x, y, sheet, look.words.sheet(sheet, index)));
  }
  if (look.held !== null) inks.push(...heldInks(boards, look.held, hung));
  return { bounds: { minX: 0, minY: -maxX * 0.03, maxX, maxY }, inks, captions, things };
}

function pinCaption(box: { minX: number; minY: number; maxX: number; maxY: number }, text: string): Caption {
  return {
    text,
    x: (box.minX + box.maxX) / 2,
    y: (box.minY + box.maxY) / 2,
    sizePx: 11,
    align: 'center',
    tint: 'ink',
    leastScale: 0.6,
    hasHalo: true,
  };
}

function sheetCaption(x: number, y: number, sheet: SheetView, text: string): Caption {
  return {
    text,
    x,
    y: y - sheet.width * 0.018,
    sizePx: 11,
    align: 'left',
    tint: 'soft',
    leastScale: 0.34,
  };
}

function heldInks(boards: BoardsView, held: NonNullable<BoardsLook['held']>, hung: readonly HungSheet[]): Ink[] {
  const kind = boards.kinds.find((candidate) => candidate.pieceId === held.placement.pieceId);
  const at = hung[held.sheet];
  if (kind === undefined || at === undefined) return [];
  const spot = { ...held.placement, x: held.placement.x + at.x, y: held.placement.y + at.y };
  const tint = held.isFree ? 'good' : 'look';
  return [
    { d: kind.d, spot, fill: paintOf(kind.paint), alpha: 0.8, key: placementKey(held.placement.id) },
    { d: kind.d, spot, stroke: tint, widthPx: 3, ...(held.isFree ? {} : { dashPx: [8, 5] }) },
  ];
}

/** The sheet below a point of the wall, and the point in the sheet's own frame. */
export function sheetAt(
  hung: readonly HungSheet[],
  x: number,
  y: number,
): { index: number; x: number; y: number } | null {
  for (const [index, at] of hung.entries()) {
    if (x >= at.x && x <= at.x + at.sheet.width && y >= at.y && y <= at.y + at.sheet.height) {
      return { index, x: x - at.x, y: y - at.y };
    }
  }
  return null;
}
