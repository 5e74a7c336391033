import { placementMatrix } from '@underlap/geometry/matrix';
import { shapeToPathData } from '@underlap/geometry/path-data';
import type { Region } from '@underlap/geometry/region';
import { transformRegion } from '@underlap/geometry/transform-region';
import { copyName } from '@underlap/nest/copy';
import type { Sheet } from '@underlap/nest/problem';
import { type Rest, restsOf } from '@underlap/shop/rests';
import { contentKey } from './content-key.ts';
import type { Job } from './document.ts';
import { shapeFromRegion } from './shape-from-region.ts';
import type { CutPiece, StockLayout } from './stages.ts';

/** What one sheet leaves, each rest with the label that is burnt on it. */
export interface LabelledRest extends Rest {
  readonly label: string;
}

/** A sheet by what lies on it: the same sheet has the same id in every plan of the job. */
export function sheetId(stockId: string, { stockId: board, placements }: Sheet): string {
  const places = placements.map(({ x, y, turnDeg, mirrored, ...copy }) => [
    copyName(copy),
    ...[x, y, turnDeg].map((value) => value.toFixed(2)),
    mirrored,
  ]);
  return contentKey(stockId, board, places).slice(0, 10);
}

/**
 * The usable rests of a sheet.
 * @param job - as the stock sees it; `shop.restSide` says what is usable.
 * @returns the largest first, labelled "3F7A-a", "3F7A-b" after the sheet.
 */
export function sheetRests(
  stock: Pick<StockLayout, 'stockId' | 'nested' | 'pieces'>,
  sheet: Sheet,
  job: Job,
): LabelledRest[] {
  const board = stock.nested.problem.stock.find(({ id }) => id === sheet.stockId);
  if (board === undefined) return [];
  const byId = new Map<string, CutPiece>(stock.pieces.map((piece) => [piece.id, piece]));
  const cut = sheet.placements.map(
    ({ pieceId, x, y, turnDeg, mirrored }): Region =>
      transformRegion(byId.get(pieceId)!.cutRegion, placementMatrix(x, y, turnDeg, mirrored)),
  );
  const name = sheetId(stock.stockId, sheet).slice(0, 4).toUpperCase();
  return restsOf(board.outline, [...cut, ...board.forbidden], job.shop.restSide).map((rest, at) => ({
    ...rest,
    label: `${name}-${at < 26 ? String.fromCharCode(97 + at) : at + 1}`,
  }));
}

/** The outline as the shelf and the report tell it. */
export function restOutline({ region }: Rest): string {
  return shapeToPathData(shapeFromRegion(region), 2);
}
