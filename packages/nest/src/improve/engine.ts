import { placementMatrix } from '@underlap/geometry/matrix';
import type { Region } from '@underlap/geometry/region';
import { orientedRing } from '@underlap/geometry/ring';
import { transformRegion } from '@underlap/geometry/transform-region';
import { attitudesOn, type Draft, pieceOf } from '../blf/bottom-left.ts';
import type { LaidCopy } from '../blf/open-board.ts';
import { hasManyPairs } from '../search/model.ts';
import type { BoardsInput, Obstacle, Pose, SearchBoard, SearchItem, Spot } from '../search/task.ts';
import type { Prepared, PreparedPiece, PreparedStock } from '../shape/prepare.ts';
import { type TurnedForm, turnForm } from '../shape/turned-form.ts';
import type { WindowCells } from '../shape/windows.ts';
import { isSquare } from '../turns.ts';
import type { StockCells } from './cells.ts';
import { NO_CELLS } from './cells.ts';

/** Depth that the search may leave and call touching, mm: a tenth of what the check lets pass. */
const TOUCH_DEPTH_MM = 1e-4;
/**
 * Spacing that the search keeps beyond what is asked, mm. Less than the depth it may leave, by more than the first layout's exact
 * contacts are rounded: that layout is then free of overlap in the search's eyes, and the search begins with it.
 */
const EXTRA_SPACING_MM = 0.5 * TOUCH_DEPTH_MM;
/** Keys of attitudes made for free turns start here: above those of the prepared ones, below those of pins. */
const OWN_KEYS_FROM = 5e8;
/** Further boards of each kind that the search may open, so that it can change to another kind. */
const SPARE_BOARDS = 2;

/** One board of the search: which stock, and what is pinned there. */
interface Place {
  readonly stock: PreparedStock;
  readonly pinned: readonly LaidCopy[];
}

/** A problem in the terms of the overlap search, and the way back. */
export interface EngineTask {
  readonly input: BoardsInput;
  /** Places of the incumbent's pieces; null when it leaves out pieces that the search is to place. */
  readonly incumbent: readonly Spot[] | null;
  /** Too many pairs of shapes for a no-fit polygon each. */
  readonly hasManyKinds: boolean;
  draftOf(spots: readonly Spot[]): Draft;
}

/**
 * Hand a draft's boards and pieces to the overlap search. Pinned pieces become obstacles, the outside of odd boards too, and
 * the lines between the windows of a small bed.
 * @param include - left-over pieces of the draft that are to be placed as well.
 */
export function engineTask(
  prepared: Prepared,
  draft: Draft,
  pins: Draft['boards'],
  include: readonly number[],
  bound: number,
  cells: StockCells = NO_CELLS,
): EngineTask {
  const forms = formsOf(prepared);
  const held = withTheirGroups(prepared, draft, pins);
  const places = placesOf(prepared, draft, held);
  const isPinned = new Set(held.flatMap((board) => board.placed.map((p) => p.copy)));
  const copies: number[] = [];
  const spots: Spot[] = [];
  draft.boards.forEach((board, index) => {
    for (const standing of board.placed) {
      if (isPinned.has(standing.copy)) continue;
      const pose = forms.poseOf(standing.turned);
      const { turnDeg } = standing.turned;
      if (pose >= 0) spots.push({ item: copies.length, board: index, pose, turnDeg, x: standing.x, y: standing.y });
      copies.push(standing.copy);
    }
  });
  const isWhole = include.length === 0 && spots.length === copies.length;
  copies.push(...include);
  const { spacing } = prepared.problem.rules;
  // the same objects for boards of one kind: the search shares its tables between them
  const obstaclesOf = new Map(
    prepared.stocks.map((stock) => [stock, [...stockObstacles(stock), ...walls(stock, cells.get(stock))]]),
  );
  const input: BoardsInput = {
    forms: forms.forms,
    items: copies.map(
      (copy): SearchItem => ({
        poses: forms.posesOf(pieceOf(prepared, copy)),
        isFreeToTurn: forms.isFree(pieceOf(prepared, copy)),
        group: prepared.copies[copy]!.group,
      }),
    ),
    spacing: spacing > TOUCH_DEPTH_MM ? spacing + EXTRA_SPACING_MM : spacing,
    tolerance: TOUCH_DEPTH_MM,
    boards: places.map((place) => searchBoard(prepared, place, obstaclesOf.get(place.stock)!)),
    priceBound: priceBound(prepared, places, bound),
  };
  return {
    input,
    incumbent: isWhole ? spots : null,
    hasManyKinds: hasManyPairs(
      forms.forms,
      new Set(input.items.flatMap(({ poses }) => poses.map((p) => p.turnDeg))).size,
    ),
    draftOf(found) {
      const boards = places.map(({ stock, pinned }) => ({ stock, placed: [...pinned] }));
      for (const spot of found) {
        const copy = copies[spot.item]!;
        boards[spot.board]!.placed.push({
          copy,
          turned: forms.attitudeOf(pieceOf(prepared, copy), spot.pose, spot.turnDeg),
          x: spot.x,
          y: spot.y,
        });
      }
      const placed = new Set(boards.flatMap((board) => board.placed.map((p) => p.copy)));
      return {
        boards: boards.filter((board, index) => board.placed.length > 0 || index < pins.length),
        left: prepared.copies.map(({ index }) => index).filter((index) => !placed.has(index)),
      };
    },
  };
}

