import { normalTurn } from '../nfp/no-fit.ts';
import type { Layout } from './layout.ts';
import type { Spot } from './task.ts';

/** Where all items lie, in the caller's frames (the search itself works with forms centred on their boxes). */
export function spotsOf(layout: Layout): Spot[] {
  const out: Spot[] = [];
  for (let item = 0; item < layout.items; item++) {
    const board = layout.board[item]!;
    if (board < 0) continue;
    const pose = layout.model.poses[layout.pose[item]!]!;
    const form = layout.model.forms[pose.form]!;
    out.push({
      item,
      board,
      pose: layout.model.itemPoses[item]!.findIndex(
        (own) => own === layout.pose[item]! || (pose.isFree && layout.model.poses[own]!.form === pose.form),
      ),
      turnDeg: pose.turnDeg,
      x: layout.x[item]! - (pose.cos * form.centreX - pose.sin * form.centreY),
      y: layout.y[item]! - (pose.sin * form.centreX + pose.cos * form.centreY),
    });
  }
  return out;
}

/** Put items where the caller has them; depths are not brought up to date. */
export function putSpots(layout: Layout, spots: readonly Spot[]): void {
  for (const spot of spots) {
    const listed = layout.model.itemPoses[spot.item]![spot.pose]!;
    const isListed = Math.abs(layout.model.poses[listed]!.turnDeg - normalTurn(spot.turnDeg)) < 1e-9;
    const index = isListed ? listed : layout.model.freePose(layout.model.poses[listed]!.form, spot.turnDeg);
    const pose = layout.model.poses[index]!;
    const form = layout.model.forms[pose.form]!;
    layout.put(
      spot.item,
      spot.board,
      index,
      spot.x + (pose.cos * form.centreX - pose.sin * form.centreY),
      spot.y + (pose.sin * form.centreX + pose.cos * form.centreY),
    );
  }
}
