import type { CssNode } from 'css-tree';
import { compilePlace } from './sibling-places.ts';
import type { XmlNode } from './xml-tree.ts';

/** One simple condition on an element. */
type Test = (node: XmlNode, budget: MatchBudget) => boolean;

interface Compound {
  readonly tests: readonly Test[];
  /** How this compound's element stands to that of the next one on the right. */
  readonly combinator: ' ' | '>' | '+' | '~';
}

/** A selector ready to match. */
export interface Selector {
  /** Rightmost compound first. */
  readonly compounds: readonly Compound[];
  /** ids * 1e6 + classes * 1e3 + types. */
  readonly specificity: number;
  /** What the rightmost compound surely asks for, to look rules up by. */
  readonly key: { readonly kind: 'id' | 'class' | 'type' | 'any'; readonly value: string };
}

/** Steps that matching may still take in this file; a hostile sheet on a deep tree is cut off rather than waited for. */
export interface MatchBudget {
  left: number;
}

const LONGEST_CHAIN = 32;

/** Compile a parsed selector; null when it asks for something that is not understood here (told by the caller). */
export function compileSelector(selector: CssNode): Selector | null {
  if (selector.type !== 'Selector') return null;
  const compounds: Compound[] = [];
  let tests: Test[] = [];
  let specificity = 0;
  let key: Selector['key'] = { kind: 'any', value: '' };
  for (const part of selector.children) {
    if (part.type === 'Combinator') {
      const name = part.name.trim() === '' ? ' ' : part.name;
      if (name !== ' ' && name !== '>' && name !== '+' && name !== '~') return null;
      compounds.push({ tests, combinator: name });
      tests = [];
      key = { kind: 'any', value: '' };
      continue;
    }
    const simple = compileSimple(part);
    if (simple === null) return null;
    tests.push(simple.test);
    specificity += simple.weight;
    if (simple.key !== null && rank(simple.key.kind) > rank(key.kind)) key = simple.key;
  }
  compounds.push({ tests, combinator: ' ' });
  if (compounds.length > LONGEST_CHAIN) return null;
  return { compounds: compounds.reverse(), specificity, key };
}

/** Does the selector hold for the element? Depth of recursion is the number of compounds. */
export function matchesSelector(selector: Selector, node: XmlNode, budget: MatchBudget): boolean {
  return matchFrom(selector.compounds, 0, node, budget);
}

function matchFrom(compounds: readonly Compound[], at: number, node: XmlNode, budget: MatchBudget): boolean {
  if (--budget.left < 0) return false;
  if (!compounds[at]!.tests.every((test) => test(node, budget))) return false;
  const left = compounds[at + 1];
  if (left === undefined) return true;
  switch (left.combinator) {
    case '>':
      return node.parent !== null && matchFrom(compounds, at + 1, node.parent, budget);
    case ' ':
      for (let up = node.parent; up !== null && budget.left > 0; up = up.parent) {
        if (matchFrom(compounds, at + 1, up, budget)) return true;
      }
      return false;
    case '+': {
      const before = node.parent?.children[node.index - 1];
      return before !== undefined && matchFrom(compounds, at + 1, before, budget);
    }
    case '~':
      for (let i = node.index - 1; i >= 0 && budget.left > 0; i--) {
        if (matchFrom(compounds, at + 1, node.parent!.children[i]!, budget)) return true;
      }
      return false;
  }
}

interface Simple {
  readonly test: Test;
  readonly weight: number;
  readonly key: Selector['key'] | null;
}

const ID = 1e6;
const CLASS = 1e3;

function compileSimple(part: CssNode): Simple | null {
  switch (part.type) {
    case 'TypeSelector': {
      const name = part.name.slice(part.name.lastIndexOf('|') + 1);
      if (name === '*') return { test: () => true, weight: 0, key: null };
      return { test: (node) => node.name === name, weight: 1, key: { kind: 'type', value: name } };
    }
    case 'IdSelector': {
      const { name } = part;
      return { test: (node) => node.attributes.id === name, weight: ID, key: { kind: 'id', value: name } };
    }
    case 'ClassSelector': {
      const { name } = part;
      return { test: (node) => classesOf(node).includes(name), weight: CLASS, key: { kind: 'class', value: name } };
    }
    case 'AttributeSelector':
      return compileAttribute(part);
    case 'PseudoClassSelector':
      return compilePseudo(part);
    default:
      return null;
  }
}

type AttributeNode = Extract<CssNode, { type: 'AttributeSelector' }>;
type PseudoNode = Extract<CssNode, { type: 'PseudoClassSelector' }>;

function compileAttribute(part: AttributeNode): Simple | null {
  const name = part.name.name.replace('|', ':');
  const wanted = part.value === null ? '' : part.value.type === 'String' ? part.value.value : part.value.name;
  const fold = part.flags?.toLowerCase() === 'i' ? (text: string) => text.toLowerCase() : (text: string) => text;
  const value = fold(wanted);
  const compare: Record<string, (text: string) => boolean> = {
    '': () => true,
    '=': (text) => text === value,
    '~=': (text) => value !== '' && text.split(/\s+/).includes(value),
    '|=': (text) => text === value || text.startsWith(`${value}-`),
    '^=': (text) => value !== '' && text.startsWith(value),
    '$=': (text) => value !== '' && text.endsWith(value),
    '*=': (text) => value !== '' && text.includes(value),
  };
  const holds = compare[part.matcher ?? ''];
  if (holds === undefined) return null;
  return {
    test: (node) => {
      const text = node.attributes[name];
      return text !== undefined && holds(fold(text));
    },
    weight: CLASS,
    key: null,
  };
}

/** States that never hold on paper. */
const NEVER = new Set(['hover', 'focus', 'active', 'visited', 'link', 'target', 'focus-within', 'focus-visible']);

function compilePseudo(part: PseudoNode): Simple | null {
  if (NEVER.has(part.name)) return { test: () => false, weight: CLASS, key: null };
  switch (part.name) {
    case 'root':
      return { test: (node) => node.parent === null, weight: CLASS, key: null };
    case 'not':
    case 'is':
    case 'where':
      return compileList(part);
    default: {
      const test = compilePlace(part);
      return test === null ? null : { test, weight: CLASS, key: null };
    }
  }
}

function compileList(part: PseudoNode): Simple | null {
  const list = part.children?.first;
  if (list?.type !== 'SelectorList') return null;
  const selectors: Selector[] = [];
  for (const child of list.children) {
    const selector = compileSelector(child);
    if (selector === null) return null;
    selectors.push(selector);
  }
  const isNegated = part.name === 'not';
  return {
    test: (node, budget) => selectors.some((selector) => matchesSelector(selector, node, budget)) !== isNegated,
    weight: part.name === 'where' ? 0 : Math.max(0, ...selectors.map((selector) => selector.specificity)),
    key: null,
  };
}

function rank(kind: Selector['key']['kind']): number {
  return { any: 0, type: 1, class: 2, id: 3 }[kind];
}

/** The element's classes. */
export function classesOf(node: XmlNode): readonly string[] {
  const text = node.attributes.class;
  return text === undefined ? [] : text.trim().split(/\s+/);
}
