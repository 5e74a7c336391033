import { contourEnd } from '@underlap/geometry/contour';
import type { Seam } from '@underlap/seam/task';
import { buildGuide } from '@underlap/shop/build-guide';
import type { GuideInput, GuidePiece, GuideSeam, GuideStep } from '@underlap/shop/guide-step';
import { equalParts } from '@underlap/stack/equal-parts';
import { buildPlaces } from '@underlap/stack/levels';
import type { Sign } from '@underlap/stack/sign';
import type { Job } from './document.ts';
import { numberingOf, seamKey } from './numbering.ts';
import { paintPlanOf, withoutBoardColours } from './shop-needs.ts';
import type { CutPiece, Piece, SplitResult } from './stages.ts';
import { thicknessesOf } from './thickness.ts';

/** Heads wider than their necks by this lock sideways, mm. */
const UNDERCUT_MM = 0.05;

/** One planned sign. */
export interface PlannedSign {
  readonly sign: Sign;
  readonly split: SplitResult;
  readonly pieces: readonly CutPiece[];
}

/** What a guide is made of, and its steps. */
export interface Guide {
  readonly input: GuideInput;
  readonly steps: readonly GuideStep[];
}

/** The steps in which one sign of the job is built. @param job - of this design alone. */
export function guideOf({ sign, split, pieces }: PlannedSign, job: Job): Guide {
  const places = buildPlaces(sign, thicknessesOf(sign, job));
  const numbering = numberingOf(split, job.marks.before);
  const numberOf = (pieceId: string): string => numbering.pieces.get(pieceId) ?? pieceId;
  const centres = new Map(pieces.map(({ id, centre }) => [id, centre]));
  const shown = ({ id, region }: Piece): GuidePiece => ({
    number: numberOf(id),
    region,
    centre: centres.get(id) ?? { x: region.outer[0]!, y: region.outer[1]! },
  });
  const own = new Map(split.parts.map(({ partId, pieces: parted }) => [partId, parted.map(shown)]));
  const seams = new Map(
    split.parts.map(({ partId, plan }) => [
      partId,
      (plan?.seams ?? []).map((seam) =>
        guideSeam(seam, numbering.seams.get(seamKey(partId, seam.id)) ?? seam.id, numberOf),
      ),
    ]),
  );
  const plates = new Map(
    sign.parts.map(({ id }) => [id, split.plates.filter((plate) => plate.ofPartId === id).map(shown)]),
  );
  const burnt = pieces.flatMap(({ marks }) =>
    marks.flatMap(({ kind, label }) => (kind === 'guide' && label !== null ? [label] : [])),
  );
  const input: GuideInput = {
    places,
    pieces: own,
    seams,
    plates,
    guided: new Set([...burnt, ...sign.matches.map(({ partId }) => partId)]),
    equals: equalParts(sign.parts),
    thicknessOf: thicknessesOf(sign, job),
    glue: job.shop.glue,
    painted: job.shop.painted,
    masks: job.output.masks,
    paint: paintPlanOf(withoutBoardColours(sign, job), job, places),
  };
  return { input, steps: buildGuide(input) };
}

function guideSeam(seam: Seam, label: string, numberOf: (pieceId: string) => string): GuideSeam {
  const [left, right] = seam.between;
  return {
    label,
    numbers: [numberOf(left), numberOf(right)],
    from: seam.spine.start,
    to: contourEnd(seam.spine),
    lengthMm: seam.lengthMm,
    visibleMm: Math.max(0, seam.lengthMm - seam.hiddenLengthMm),
    // A knob on the left of the way is wood of the piece on the right.
    knobs: seam.knobs.map(({ side, centre, neck, head }) => ({
      of: numberOf(side > 0 ? right : left),
      centre,
      isUndercut: head > neck + UNDERCUT_MM,
    })),
  };
}
