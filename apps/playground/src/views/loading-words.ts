import type { Say } from '../words/say.ts';
import type { LoadingView } from '../workers/views.ts';

/** Shorter than this is nothing to move, mm. */
const LEAST_MOVE_MM = 0.05;

/** How a board is set for a loading, a sentence each. */
export function loadingWords({ kind, page, placements, move, stop, isTurned }: LoadingView, say: Say): string[] {
  const places = {
    size: say.size(page.maxX - page.minX, page.maxY - page.minY),
    x: say.length(page.minX),
    y: say.length(page.minY),
    n: placements.length,
  };
  const turned = isTurned ? [say.t('loading.turned')] : [];
  if (kind === 'panels') return [say.t('loading.panel', places), ...turned];
  const set =
    move === null
      ? say.t('loading.stops', { left: leftWords(stop.x, say), upper: upperWords(stop.y, say) })
      : say.t('loading.move', { way: wayWords(move, say) });
  return [set, say.t('loading.reach', places), ...turned];
}

function leftWords(x: number, say: Say): string {
  if (Math.abs(x) < LEAST_MOVE_MM) return say.t('loading.at-corner');
  return say.t(x < 0 ? 'loading.left-of' : 'loading.right-of', { length: say.length(Math.abs(x)) });
}

function upperWords(y: number, say: Say): string {
  if (Math.abs(y) < LEAST_MOVE_MM) return say.t('loading.at-corner');
  return say.t(y < 0 ? 'loading.above' : 'loading.below', { length: say.length(Math.abs(y)) });
}

function wayWords({ x, y }: NonNullable<LoadingView['move']>, say: Say): string {
  const along =
    Math.abs(x) < LEAST_MOVE_MM
      ? []
      : [say.t(x < 0 ? 'loading.to-left' : 'loading.to-right', { length: say.length(Math.abs(x)) })];
  const across =
    Math.abs(y) < LEAST_MOVE_MM
      ? []
      : [say.t(y < 0 ? 'loading.up' : 'loading.down', { length: say.length(Math.abs(y)) })];
  return say.list([...along, ...across]);
}
