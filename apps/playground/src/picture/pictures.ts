import type { ArtworkView, PartSplitView, PartView, PlanView, SplitView } from '../workers/views.ts';
import { boxAround, type Ink, type Picture, type Thing, type Tint } from './ink.ts';
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

export function thingOf(part: PartView, words: PictureWords): Thing {
  return { key: partKey(part.id), name: words.part(part), box: part.box };
}

export function partInk(part: PartView, selected: string | null): Ink[] {
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

export const frameOf = (artwork: ArtworkView) => boxAround(artwork.parts.map((part) => part.box));

/** The drawing as read, parts in their paint. */
export function artworkPicture(artwork: ArtworkView, selected: string | null, words: PictureWords): Picture {
  return {
    bounds: frameOf(artwork),
    inks: artwork.parts.flatMap((part) => partInk(part, selected)),
    captions: [],
    things: artwork.parts.map((part) => thingOf(part, words)),
  };
}

export function chosenPlan(part: PartSplitView | undefined): PlanView | null {
  if (part === undefined) return null;
  return part.plans.find((plan) => plan.id === part.chosenPlanId) ?? null;
}

/** The parts of a split that the whole view should speak of first: those that had to be split or cannot be. */
export function splitParts(split: SplitView): readonly PartSplitView[] {
  return split.parts.filter((part) => part.kind !== 'fits');
}
