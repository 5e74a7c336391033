import type { Style } from './style.ts';
import type { XmlNode } from './xml-tree.ts';

/** The `use` elements being unfolded, innermost first. */
export interface UseChain {
  readonly target: XmlNode;
  readonly id: string;
  readonly depth: number;
  /** Of the `use` element. */
  readonly style: Style;
  readonly outer: UseChain | null;
}

/** Does the reference lead back to itself: to something being unfolded, or to an ancestor? */
export function isCircular(target: XmlNode, node: XmlNode, uses: UseChain | null): boolean {
  for (let use = uses; use !== null; use = use.outer) if (use.target === target) return true;
  for (let up: XmlNode | null = node; up !== null; up = up.parent) if (up === target) return true;
  return false;
}

/** Ids of the `use` elements, outermost first. */
export function useIds(uses: UseChain | null): string[] {
  const ids: string[] = [];
  for (let use = uses; use !== null; use = use.outer) ids.unshift(use.id);
  return ids;
}
