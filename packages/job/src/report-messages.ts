import { copyName } from '@underlap/nest/copy';
import { counted } from './counted.ts';
import type { Job } from './document.ts';
import { reachOf } from './limits.ts';
import { numberingOf, seamKey, withSeamLabels } from './numbering.ts';
import type { ReportInput, ReportStock } from './report-input.ts';
import type { Report } from './report-schema.ts';
import { heldShareOf } from './report-seams.ts';
import { wishFor } from './split-stage.ts';
import type { DesignResult, PartSplit, StockLayout } from './stages.ts';
import { isOfOwnColour, jobOfStock, stockIdsOf } from './stock-of.ts';
import { isBare } from './waste-numbers.ts';

/** What does not fit: parts that cannot be split, pieces that no board takes. */
export function notFittingOf(
  designs: readonly Pick<DesignResult, 'design' | 'split'>[],
  stocks: readonly Pick<StockLayout, 'layout' | 'pieces'>[] | null,
): Report['notFitting'] {
  const parts = designs.flatMap(({ design, split }) =>
    split.parts.flatMap(({ partId, outcome }) =>
      outcome.kind === 'cannot'
        ? [{ part: `${design.prefix}${partId}`, piece: null, code: outcome.why.code, message: outcome.why.message }]
        : [],
    ),
  );
  const pieces = (stocks ?? []).flatMap(({ layout, pieces: own }) =>
    layout.unplaced.map(({ pieceId, copy, why }) => {
      const piece = own.find((candidate) => candidate.id === pieceId);
      const part = piece === undefined ? pieceId : `${piece.design.prefix}${piece.partId}`;
      return { part, piece: copyName({ pieceId, copy }), code: 'unplaced', message: why };
    }),
  );
  return [...parts, ...pieces];
}

/** What a maker should know, the most important first. */
export function reportMessages(input: ReportInput): string[] {
  const { job, designs } = input;
  const stocks = input.stocks ?? [];
  const ids = stockIdsOf(job);
  return [
    ...new Set(ids.flatMap((id) => reachOf(jobOfStock(job, id)).messages)),
    ...finishedMessage(job),
    ...designs.flatMap(splitMessages),
    ...designs.flatMap(plansNotFound),
    ...ids.map((id) => `${id === '' ? '' : `${id}: `}${kerfMessage(jobOfStock(job, id))}`),
    ...unnumbered(stocks),
    ...bridgeMessage(job, designs),
    ...ownColours(designs),
    ...stocks.map(({ stockId, nested }) => {
      const { isProvedMinimal, lowerBound } = nested.result;
      const words = boardsMessage(isProvedMinimal, nested.layout.sheets.length, lowerBound.boards);
      return stockId === '' ? words : `${stockId}: ${words}`;
    }),
    ...askew(designs),
    ...fontMessage(job),
  ];
}

/** Pieces that are cut loose although they should be held. */
function bridgeMessage({ bridges }: Job, designs: readonly DesignResult[]): string[] {
  if (bridges.number === 0) return [];
  const loose = designs.flatMap(({ pieces }) => pieces.filter((piece) => piece.bridges.length === 0));
  const held = `Up to ${bridges.number} uncut bridges of ${bridges.width} mm keep each piece in its board: cut them with a knife, and sand.`;
  return loose.length === 0
    ? [held]
    : [held, `No place for a bridge, so cut loose: ${loose.map(({ number }) => number).join(', ')}.`];
}

function splitMessages(result: DesignResult): string[] {
  const { design, sign, split } = result;
  const { seams } = numberingOf(split);
  return split.parts.flatMap((part) => {
    if (part.plan === null) return [];
    const visible = part.plan.visibleLengthMm;
    const shown = visible < 0.05 ? 'hidden all along' : `${visible.toFixed(0)} mm of it show`;
    const proof = part.plan.provenFewest ? 'proven fewest' : 'best found, not proven fewest';
    const isAskedFor = part.outcome.kind === 'split' && part.outcome.piecesLowerBound === 1;
    const why = isAskedFor ? 'fits as it is, but is cut as asked' : 'does not fit and is cut';
    return [
      `${design.prefix}${part.partId} ${why} in ${part.pieces.length} pieces${isAskedFor ? '' : ` (${proof})`}; its seam is ${shown}, ${percent(heldShareOf(part, sign, design.job))} of it held.`,
      ...plateOffer(part, result),
      ...part.plan.remarks.map((remark) =>
        withSeamLabels(remark.message, part.plan?.seams ?? [], (id) => seams.get(seamKey(part.partId, id)) ?? null),
      ),
    ];
  });
}

