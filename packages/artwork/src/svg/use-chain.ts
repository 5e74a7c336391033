import type { ComplaintList } from '../complaint-list.ts';
import type { IdIndex } from './id-index.ts';
import { MAX_USE_DEPTH } from './limits.ts';
import { hrefOf, localReference } from './references.ts';
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
function isCircular(target: XmlNode, node: XmlNode, uses: UseChain | null): boolean {
  for (let use = uses; use !== null; use = use.outer) if (use.target === target) return true;
  for (let up: XmlNode | null = node; up !== null; up = up.parent) if (up === target) return true;
  return false;
}

/** What a `use` shows; null and a complaint when it leads nowhere or back to itself. */
export function useTarget(
  node: XmlNode,
  uses: UseChain | null,
  byId: IdIndex,
  complaints: ComplaintList,
  words: string,
): { readonly target: XmlNode; readonly id: string; readonly depth: number } | null {
  const href = hrefOf(node);
  const id = href === null ? null : localReference(href);
  const refuse = (code: string, message: string): null => {
    complaints.add(code, 'warning', message, words);
    return null;
  };
  if (id === null) {
    const why =
      href === null ? 'it refers to nothing' : `it refers to something outside the file ('${href.slice(0, 40)}')`;
    return refuse('missing-reference', `${why} and is left out: bring the shape into the drawing`);
  }
  const target = byId.get(id);
  const shown = `it refers to '#${id.slice(0, 40)}'`;
  if (target === undefined) return refuse('missing-reference', `${shown}, which is not in the file`);
  if (isCircular(target, node, uses)) return refuse('circular-reference', `${shown}, which holds it; it is left out`);
  const depth = (uses?.depth ?? 0) + 1;
  if (depth > MAX_USE_DEPTH) {
    return refuse('circular-reference', `references are nested more than ${MAX_USE_DEPTH} deep here`);
  }
  return { target, id, depth };
}

/** Ids of the `use` elements, outermost first. */
export function useIds(uses: UseChain | null): string[] {
  const ids: string[] = [];
  for (let use = uses; use !== null; use = use.outer) ids.unshift(use.id);
  return ids;
}