/** Pinned pieces and the rest of their groups, which must stay on the same board and are left where they lie. */
function withTheirGroups(prepared: Prepared, draft: Draft, pins: Draft['boards']): Draft['boards'] {
  return pins.map((board, index) => {
    const groupOf = (standing: LaidCopy) => prepared.copies[standing.copy]!.group;
    const groups = new Set(board.placed.map(groupOf));
    const pinned = new Set(board.placed.map((standing) => standing.copy));
    const mates = draft.boards[index]!.placed.filter(
      (standing) => !pinned.has(standing.copy) && groupOf(standing) !== null && groups.has(groupOf(standing)),
    );
    return { ...board, placed: [...board.placed, ...mates] };
  });
}

/** Boards of the draft first, then spare ones of each kind as far as there are any. */
function placesOf(prepared: Prepared, draft: Draft, pins: Draft['boards']): Place[] {
  const places: Place[] = draft.boards.map((board, index) => ({
    stock: board.stock,
    pinned: pins[index]?.placed ?? [],
  }));
  const isMixed = prepared.stocks.length > 1 || draft.left.length > 0;
  for (const stock of prepared.stocks) {
    const used = places.filter((place) => place.stock === stock).length;
    const more = isMixed ? SPARE_BOARDS : 0;
    const count = stock.stock.count === null ? more : Math.max(0, Math.min(more, stock.stock.count - used));
    for (let k = 0; k < count; k++) places.push({ stock, pinned: [] });
  }
  return places;
}

/** What a board costs the search: pinned boards are used anyway; the second term breaks ties by price or by number. */
function priceOf(prepared: Prepared, place: Place): number {
  if (place.pinned.length > 0) return 0;
  const price = place.stock.stock.price;
  return prepared.problem.rules.aim === 'cheapest' ? price + 1e-6 : 1 + 1e-6 * Math.min(1, price / (1 + price)) + 1e-9;
}

/** Boards that are not pinned, as many as proved, each at the price of the cheapest. */
function priceBound(prepared: Prepared, places: readonly Place[], bound: number): number {
  const held = places.filter((place) => place.pinned.length > 0).length;
  const free = prepared.stocks.filter((stock) => stock.stock.count !== 0);
  const least = Math.min(...free.map((stock) => priceOf(prepared, { stock, pinned: [] })));
  return free.length === 0 ? 0 : Math.max(0, bound - held) * least * (1 + 1e-9);
}

function searchBoard(prepared: Prepared, place: Place, flaws: readonly Obstacle[]): SearchBoard {
  const { margin, spacing } = prepared.problem.rules;
  const { stock, pinned } = place;
  return {
    minX: margin,
    minY: margin,
    maxX: stock.width - margin,
    maxY: stock.height - margin,
    obstacles: [...flaws, ...pinned.map((standing) => pinnedObstacle(standing, spacing))],
    price: priceOf(prepared, place),
  };
}

/** The outside and the flaws of a kind of board. */
function stockObstacles(stock: PreparedStock): readonly Obstacle[] {
  return stock.obstacles.map(({ rings, gap }) => ({
    region: { outer: orientedRing(rings[0]!, 1), holes: rings.slice(1).map((ring) => orientedRing(ring, -1)) },
    clearance: gap,
  }));
}

