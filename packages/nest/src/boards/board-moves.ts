import type { Layout } from '../search/layout.ts';
import { clampAll } from '../search/snapshot.ts';
import type { BoardsTask } from './boards-task.ts';

/** Sum of the prices of the boards that carry items. */
export function totalPrice(layout: Layout): number {
  let sum = 0;
  for (const board of new Set(layout.board.subarray(0, layout.items)))
    if (board >= 0) sum += layout.boards[board]!.price;
  return sum;
}

/** Area of the items on a board. */
export function usedArea(task: BoardsTask, board: number): number {
  let sum = 0;
  for (const body of task.layout.members[board]!) if (body < task.layout.items) sum += task.areaOf(body);
  return sum;
}

/** Put items at random places on random boards among those given, groups together. Depths are not brought up to date. */
export function scatterOver(task: BoardsTask, items: readonly number[], boards: readonly number[]): void {
  const { layout, random, groupOf } = task;
  const groupBoard = new Map<number, number>();
  for (const item of items) {
    const group = groupOf[item]!;
    const poses = layout.model.itemPoses[item]!;
    const fits = (board: number) => poses.some((pose) => layout.fits(pose, board));
    let board = roomiest(task, boards);
    if (!fits(board)) board = boards.find(fits) ?? board;
    if (group >= 0) {
      board = groupBoard.get(group) ?? board;
      groupBoard.set(group, board);
    }
    const pose = poses[(random() * poses.length) | 0]!;
    const place = layout.boards[board]!;
    const x = place.minX + random() * (place.maxX - place.minX);
    const y = place.minY + random() * (place.maxY - place.minY);
    layout.put(item, board, pose, x, y);
    // The rest of the group follows, wherever it is.
    if (group >= 0) {
      for (const member of task.groups[group]!) {
        if (layout.board[member] !== board) {
          layout.put(member, board, layout.pose[member]!, layout.x[member]!, layout.y[member]!);
        }
      }
    }
  }
  clampAll(layout);
}

/** The better of two random boards by free area. */
function roomiest(task: BoardsTask, boards: readonly number[]): number {
  const a = boards[(task.random() * boards.length) | 0]!;
  const b = boards[(task.random() * boards.length) | 0]!;
  return task.roomOn(a) - usedArea(task, a) >= task.roomOn(b) - usedArea(task, b) ? a : b;
}

/** Scatter the items of one board over others. */
export function emptyBoard(task: BoardsTask, board: number, others: readonly number[]): void {
  const items = task.layout.members[board]!.filter((body) => body < task.layout.items);
  scatterOver(task, items, others);
}

/** Move the items of one board to another as they lie, kept inside; depths are not brought up to date. */
export function moveAll(task: BoardsTask, from: number, to: number): void {
  const { layout } = task;
  const dx = layout.boards[to]!.minX - layout.boards[from]!.minX;
  const dy = layout.boards[to]!.minY - layout.boards[from]!.minY;
  const items = layout.members[from]!.filter((body) => body < layout.items);
  for (const item of items) layout.put(item, to, layout.pose[item]!, layout.x[item]! + dx, layout.y[item]! + dy);
  clampAll(layout);
}

/** Exchange the places of two unlike items, on different boards when there are several; groups change boards as a whole. */
export function exchangeAcross(task: BoardsTask, boards: readonly number[], isFixed: Uint8Array): void {
  const { layout, random } = task;
  const items: number[] = [];
  for (let i = 0; i < layout.items; i++) {
    if (isFixed[i] === 0 && boards.includes(layout.board[i]!)) items.push(i);
  }
  if (items.length < 2) return;
  if (task.groups.length > 0 && boards.length > 1 && random() < 0.5) {
    const group = task.groups[(random() * task.groups.length) | 0]!;
    scatterOver(task, group, boards);
  }
  const rounds = 1 + ((random() * 3) | 0);
  for (let round = 0; round < rounds; round++) {
    for (let tries = 0; tries < 30; tries++) {
      const a = items[(random() * items.length) | 0]!;
      const b = items[(random() * items.length) | 0]!;
      if (a === b || layout.model.itemPoses[a] === layout.model.itemPoses[b]) continue;
      if (boards.length > 1 && layout.board[a] === layout.board[b]) continue;
      if (layout.board[a] !== layout.board[b] && (task.groupOf[a]! >= 0 || task.groupOf[b]! >= 0)) continue;
      const [board, x, y] = [layout.board[a]!, layout.x[a]!, layout.y[a]!];
      layout.put(a, layout.board[b]!, layout.pose[a]!, layout.x[b]!, layout.y[b]!);
      layout.put(b, board, layout.pose[b]!, x, y);
      break;
    }
  }
  clampAll(layout);
}
