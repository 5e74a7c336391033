import { copyName } from '@underlap/nest/copy';
import type { Layout } from '@underlap/nest/problem';
import { reachOf } from './limits.ts';
import { numberingOf, seamKey, withSeamLabels } from './numbering.ts';
import type { ReportInput } from './report-input.ts';
import type { Report } from './report-schema.ts';
import { heldShareOf } from './report-seams.ts';
import { wishFor } from './split-stage.ts';
import type { PartSplit, SplitResult } from './stages.ts';
import { isBare } from './waste-numbers.ts';

/** What does not fit: parts that cannot be split, pieces that no board takes. */
export function notFittingOf(split: SplitResult, layout: Layout | null): Report['notFitting'] {
  const parts = split.parts.flatMap((part) =>
    part.outcome.kind === 'cannot'
      ? [{ part: part.partId, piece: null, code: part.outcome.why.code, message: part.outcome.why.message }]
      : [],
  );
  const pieces = (layout?.unplaced ?? []).map(({ pieceId, copy, why }) => {
    const part = split.parts.find((candidate) => candidate.pieces.some((piece) => piece.id === pieceId));
    return { part: part?.partId ?? pieceId, piece: copyName({ pieceId, copy }), code: 'unplaced', message: why };
  });
  return [...parts, ...pieces];
}

/** What a maker should know, the most important first. */
export function reportMessages(input: ReportInput): string[] {
  const { job, split, pieces, nested } = input;
  const numbering = numberingOf(split);
  return [
    ...reachOf(job).messages,
    ...split.parts.flatMap((part) => {
      if (part.plan === null) return [];
      const visible = part.plan.visibleLengthMm;
      const shown = visible < 0.05 ? 'hidden all along' : `${visible.toFixed(0)} mm of it show`;
      const proof = part.plan.provenFewest ? 'proven fewest' : 'best found, not proven fewest';
      const isAskedFor = part.outcome.kind === 'split' && part.outcome.piecesLowerBound === 1;
      const why = isAskedFor ? 'fits as it is, but is cut as asked' : 'does not fit and is cut';
      return [
        `${part.partId} ${why} in ${part.pieces.length} pieces${isAskedFor ? '' : ` (${proof})`}; its seam is ${shown}, ${percent(heldShareOf(part, input.sign, job))} of it held.`,
        ...plateOffer(part, input),
        ...part.plan.remarks.map((remark) =>
          withSeamLabels(
            remark.message,
            part.plan?.seams ?? [],
            (id) => numbering.seams.get(seamKey(part.partId, id)) ?? null,
          ),
        ),
      ];
    }),
    kerfMessage(input),
    ...unnumbered(input),
    ...(nested === null
      ? []
      : [boardsMessage(nested.result.isProvedMinimal, nested.layout.sheets.length, nested.result.lowerBound.boards)]),
    ...(pieces.some((piece) => piece.baseTurnDeg !== 0)
      ? [
          `Turned askew because they fit the board no other way: ${pieces
            .filter((piece) => piece.baseTurnDeg !== 0)
            .map((piece) => piece.id)
            .join(', ')}.`,
        ]
      : []),
  ];
}

/** Less of a seam than this held by glue is little: plates are offered (common practice, no source). */
const LITTLE_HELD = 0.5;

/** What rear plates would do for a seam of which little is held. */
function plateOffer(part: PartSplit, { sign, job }: ReportInput): string[] {
  const { partId, plan } = part;
  if (plan === null || plan.plates.length === 0 || wishFor(job, partId).plates) return [];
  const held = heldShareOf(part, sign, job);
  const plated = heldShareOf(part, sign, job, true);
  if (held >= LITTLE_HELD || plated <= held) return [];
  const count = plan.plates.length === 1 ? 'a rear plate' : `${plan.plates.length} rear plates`;
  return [
    `Only ${percent(held)} of the seam of ${partId} is held by glue; ${count} would hold ${percent(plated)} (seams.plates in the job).`,
  ];
}

function percent(share: number): string {
  return `${Math.round(share * 100)} %`;
}

function kerfMessage({ job }: ReportInput): string {
  switch (job.compensate) {
    case 'all':
      return `The kerf of ${job.kerf} mm is compensated in the files: do not compensate again.`;
    case 'seams':
      return `The kerf of ${job.kerf} mm is compensated at seams only; drawn contours are nominal: do not compensate again at seams.`;
    case 'none':
      return `The kerf of ${job.kerf} mm is not compensated in the files: let the machine do it.`;
  }
}

/** Which pieces carry no number, and where it stands instead; a file that is cut several times counts as often. */
function unnumbered({ job, pieces, nested, cuts }: ReportInput): string[] {
  if (job.marks.numbers === 'off' || nested === null) return [];
  const byId = new Map(pieces.map((piece) => [piece.id, piece]));
  const placements = nested.layout.sheets.flatMap((sheet) => sheet.placements);
  const bare = placements.filter((placement) => isBare(placement, byId.get(placement.pieceId)!));
  if (bare.length === 0) return [];
  const bareNames = new Set(bare.map(copyName));
  const beside = cuts.reduce((sum, { drawing, sheets }) => {
    const numbered = drawing.paths.filter(({ role, pieceId }) => role === 'number' && bareNames.has(pieceId));
    return sum + sheets.length * new Set(numbered.map(({ pieceId }) => pieceId)).size;
  }, 0);
  const nowhere = bare.length - beside;
  return [
    ...(beside === 0
      ? []
      : [`${beside} pieces have no hidden face for their number: it is scored in the waste beside them.`]),
    ...(nowhere === 0
      ? []
      : [`${nowhere} pieces carry no number and have no waste beside them for it: see the sheets in the report.`]),
  ];
}

function boardsMessage(isProved: boolean, boards: number, bound: number): string {
  const plural = boards === 1 ? 'board' : 'boards';
  return isProved
    ? `${boards} ${plural}: proved minimal.`
    : `${boards} ${plural}; at least ${bound} are needed whatever the layout.`;
}
