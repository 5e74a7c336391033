import type { Layout } from './layout.ts';
import type { Random } from './random.ts';
import { clampAll } from './snapshot.ts';

/** Shares of the kinds of disturbance: one exchange, a few exchanges, everything anew. */
const ONE_EXCHANGE = 0.6;
const FEW_EXCHANGES = 0.85;
/** Scattering all pays for few pieces only; above this many it is done a fifth as often. */
const FEW_PIECES = 40;

/** Leave a near miss on the one board and bring depths up to date. */
export function disturb(layout: Layout, random: Random): void {
  disturbPlaces(layout, random);
  layout.refreshAll();
}

/** Exchange large pieces once or a few times, or scatter all pieces. */
export function disturbPlaces(layout: Layout, random: Random): void {
  const kind = random();
  const scatterFrom = layout.items <= FEW_PIECES ? FEW_EXCHANGES : 1 - (1 - FEW_EXCHANGES) / 5;
  if (kind < scatterFrom) {
    const times = kind < ONE_EXCHANGE ? 1 : 2 + ((random() * 3) | 0);
    for (let k = 0; k < times; k++) exchangeLarge(layout, random);
  } else scatterAll(layout, random);
  clampAll(layout);
}

/** Put every piece at a random place of the one board in a random pose. */
export function scatterAll(layout: Layout, random: Random): void {
  const place = layout.boards[0]!;
  for (let i = 0; i < layout.items; i++) {
    const poses = layout.model.itemPoses[i]!;
    const pose = poses[(random() * poses.length) | 0]!;
    const x = place.minX + random() * (place.maxX - place.minX);
    layout.put(i, 0, pose, x, place.minY + random() * (place.maxY - place.minY));
  }
}

/** Exchange the places of two unlike pieces among the larger half. */
function exchangeLarge(layout: Layout, random: Random): void {
  const { model } = layout;
  const areaOf = (i: number) => model.forms[model.poses[layout.pose[i]!]!.form]!.area;
  const order = Array.from({ length: layout.items }, (_, i) => i).sort((a, b) => areaOf(b) - areaOf(a) || a - b);
  const large = order.slice(0, Math.max(2, Math.ceil(order.length / 2)));
  for (let tries = 0; tries < 20; tries++) {
    const a = large[(random() * large.length) | 0]!;
    const b = large[(random() * large.length) | 0]!;
    if (a === b || model.itemPoses[a] === model.itemPoses[b]) continue;
    const [ax, ay] = [layout.x[a]!, layout.y[a]!];
    layout.put(a, 0, layout.pose[a]!, layout.x[b]!, layout.y[b]!);
    layout.put(b, 0, layout.pose[b]!, ax, ay);
    break;
  }
}