/** Plans that the job asks for by an id of an earlier report and that are not found any more. */
function plansNotFound({ design: { job, prefix }, split }: DesignResult): string[] {
  const isTaken = (id: string | null) => split.parts.some(({ plan }) => plan?.id === id);
  return split.parts.flatMap(({ partId, plan, outcome }) => {
    const wanted = wishFor(job, partId).plan;
    // A general wish is meant for one part, which another may be.
    const isMet = wanted === plan?.id || (job.seams.parts[partId] === undefined && isTaken(wanted));
    if (wanted === null || plan === null || outcome.kind !== 'split' || isMet) return [];
    const others = outcome.plans.map(({ id }) => id).join(', ');
    return [`There is no plan "${wanted}" for ${prefix}${partId}: ${plan.id} is taken. Plans found: ${others}.`];
  });
}

/** Less of a seam than this held by glue is little: plates are offered (common practice, no source). */
const LITTLE_HELD = 0.5;

/** What rear plates would do for a seam of which little is held. */
function plateOffer(part: PartSplit, { sign, design }: DesignResult): string[] {
  const { partId, plan } = part;
  const { job, prefix } = design;
  if (plan === null || plan.plates.length === 0 || wishFor(job, partId).plates) return [];
  const held = heldShareOf(part, sign, job);
  const plated = heldShareOf(part, sign, job, true);
  if (held >= LITTLE_HELD || plated <= held) return [];
  const count = plan.plates.length === 1 ? 'a rear plate' : `${plan.plates.length} rear plates`;
  return [
    `Only ${percent(held)} of the seam of ${prefix}${partId} is held by glue; ${count} would hold ${percent(plated)} (seams.plates in the job).`,
  ];
}

function percent(share: number): string {
  return `${Math.round(share * 100)} %`;
}

function finishedMessage({ done }: Job): string[] {
  if (done.length === 0) return [];
  const pieces = done.reduce((sum, sheet) => sum + sheet.pieces.length, 0);
  return [
    `${done.length === 1 ? 'One sheet is' : `${done.length} sheets are`} finished: ${counted(pieces, 'piece')} on ${done.length === 1 ? 'it' : 'them'}, not cut again.`,
  ];
}

/** Parts whose board has their colour already. */
function ownColours(designs: readonly DesignResult[]): string[] {
  return designs.flatMap(({ design, sign }) => {
    const { stocks } = design.job;
    const bare = sign.parts.filter((part) => isOfOwnColour(design.job, part));
    return bare.length === 0 || stocks.length === 0
      ? []
      : [
          `${bare.map((part) => `${design.prefix}${part.id}`).join(', ')}: cut from a board of its own colour, no paint needed.`,
        ];
  });
}

function askew(designs: readonly DesignResult[]): string[] {
  const ids = designs.flatMap(({ design, pieces }) =>
    pieces.filter((piece) => piece.baseTurnDeg !== 0).map((piece) => `${design.prefix}${piece.id}`),
  );
  return ids.length === 0 ? [] : [`Turned askew because they fit the board no other way: ${ids.join(', ')}.`];
}

function fontMessage({ lettering: { fonts } }: Job): string[] {
  const files = fonts.map(({ file }) => file?.replace(/^.*[\\/]/, '') ?? 'a font without a name');
  return files.length === 0
    ? []
    : [`Fonts have licences: see that those of ${files.join(', ')} allow letters to be cut and sold.`];
}

function kerfMessage(job: Job): string {
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
function unnumbered(stocks: readonly ReportStock[]): string[] {
  const counts = stocks.map((stock) => countUnnumbered(stock));
  const beside = counts.reduce((sum, one) => sum + one.beside, 0);
  const nowhere = counts.reduce((sum, one) => sum + one.bare, 0) - beside;
  return [
    ...(beside === 0
      ? []
      : [`${beside} pieces have no hidden face for their number: it is scored in the waste beside them.`]),
    ...(nowhere === 0
      ? []
      : [`${nowhere} pieces carry no number and have no waste beside them for it: see the sheets in the report.`]),
  ];
}

function countUnnumbered({ pieces, layout, cuts }: ReportStock): { readonly bare: number; readonly beside: number } {
  const byId = new Map(pieces.map((piece) => [piece.id, piece]));
  const bare = layout.sheets
    .flatMap((sheet) => sheet.placements)
    .filter((placement) => {
      const piece = byId.get(placement.pieceId)!;
      return piece.design.job.marks.numbers !== 'off' && isBare(placement, piece);
    });
  const bareNames = new Set(bare.map(copyName));
  const beside = cuts.reduce((sum, { drawing, sheets }) => {
    const numbered = drawing.paths.filter(({ role, pieceId }) => role === 'number' && bareNames.has(pieceId));
    return sum + sheets.length * new Set(numbered.map(({ pieceId }) => pieceId)).size;
  }, 0);
  return { bare: bare.length, beside };
}

function boardsMessage(isProved: boolean, boards: number, bound: number): string {
  const plural = boards === 1 ? 'board' : 'boards';
  return isProved
    ? `${boards} ${plural}: proved minimal.`
    : `${boards} ${plural}; at least ${bound} are needed whatever the layout.`;
}
