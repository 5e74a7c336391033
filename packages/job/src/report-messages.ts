import type { Layout } from '@underlap/nest/problem';
import { reachOf } from './limits.ts';
import type { ReportInput } from './report-input.ts';
import type { Report } from './report-schema.ts';
import type { SplitResult } from './stages.ts';

/** What does not fit: parts that cannot be split, pieces that no board takes. */
export function notFittingOf(split: SplitResult, layout: Layout | null): Report['notFitting'] {
  const parts = split.parts.flatMap((part) =>
    part.outcome.kind === 'cannot'
      ? [{ part: part.partId, piece: null, code: part.outcome.why.code, message: part.outcome.why.message }]
      : [],
  );
  const pieces = (layout?.unplaced ?? []).map(({ pieceId, why }) => {
    const id = pieceId.slice(0, pieceId.lastIndexOf('#'));
    const part = split.parts.find((candidate) => candidate.pieces.some((piece) => piece.id === id));
    return { part: part?.partId ?? id, piece: pieceId, code: 'unplaced', message: why };
  });
  return [...parts, ...pieces];
}

/** What a maker should know, the most important first. */
export function reportMessages(input: ReportInput): string[] {
  const { job, split, pieces, nested } = input;
  return [
    ...reachOf(job).messages,
    ...split.parts.flatMap((part) => {
      if (part.plan === null) return [];
      const visible = part.plan.visibleLengthMm;
      const shown = visible < 0.05 ? 'hidden all along' : `${visible.toFixed(0)} mm of it show`;
      const proof =
        part.outcome.kind === 'split' && part.outcome.provenFewest ? 'proven fewest' : 'best found, not proven fewest';
      return [
        `${part.partId} does not fit and is cut in ${part.pieces.length} pieces (${proof}); its seam is ${shown}.`,
        ...part.plan.remarks.map((remark) => remark.message),
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

function unnumbered({ job, pieces }: ReportInput): string[] {
  if (job.marks.numbers !== 'hidden') return [];
  const bare = pieces.filter((piece) => !piece.marks.some((mark) => mark.kind === 'number'));
  return bare.length === 0
    ? []
    : [
        `${bare.length} of ${pieces.length} pieces show their whole face and carry no number: see the sheets in the report.`,
      ];
}

function boardsMessage(isProved: boolean, boards: number, bound: number): string {
  const plural = boards === 1 ? 'board' : 'boards';
  return isProved
    ? `${boards} ${plural}: proved minimal.`
    : `${boards} ${plural}; at least ${bound} are needed whatever the layout.`;
}
