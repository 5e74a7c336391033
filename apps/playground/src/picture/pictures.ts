import type { ArtworkView, PartSplitView, PartView, PlanView, SplitView, StackView } from '../workers/views.ts';
import { boxAround, type Caption, type Ink, type Picture, type Thing, type Tint } from './ink.ts';
import type { PictureWords } from './picture-words.ts';

/** Colour of a part: its paint, or bare wood. */
export function paintOf(paint: string | null): Tint {
  return paint === null ? 'wood' : (paint as Tint);
}

/** Paint darker than this hides a brown line, relative luminance. */
const DARK_PAINT = 0.16;

/** Colour of a mark on a part, so that it is seen on its paint whatever the look of the page. */
export function markTint(paint: string | null): Tint {
  if (paint === null || !/^#[0-9a-f]{6}$/i.test(paint)) return 'mark';
  return luminance(paint) < DARK_PAINT ? '#f3e6d2' : '#5a3b22';
}

/** Relative luminance of `#rrggbb` (WCAG 2.2, definition of the term). */
function luminance(colour: string): number {
  const channel = (at: number): number => {
    const value = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  };
  return 0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5);
}

export const partKey = (id: string): string => `part ${id}`;
/** The part or placement behind a key of a picture. */
export function keyTarget(key: string | null): { kind: 'part' | 'placement'; id: string } | null {
  if (key === null) return null;
  const [kind, ...rest] = key.split(' ');
  return kind === 'part' || kind === 'placement' ? { kind, id: rest.join(' ') } : null;
}

function thingOf(part: PartView, words: PictureWords): Thing {
  return { key: partKey(part.id), name: words.part(part), box: part.box };
}

function partInk(part: PartView, selected: string | null): Ink[] {
  const isSelected = part.id === selected;
  return [
    {
      d: part.d,
      fill: paintOf(part.paint),
      stroke: isSelected ? 'ink' : 'glass',
      widthPx: isSelected ? 3 : 0.8,
      key: partKey(part.id),
    },
    ...part.marks.map(
      (mark): Ink => ({
        d: mark.d,
        stroke: markTint(part.paint),
        widthPx: 1,
        dashPx: mark.process === 'score' ? [] : [4, 3],
      }),
    ),
  ];
}

const frameOf = (artwork: ArtworkView) => boxAround(artwork.parts.map((part) => part.box));

/** The drawing as read, parts in their paint. */
export function artworkPicture(artwork: ArtworkView, selected: string | null, words: PictureWords): Picture {
  return {
    bounds: frameOf(artwork),
    inks: artwork.parts.flatMap((part) => partInk(part, selected)),
    captions: [],
    things: artwork.parts.map((part) => thingOf(part, words)),
  };
}

export interface StackLook {
  /** How many layers are peeled off the top. */
  readonly peeled: number;
  /** 0 = assembled, 1 = every layer apart. */
  readonly apart: number;
  readonly showsGuides: boolean;
}

/** The sign assembled, with layers peeled off, or pulled apart upwards. */
export function stackPicture(
  artwork: ArtworkView,
  stack: StackView,
  look: StackLook,
  selected: string | null,
  words: PictureWords,
): Picture {
  const shown = artwork.parts.slice(0, Math.max(artwork.parts.length - look.peeled, 1));
  const frame = frameOf(artwork);
  const levels = new Map(stack.layers.map((layer) => [layer.partId, layer.level]));
  const lift = (frame.maxY - frame.minY) * 0.42 * look.apart;
  const inks: Ink[] = [];
  const things: Thing[] = [];
  for (const part of shown) {
    const dy = -lift * (levels.get(part.id) ?? 0);
    const spot = { x: 0, y: dy, turnDeg: 0, mirrored: false };
    inks.push(...partInk(part, selected).map((ink) => ({ ...ink, spot })));
    const layer = stack.layers.find((candidate) => candidate.partId === part.id);
    if (look.showsGuides) {
      inks.push(
        ...(layer?.guides ?? []).map(
          (d): Ink => ({ d, spot, stroke: markTint(part.paint), widthPx: 1, dashPx: [3, 3] }),
        ),
      );
    }
    if (layer !== undefined && layer.fault !== null) {
      inks.push(...layer.fillers.map((d): Ink => ({ d, spot, fill: 'look', alpha: 0.25 })));
      inks.push({ d: part.d, spot, stroke: 'look', widthPx: 2, dashPx: [8, 5] });
    }
    const thing = thingOf(part, words);
    things.push({ ...thing, box: { ...thing.box, minY: thing.box.minY + dy, maxY: thing.box.maxY + dy } });
  }
  const highest = Math.max(0, ...shown.map((part) => levels.get(part.id) ?? 0));
  return { bounds: { ...frame, minY: frame.minY - lift * highest }, inks, captions: [], things };
}

