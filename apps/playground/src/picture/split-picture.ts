import type { ArtworkView, PlanView, SplitView } from '../workers/views.ts';
import type { Caption, Ink, Picture, Thing } from './ink.ts';
import type { PictureWords } from './picture-words.ts';
import { chosenPlan, frameOf, paintOf, partInk, partKey, thingOf } from './pictures.ts';

/** Parts that are not in question stand back. */
const FADED = 0.3;

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
  const above: Ink[] = [];
  const seams: Ink[] = [];
  const focus = artwork.parts.findIndex((part) => part.id === partId);
  for (const [index, part] of artwork.parts.entries()) {
    const outcome = split.parts.find((candidate) => candidate.partId === part.id);
    const plan = chosenPlan(outcome);
    if (focus !== -1 && index > focus) {
      // what lies on the part in question hides its seam: shown as an outline only
      above.push(...outlineInks(part.d));
      continue;
    }
    things.push(thingOf(part, words));
    if (plan === null || (focus !== -1 && index !== focus)) {
      inks.push(...partInk(part, selected).map((ink) => (focus === -1 ? ink : { ...ink, alpha: FADED })));
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
    // the band that what lies above has to cover for the seam to count as hidden
    inks.push(
      ...plan.seams.map((seam): Ink => ({ d: seam.d, stroke: 'good', widthMm: 2 * split.landingMm, alpha: 0.32 })),
    );
    seams.push(...seamInks(plan));
    captions.push(...plan.pieces.map((piece) => pieceCaption(piece)), ...plan.seams.map(seamCaption));
  }
  return { bounds: frameOf(artwork), inks: [...inks, ...above, ...seams], captions, things };
}

/** An outline that is seen on any paint and in any look of the page: dashes on a rim of the other tone. */
function outlineInks(d: string): Ink[] {
  return [
    { d, stroke: 'card', widthPx: 2.5, alpha: 0.3 },
    { d, stroke: 'ink', widthPx: 1, dashPx: [5, 5], alpha: 0.6 },
  ];
}

function pieceCaption(piece: PlanView['pieces'][number]): Caption {
  return {
    text: piece.number,
    x: (piece.box.minX + piece.box.maxX) / 2,
    y: (piece.box.minY + piece.box.maxY) / 2,
    sizePx: 13,
    align: 'center',
    tint: 'number',
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
    tint: 'number',
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
      { d: seam.d, stroke: 'card', widthPx: 5 },
      { d: seam.d, stroke: 'good', widthPx: 2.5 },
      ...seam.visible.flatMap((d): Ink[] => [
        { d, stroke: 'card', widthPx: 8 },
        { d, stroke: 'look', widthPx: 5 },
      ]),
    ]),
  ];
}
