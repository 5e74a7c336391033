import type { Complaint } from '@underlap/artwork/drawing';
import type { Bounds } from '@underlap/geometry/ring';
import { chosenPlan, partKey, splitParts } from '../picture/pictures.ts';
import { faultWords } from '../words/fault-words.ts';
import type { Say } from '../words/say.ts';
import { type ArtworkView, type BoardsView, STAGES, type StageId } from '../workers/views.ts';
import { pieceName } from './piece-name.ts';
import type { Results } from './results.ts';

/** A visible stretch shorter than this is nothing to speak of, mm. */
export const LEAST_VISIBLE_MM = 0.05;

/** Where in the picture of its stage something is seen: a place, or a thing of the picture by its key. */
export interface Spot {
  readonly stage: StageId;
  /** Of the picture, mm; null = wherever `key` is. */
  readonly box: Bounds | null;
  /** A part or a placement; null = a place that belongs to none. */
  readonly key: string | null;
}

/** Something that wants to be looked at before anything is cut. */
export interface Matter {
  readonly stage: StageId;
  readonly words: string;
  /** Null when there is no place to point at but the stage. */
  readonly spot: Spot | null;
}

/** Room shown round a point of the drawing, mm. */
const ROUND_MM = 20;

export function spotAt(stage: StageId, at: { x: number; y: number }, key: string | null = null): Spot {
  const box = { minX: at.x - ROUND_MM, minY: at.y - ROUND_MM, maxX: at.x + ROUND_MM, maxY: at.y + ROUND_MM };
  return { stage, box, key };
}

/** Where a remark on the drawing is seen; null when it has no place. */
export function spotOf({ place }: Pick<Complaint, 'place'>, artwork: ArtworkView): Spot | null {
  const part = artwork.parts.find(({ drawnAt }) => drawnAt === place.element);
  const key = part === undefined ? null : partKey(part.id);
  if (place.at !== null) return spotAt('artwork', place.at, key);
  return key === null ? null : { stage: 'artwork', box: null, key };
}

/** Faults of the way a part rests belong to the stack, though the drawing is read with them. */
const OF_STACK: ReadonlySet<string> = new Set(['rests-on-sliver', 'hangs', 'lies-apart']);

/** Remarks on the drawing that are urgent and are not told by the stack. */
export function isUrgent({ severity, code }: Complaint): boolean {
  return severity !== 'note' && !OF_STACK.has(code);
}

/** What wants to be looked at in one stage, the stages before it left out. */
export function mattersOf(stage: StageId, results: Results, say: Say): readonly Matter[] {
  const { fault } = results[stage];
  const failed = fault === null || fault.code === 'cancelled' ? [] : [matter(stage, faultWords(fault, say))];
  return [...failed, ...OF[stage](results, say)];
}

/** What wants to be looked at up to a stage and in it, first stage first. */
export function mattersUpTo(stage: StageId, results: Results, say: Say): readonly Matter[] {
  return STAGES.slice(0, STAGES.indexOf(stage) + 1).flatMap((each) => mattersOf(each, results, say));
}

function matter(stage: StageId, words: string, spot: Spot | null = null): Matter {
  return { stage, words, spot };
}

const ofPart = (stage: StageId, partId: string): Spot => ({ stage, box: null, key: partKey(partId) });

const OF: { readonly [Stage in StageId]: (results: Results, say: Say) => readonly Matter[] } = {
  artwork: ({ artwork: { view } }, say) => {
    if (view === null) return [];
    const size = view.size.kind === 'open' ? [matter('artwork', say.t('matter.size'))] : [];
    return [
      ...size,
      ...view.complaints.filter(isUrgent).map((told) => matter('artwork', told.message, spotOf(told, view))),
    ];
  },
  stack: ({ stack: { view }, artwork }, say) =>
    (view?.layers ?? [])
      .filter(({ fault }) => fault !== null && OF_STACK.has(fault))
      .map((layer) =>
        matter('stack', restWords(layer.partId, layer.fault, artwork.view, say), ofPart('stack', layer.partId)),
      ),
  split: ({ split: { view }, artwork }, say) =>
    (view === null ? [] : splitParts(view)).flatMap((part) => {
      const name = partName(part.partId, artwork.view);
      const { why } = part;
      if (why !== null) {
        const spot = why.at === null ? ofPart('split', part.partId) : spotAt('split', why.at, partKey(part.partId));
        return [matter('split', say.t('matter.cannot', { part: name, why: why.message }), spot)];
      }
      const visible = chosenPlan(part)?.visibleLengthMm ?? 0;
      if (visible <= LEAST_VISIBLE_MM) return [];
      const words = say.t('matter.seam-shows', { part: name, length: say.length(visible, 0) });
      return [matter('split', words, ofPart('split', part.partId))];
    }),
  boards: ({ boards: { view } }, say) =>
    (view === null ? [] : unplacedWords(view, say)).map((words) => matter('boards', words)),
  files: ({ files: { view }, boards }, say) => {
    if (view === null) return [];
    const none = boards.view?.sheets.length === 0 ? [matter('files', say.t('matter.no-sheet'))] : [];
    const tooLarge = view.tooLarge.map((file) => matter('files', say.t('matter.too-large', { file })));
    // a piece without a place is missing: the boards tell of it already
    const isRefused = !view.verdict.ok && boards.view?.unplaced.length === 0;
    const refused = isRefused ? view.verdict.violations.map(({ message }) => matter('files', message)) : [];
    const unsaid = isRefused && refused.length === 0 ? [matter('files', say.t('lead.files-refused'))] : [];
    return [...none, ...tooLarge, ...refused, ...unsaid];
  },
};

/** Pieces that no board takes, a sentence for all copies of one. */
export function unplacedWords(view: BoardsView, say: Say): string[] {
  const counts = new Map<string, number>();
  for (const { pieceId, why } of view.unplaced) {
    const words = say.t('boards.unplaced', { piece: pieceName(view, pieceId, say), why });
    counts.set(words, (counts.get(words) ?? 0) + 1);
  }
  return [...counts].map(([words, n]) => (n === 1 ? words : say.t('matter.times', { n, words })));
}

/** What is wrong with the way a part rests, as the reading told it. */
export function restWords(partId: string, fault: string | null, artwork: ArtworkView | null, say: Say): string {
  const drawnAt = artwork?.parts.find(({ id }) => id === partId)?.drawnAt;
  const told = artwork?.complaints.find(({ code, place }) => code === fault && place.element === drawnAt);
  return told?.message ?? say.t('stack.rests-badly', { part: partName(partId, artwork) });
}

/** What a part is called. */
export function partName(partId: string, artwork: ArtworkView | null): string {
  return artwork?.parts.find(({ id }) => id === partId)?.name ?? partId;
}