/** Tints of the pieces of one part, so that neighbours are told apart without shouting. */
const PIECE_ALPHA = [1, 0.72, 0.86, 0.6, 0.93, 0.66] as const;

/** The split parts with their seams: hidden stretches quiet, visible ones loud, what covers them as an outline. */
export function splitPicture(
  artwork: ArtworkView,
  split: SplitView,
  partId: string | null,
  selected: string | null,
  words: PictureWords,
): Picture {
  const inks: Ink[] = [];
  const captions: Caption[] = [];
  const things: Thing[] = [];
  const focus = artwork.parts.findIndex((part) => part.id === partId);
  for (const [index, part] of artwork.parts.entries()) {
    const outcome = split.parts.find((candidate) => candidate.partId === part.id);
    const plan = chosenPlan(outcome);
    if (focus !== -1 && index > focus) {
      // what lies on the part in question hides its seam: shown as an outline only
      inks.push({ d: part.d, stroke: 'soft', widthPx: 1, dashPx: [5, 4] });
      continue;
    }
    things.push(thingOf(part, words));
    if (plan === null) {
      inks.push(...partInk(part, selected));
      if (outcome?.kind === 'cannot') inks.push({ d: part.d, stroke: 'look', widthPx: 4, dashPx: [10, 6] });
      continue;
    }
    for (const [at, piece] of plan.pieces.entries()) {
      inks.push({
        d: piece.d,
        fill: paintOf(part.paint),
        alpha: PIECE_ALPHA[at % PIECE_ALPHA.length]!,
        key: partKey(part.id),
      });
    }
    inks.push({ d: part.d, stroke: part.id === selected ? 'ink' : 'glass', widthPx: part.id === selected ? 3 : 0.8 });
    inks.push(...seamInks(plan));
    captions.push(...plan.pieces.map((piece) => pieceCaption(piece)), ...plan.seams.map(seamCaption));
  }
  return { bounds: frameOf(artwork), inks, captions, things };
}

function pieceCaption(piece: PlanView['pieces'][number]): Caption {
  return {
    text: piece.number,
    x: (piece.box.minX + piece.box.maxX) / 2,
    y: (piece.box.minY + piece.box.maxY) / 2,
    sizePx: 13,
    align: 'center',
    tint: 'ink',
    leastScale: 0.5,
    hasHalo: true,
  };
}

/** The letters of a seam, beside its handle. */
function seamCaption(seam: PlanView['seams'][number]): Caption {
  return {
    text: seam.label,
    x: seam.handle.x,
    y: seam.handle.y,
    sizePx: 11,
    align: 'left',
    tint: 'soft',
    leastScale: 0.5,
    hasHalo: true,
    dxPx: 26,
  };
}

/** A seam: a quiet line, and a loud double one along what shows; rear plates only where they are cut. */
export function seamInks(plan: Pick<PlanView, 'seams' | 'plates' | 'isPlated'>): Ink[] {
  return [
    ...(plan.isPlated ? plan.plates : []).map((d): Ink => ({ d, fill: 'soft', alpha: 0.25 })),
    ...plan.seams.flatMap((seam): Ink[] => [
      { d: seam.d, stroke: 'card', widthPx: 4 },
      { d: seam.d, stroke: 'good', widthPx: 2 },
      ...seam.visible.flatMap((d): Ink[] => [
        { d, stroke: 'card', widthPx: 8 },
        { d, stroke: 'look', widthPx: 5 },
      ]),
    ]),
  ];
}

export function chosenPlan(part: PartSplitView | undefined): PlanView | null {
  if (part === undefined) return null;
  return part.plans.find((plan) => plan.id === part.chosenPlanId) ?? null;
}

/** The parts of a split that the whole view should speak of first: those that had to be split or cannot be. */
export function splitParts(split: SplitView): readonly PartSplitView[] {
  return split.parts.filter((part) => part.kind !== 'fits');
}
