import type { CssNode } from 'css-tree';
import type { XmlNode } from './xml-tree.ts';

type PseudoNode = Extract<CssNode, { type: 'PseudoClassSelector' }>;

/** Places `step` * n + `first`, n = 0, 1, 2, ..., counted from 1. */
interface Places {
  readonly step: number;
  readonly first: number;
}

const FIRST: Places = { step: 0, first: 1 };

/** Where an element stands among its siblings, counted from 1. */
interface Standing {
  readonly fromStart: number;
  readonly fromEnd: number;
}

/**
 * The test behind a pseudo-class that asks for an element's place among its siblings: first-, last-, only-, nth- and
 * nth-last-child, and the same of-type. Source: Selectors Level 4, 'Tree-Structural pseudo-classes'.
 * @returns null for any other pseudo-class, and for `of S`.
 */
export function compilePlace(part: PseudoNode): ((node: XmlNode) => boolean) | null {
  const match = /^(first|last|only|nth|nth-last)-(child|of-type)$/.exec(part.name.toLowerCase());
  if (match === null) return null;
  const [, which, among] = match;
  const standing = among === 'child' ? amongAll : amongType;
  const places = which === 'nth' || which === 'nth-last' ? placesOf(part) : FIRST;
  if (places === null) return null;
  return (node) => {
    const { fromStart, fromEnd } = standing(node);
    if (which === 'only') return fromStart === 1 && fromEnd === 1;
    return isAmong(which === 'last' || which === 'nth-last' ? fromEnd : fromStart, places);
  };
}

function placesOf(part: PseudoNode): Places | null {
  const nth = part.children?.first;
  if (nth?.type !== 'Nth' || nth.selector !== null) return null;
  if (nth.nth.type === 'Identifier') {
    if (nth.nth.name === 'odd') return { step: 2, first: 1 };
    return nth.nth.name === 'even' ? { step: 2, first: 2 } : null;
  }
  const number = (text: string | null, missing: number): number =>
    text === null ? missing : text === '-' ? -1 : text === '+' || text === '' ? 1 : Number(text);
  const { a, b } = nth.nth;
  return { step: number(a, 0), first: number(b, 0) };
}

function isAmong(place: number, { step, first }: Places): boolean {
  const steps = step === 0 ? (place === first ? 0 : -1) : (place - first) / step;
  return steps >= 0 && Number.isInteger(steps);
}

function amongAll({ index, parent }: XmlNode): Standing {
  return { fromStart: index + 1, fromEnd: (parent?.children.length ?? 1) - index };
}

/** Counted once for all children of a parent: a test for each would make a flat drawing quadratic. */
const COUNTED = new WeakMap<XmlNode, ReadonlyMap<XmlNode, Standing>>();

function amongType(node: XmlNode): Standing {
  if (node.parent === null) return { fromStart: 1, fromEnd: 1 };
  let counted = COUNTED.get(node.parent);
  if (counted === undefined) {
    counted = countedByType(node.parent.children);
    COUNTED.set(node.parent, counted);
  }
  return counted.get(node)!;
}

function countedByType(siblings: readonly XmlNode[]): Map<XmlNode, Standing> {
  const totals = new Map<string, number>();
  const starts = siblings.map((node) => {
    const place = (totals.get(node.name) ?? 0) + 1;
    totals.set(node.name, place);
    return place;
  });
  return new Map(
    siblings.map((node, i) => [node, { fromStart: starts[i]!, fromEnd: totals.get(node.name)! - starts[i]! + 1 }]),
  );
}
