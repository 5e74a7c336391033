import type { DrawnShape } from '@underlap/artwork/drawing';

/** Names of layers and groups that say nothing of what they hold: empty, numbered, or the layer that every DXF has. */
const SAYS_NOTHING = /^(?:layer|group|g|level)?[-_ ]*\d*$/i;

/**
 * The names of parts, in the given order: the shape's own, else that of its layer or group, numbered where it holds several
 * such parts; null where neither says anything.
 */
export function partNames(sources: readonly DrawnShape[]): (string | null)[] {
  const totals = new Map<string, number>();
  for (const source of sources) {
    const layer = layerName(source);
    if (layer !== null) totals.set(layer, (totals.get(layer) ?? 0) + 1);
  }
  const isShared = (layer: string): boolean => (totals.get(layer) ?? 0) > 1;
  const counts = new Map<string, number>();
  return sources.map((source) => {
    const layer = layerName(source);
    if (layer === null) return source.name;
    const count = (counts.get(layer) ?? 0) + 1;
    counts.set(layer, count);
    return isShared(layer) ? `${layer} ${count}` : layer;
  });
}

/** The layer's name for a shape that has none of its own. */
function layerName({ name, layer }: DrawnShape): string | null {
  return name !== null || layer === null || SAYS_NOTHING.test(layer.trim()) ? null : layer;
}
