import type { Layout } from './layout.ts';

/** Places of all items, to go back to. */
export interface Snapshot {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly pose: Int32Array;
  readonly board: Int32Array;
  /** Sum of depths when it was taken. */
  total: number;
}

export function emptySnapshot(layout: Layout): Snapshot {
  const n = layout.items;
  return {
    x: new Float64Array(n),
    y: new Float64Array(n),
    pose: new Int32Array(n),
    board: new Int32Array(n),
    total: Infinity,
  };
}

export function save(layout: Layout, into: Snapshot, total: number): void {
  const n = layout.items;
  into.x.set(layout.x.subarray(0, n));
  into.y.set(layout.y.subarray(0, n));
  into.pose.set(layout.pose.subarray(0, n));
  into.board.set(layout.board.subarray(0, n));
  into.total = total;
}

/** Put every item back, kept inside its board, and recompute all depths. O(bodies^2) at worst. */
export function restore(layout: Layout, from: Snapshot): void {
  restorePlaces(layout, from);
  layout.refreshAll();
}

/** The same, but depths are not brought up to date. */
export function restorePlaces(layout: Layout, from: Snapshot): void {
  for (let i = 0; i < layout.items; i++) layout.put(i, from.board[i]!, from.pose[i]!, from.x[i]!, from.y[i]!);
  clampAll(layout);
}

/**
 * Move items that stick out of their board back in, and turn those that are too long for it as they lie; depths are not
 * brought up to date. An item that fits in no pose stays, and `Layout.allFit` tells of it.
 */
export function clampAll(layout: Layout): void {
  for (let i = 0; i < layout.items; i++) {
    const board = layout.board[i]!;
    if (board < 0) continue;
    const place = layout.boards[board]!;
    if (!layout.fits(layout.pose[i]!, board)) {
      const other = layout.model.itemPoses[i]!.find((pose) => layout.fits(pose, board));
      if (other !== undefined) layout.pose[i] = other;
    }
    const pose = layout.model.poses[layout.pose[i]!]!;
    layout.x[i] = within(layout.x[i]!, place.minX - pose.minX, place.maxX - pose.maxX);
    layout.y[i] = within(layout.y[i]!, place.minY - pose.minY, place.maxY - pose.maxY);
  }
}

function within(value: number, least: number, most: number): number {
  if (least > most) return (least + most) / 2;
  return value < least ? least : value > most ? most : value;
}