/** Walls between windows as obstacles: a piece that crosses none lies in one window. */
function walls(stock: PreparedStock, cells: WindowCells | undefined): Obstacle[] {
  if (cells === undefined) return [];
  const wall = (x0: number, y0: number, x1: number, y1: number): Obstacle => ({
    region: { outer: Float64Array.of(x0, y0, x1, y0, x1, y1, x0, y1), holes: [] },
    clearance: 0,
  });
  return [
    ...cells.atX.map((x) => wall(x.from, 0, x.to, stock.height)),
    ...cells.atY.map((y) => wall(0, y.from, stock.width, y.to)),
  ];
}

function pinnedObstacle({ turned, x, y }: LaidCopy, clearance: number): Obstacle {
  const [outer, ...holes] = turned.rings;
  return { region: transformRegion({ outer: outer!, holes }, placementMatrix(x, y, 0)), clearance };
}

interface Forms {
  readonly forms: readonly Region[];
  /** Shared by all copies of a piece. */
  posesOf(piece: PreparedPiece): readonly Pose[];
  /** The listed attitude of a pose, or one made for another turn of the same form. */
  attitudeOf(piece: PreparedPiece, pose: number, turnDeg: number): TurnedForm;
  isFree(piece: PreparedPiece): boolean;
  /** For a piece that is free to turn any listed pose of the same form; -1 for an attitude that the piece's list does not have. */
  poseOf(turned: TurnedForm): number;
}

/** A form for each piece and one for its mirror image; poses are the attitudes that are allowed on every kind of board. */
function formsOf(prepared: Prepared): Forms {
  const forms: Region[] = [];
  const grained = prepared.stocks.find((stock) => stock.stock.hasGrain);
  const isFree = prepared.pieces.map(
    ({ piece }) => piece.turns === 'any' && !(piece.keepsGrain && grained !== undefined),
  );
  const attitudes = prepared.pieces.map((piece, index) => {
    // where the grain forbids every turn, only boards without grain take the piece; the check guards the rest
    const kept = grained === undefined ? piece.offGrain : attitudesOn(piece, grained);
    const list = kept.length === 0 ? piece.offGrain : kept;
    return isFree[index] ? rightAngles(prepared, prepared.pieces[index]!, list) : list;
  });
  const lists = prepared.pieces.map((piece, index) => {
    const formOf = new Map<boolean, number>();
    return attitudes[index]!.map(({ mirrored, turnDeg }): Pose => {
      let form = formOf.get(mirrored);
      if (form === undefined) {
        form = forms.length;
        forms.push(formRegion(piece, mirrored));
        formOf.set(mirrored, form);
      }
      return { form, turnDeg };
    });
  });
  let serial = 0;
  return {
    forms,
    posesOf: (piece) => lists[piece.index]!,
    attitudeOf(piece, pose, turnDeg) {
      const listed = attitudes[piece.index]![pose]!;
      const off = Math.abs(listed.turnDeg - turnDeg) % 360;
      if (Math.min(off, 360 - off) < 1e-9) return listed;
      return turnForm(OWN_KEYS_FROM + serial++, piece.index, piece.rings, turnDeg, listed.mirrored);
    },
    isFree: (piece) => isFree[piece.index]!,
    poseOf(turned) {
      const list = attitudes[turned.pieceIndex]!;
      const same = list.findIndex((o) => o.mirrored === turned.mirrored && Math.abs(o.turnDeg - turned.turnDeg) < 1e-9);
      if (same >= 0 || !isFree[turned.pieceIndex]) return same;
      return list.findIndex((o) => o.mirrored === turned.mirrored);
    },
  };
}

/**
 * Pieces that may turn freely are listed at right angles where they fit a board so: the search turns them on from there, and many
 * listed turns cost it more than they give.
 */
function rightAngles(prepared: Prepared, { piece }: PreparedPiece, list: readonly TurnedForm[]): readonly TurnedForm[] {
  const { margin } = prepared.problem.rules;
  const square = list.filter(({ turnDeg, mirrored }) => isSquare(piece, turnDeg, mirrored));
  const isPlaceable = prepared.stocks.some(({ width, height }) =>
    square.some(
      ({ bounds }) =>
        bounds.maxX - bounds.minX <= width - 2 * margin && bounds.maxY - bounds.minY <= height - 2 * margin,
    ),
  );
  return isPlaceable ? square : list;
}

function formRegion(piece: PreparedPiece, mirrored: boolean): Region {
  const [outer, ...holes] = piece.rings;
  const region = { outer: outer!, holes };
  return mirrored ? transformRegion(region, placementMatrix(0, 0, 0, true)) : region;
}
