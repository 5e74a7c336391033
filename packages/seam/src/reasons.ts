import { partFields } from './fields.ts';
import { commonBox } from './goes-in.ts';
import { locks } from './knob-kinds.ts';
import { lockOf } from './knob-profile.ts';
import { choicesFor, LEAST_LOCK_MM } from './place-knobs.ts';
import { type SearchResult, searchCuts } from './search.ts';
import type { SearchGround } from './search-ground.ts';
import { roundReach, type SeamSizes } from './sizes.ts';
import type { SeamRemark, SeamTask } from './task.ts';

/** Why a task cannot be done whatever the part looks like; null when nothing stands in the way. */
export function hopelessReason(task: SeamTask, sizes: SeamSizes): SeamRemark | null {
  const { long, short } = commonBox(task.limits, task.kerf);
  // A piece must hold a knob's socket with wood around it, and a knob must stand off it.
  const least = 2 * (roundReach(sizes.leastNeck, sizes.fillet) + sizes.web) + sizes.leastNeck;
  if (!(short >= least) || !(long >= least)) {
    const message = `The bed leaves ${Math.max(0, short).toFixed(0)} mm for a piece; the smallest knob of ${task.thickness} mm stock needs ${least.toFixed(0)} mm. Use a larger bed.`;
    return { code: 'bed-too-small', message, at: null };
  }
  const { knob } = task.wishes;
  if (knob !== 'auto' && !locks({ kind: knob })) return null;
  const overhangs = choicesFor(task, sizes, 0).map(({ design }) => lockOf(design));
  if (!overhangs.some((lock) => lock - task.fit >= LEAST_LOCK_MM)) {
    const message = `Knobs cannot lock at this thickness and clearance (${task.thickness} mm and ${task.fit} mm): lower the fit, or ask for a stepped seam.`;
    return { code: 'no-lock', message, at: null };
  }
  return null;
}

/** Why no plan was found: searched once more as if nothing were in the way. */
export async function whyNot(ground: SearchGround, blocked: SearchResult['blocked']): Promise<SeamRemark> {
  const hasObstacles = ground.ground.obstacles.length > 0;
  if (hasObstacles) {
    const open = { ...ground.ground, obstacles: [], keepOuts: [] };
    const task = { ...ground.task, region: { outer: ground.task.region.outer, holes: [] } };
    const shape = { outer: ground.shape.outer, holes: [] };
    const again: SearchGround = {
      ...ground,
      task,
      shape,
      ground: open,
      coarse: partFields(open, ground.sizes, ground.coarse.grid.step),
      fine: partFields(open, ground.sizes, ground.fine.grid.step),
      budget: { routes: ground.budget.most, most: ground.budget.most },
      progress: () => {},
    };
    const { plans } = await searchCuts(again, 0);
    if (plans.length > 0) {
      const what = ground.ground.keepOuts.length > 0 ? 'Holes, slots or forbidden zones' : 'Holes or slots';
      const message = `${what} block every seam for this bed: move them or use a larger bed.`;
      return { code: 'blocked', message, at: null };
    }
  }
  const room = blocked === 'no-room' ? ' The bed leaves no room for a seam with knobs: use a larger bed.' : '';
  return { code: 'no-cut', message: `No single cut gives two sides that fit.${room}`, at: null };
}
