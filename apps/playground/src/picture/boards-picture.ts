import type { BoardsView, PlacementView } from '../workers/views.ts';
import { boxAt, type Caption, type Ink, type Picture, type Thing } from './ink.ts';
import { loadingCaptions, loadingInks } from './loading-inks.ts';
import { NO_WORDS, type PictureWords } from './picture-words.ts';
import { markTint, paintOf } from './pictures.ts';
import { type HungSheet, hangSheets, hungAs } from './wall.ts';

export const placementKey = (id: string): string => `placement ${id}`;

export interface BoardsLook {
  readonly aspect: number;
  readonly selected: string | null;
  readonly partId: string | null;
  readonly pinned: ReadonlySet<string>;
  /** Marks, the grain of the boards and where the bed lies: too much for a small picture. */
  readonly showsMarks: boolean;
  /** Bare wood instead of the paint that comes later. */
  readonly isRaw: boolean;
  readonly words: PictureWords;
  /** Follows the hand: drawn instead of its place in the layout. */
  /** The loading that is looked at: what is cut in others stands back. */
  readonly loading: { readonly sheet: number; readonly number: number } | null;
  readonly held: { readonly placement: PlacementView; readonly sheet: number; readonly isFree: boolean } | null;
}

export const PLAIN_LOOK: BoardsLook = {
  aspect: 1.5,
  selected: null,
  partId: null,
  pinned: new Set(),
  showsMarks: false,
  isRaw: false,
  words: NO_WORDS,
  loading: null,
  held: null,
};

/** All boards as a wall of sheets, pieces in the paint of their parts. */
export function boardsPicture(boards: BoardsView, look: BoardsLook): Picture {
  const kinds = new Map(
    boards.kinds.map((kind) => {
      const paint = look.isRaw ? null : kind.paint;
      return [kind.pieceId, { kind, fill: paintOf(paint), tint: markTint(paint) }] as const;
    }),
  );
  const hung = hangSheets(boards.sheets, look.aspect);
  const inks: Ink[] = [];
  const captions: Caption[] = [];
  const things: Thing[] = [];
  let maxX = 100;
  let maxY = 75;
  for (const pile of hung) {
    const { x, y, sheet, index } = pile;
    const board = { x, y, turnDeg: 0, mirrored: false };
    maxX = Math.max(maxX, x + sheet.width);
    maxY = Math.max(maxY, y + sheet.height);
    inks.push(...boardInks(pile, look.showsMarks));
    if (sheet.offcut !== null) {
      inks.push({ d: sheet.offcut.d, spot: board, fill: 'good', alpha: 0.12 });
      inks.push({ d: sheet.offcut.d, spot: board, stroke: 'good', widthPx: 1.2, dashPx: [6, 4] });
    }
    const loaded =
      look.loading?.sheet === index ? sheet.loadings.find(({ number }) => number === look.loading?.number) : undefined;
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
        ...(loaded === undefined || loaded.placements.includes(placement.id) ? {} : { alpha: STANDS_BACK }),
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
    if (look.showsMarks && sheet.loadings.length > 0) {
      inks.push(...loadingInks(pile, loaded ?? null));
      captions.push(...loadingCaptions(pile));
    }
    captions.push(sheetCaption(pile, look.words.sheet(pile)));
    if (pile.times > 1) captions.push(timesCaption(pile));
  }
  if (look.held !== null) inks.push(...heldInks(boards, look.held, hung));
  return { bounds: { minX: 0, minY: -maxX * 0.03, maxX, maxY }, inks, captions, things };
}

/** What is cut in another loading than the one that is looked at. */
const STANDS_BACK = 0.3;

/** How far each board of a pile stands out behind the one before, as a share of its width; no more than so many are drawn. */
const PILE_STEP = 0.012;
const PILE_SHOWN = 3;
/** Lines of grain on a board, and how far they sway, as a share of the distance between two. */
const GRAIN_LINES = 11;
const GRAIN_SWAY = 0.35;

/** A board as wood: those below it in its pile, its colour, and a faint grain along its longer side. */
function boardInks({ x, y, sheet, times }: HungSheet, hasGrain: boolean): Ink[] {
  const spot = { x, y, turnDeg: 0, mirrored: false };
  const step = sheet.width * PILE_STEP;
  const pile = Array.from({ length: Math.min(times - 1, PILE_SHOWN) }, (_, at): Ink => {
    const off = step * (Math.min(times - 1, PILE_SHOWN) - at);
    return { d: sheet.outline, spot: { ...spot, x: x + off, y: y + off }, fill: 'board', stroke: 'soft', widthPx: 1 };
  });
  const board: Ink = { d: sheet.outline, spot, fill: 'board', stroke: 'soft', widthPx: 1 };
  if (!hasGrain) return [...pile, board];
  return [...pile, board, { d: grainPath(sheet.width, sheet.height), spot, stroke: 'grain', widthPx: 1, alpha: 0.45 }];
}

function grainPath(width: number, height: number): string {
  const isLying = width >= height;
  const along = isLying ? width : height;
  const gap = (isLying ? height : width) / (GRAIN_LINES + 1);
  const at = (a: number, b: number): string =>
    isLying ? `${a.toFixed(1)} ${b.toFixed(1)}` : `${b.toFixed(1)} ${a.toFixed(1)}`;
  return Array.from({ length: GRAIN_LINES }, (_, line) => {
    const b = gap * (line + 1);
    const sway = gap * GRAIN_SWAY * (line % 2 === 0 ? 1 : -1) * (0.4 + ((line * 7) % 5) / 8);
    return `M${at(0, b)}C${at(along * 0.3, b + sway)} ${at(along * 0.6, b - sway)} ${at(along, b + sway * 0.4)}`;
  }).join('');
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

/** How many boards a pile has: small enough to be there however far the wall is. */
function timesCaption({ x, y, sheet, times }: HungSheet): Caption {
  return {
    text: `\u00d7 ${times}`,
    x: x + sheet.width * 0.94,
    y: y + sheet.height * 0.08,
    sizePx: 14,
    align: 'center',
    tint: 'number',
    hasHalo: true,
  };
}

function sheetCaption({ x, y, sheet }: HungSheet, text: string): Caption {
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
  const at = hungAs(hung, held.sheet);
  if (kind === undefined || at === null) return [];
  const spot = { ...held.placement, x: held.placement.x + at.x, y: held.placement.y + at.y };
  const tint = held.isFree ? 'good' : 'look';
  return [
    { d: kind.d, spot, fill: paintOf(kind.paint), alpha: 0.8, key: placementKey(held.placement.id) },
    { d: kind.d, spot, stroke: tint, widthPx: 3, ...(held.isFree ? {} : { dashPx: [8, 5] }) },
  ];
}
