import { SaxesParser } from 'saxes';
import { ArtworkError } from '../error.ts';
import { entitiesOf, withElementsOfEntities } from './entities.ts';
import { MAX_ELEMENTS } from './limits.ts';

const SVG_NAMESPACE = 'http://www.w3.org/2000/svg';

/** Elements whose text is needed; the text of others is only counted as present by their tag. */
const TEXT_KEPT = new Set(['style', 'title']);

/** Elements whose characters stand between their children, as children of their own without attributes. */
const TEXT_IN_ORDER = new Set(['text', 'tspan', 'textPath', 'a']);

/** Name of such a child; no element can be called so. */
export const TEXT_NODE = '(text)';

/** One element of the file. */
export interface XmlNode {
  /** Without its prefix. */
  readonly name: string;
  /** False for elements of other namespaces, which are never drawn. */
  readonly isSvg: boolean;
  readonly attributes: Readonly<Record<string, string>>;
  readonly parent: XmlNode | null;
  readonly children: readonly XmlNode[];
  /** Position among the parent's children. */
  readonly index: number;
  readonly line: number;
  text: string;
}

/** While it is read its children are still coming. */
interface OpenNode extends XmlNode {
  children: XmlNode[];
}

/** An element whose closing tag is still to come. */
interface OpenElement {
  /** As written, with its prefix. */
  readonly name: string;
  readonly node: OpenNode;
  readonly scope: NamespaceScope;
}

/** The elements that are open, outermost first: as the tags say, where these are right, and else as they were meant. */
class OpenElements {
  private readonly stack: OpenElement[] = [];

  get innermost(): OpenElement | undefined {
    return this.stack.at(-1);
  }

  get count(): number {
    return this.stack.length;
  }

  push(element: OpenElement): void {
    this.stack.push(element);
  }

  pop(): OpenElement | undefined {
    return this.stack.pop();
  }

  /** Innermost first, as they were closed. */
  reopen(closed: readonly OpenElement[]): void {
    for (let i = closed.length - 1; i >= 0; i--) this.stack.push(closed[i]!);
  }

  /** Close everything up to the innermost element of that name; nothing when there is none, as browsers do in HTML. */
  close(name: string): boolean {
    const at = this.stack.findLastIndex((element) => element.name === name);
    if (at >= 0) this.stack.length = at;
    return at >= 0;
  }
}

/** Shared by all elements without children, which most are. */
const NO_CHILDREN: XmlNode[] = [];

export interface XmlFault {
  readonly message: string;
  readonly line: number;
}

export interface XmlDocument {
  readonly root: XmlNode;
  /** Breaches of well-formedness, in order, the first twenty. */
  readonly faults: readonly XmlFault[];
  /** Line where the text broke off inside the drawing, or null. */
  readonly brokenOffAt: number | null;
}

/**
 * Parse XML into a tree, forgiving: what is not well-formed is told as a fault and reading goes on, so that a truncated file
 * gives the elements that are whole.
 * @throws ArtworkError `not-svg` (no svg root), `entity-expansion`, `too-large` (element count).
 * @remarks O(text); no recursion, so nesting is bounded by memory alone.
 */
export function parseXml(written: string, file: string): XmlDocument {
  const text = withElementsOfEntities(written, file);
  const parser = new SaxesParser({ position: true, xmlns: false });
  const faults: XmlFault[] = [];
  const open = new OpenElements();
  /** Closed by the tag just read, although it names none of them. */
  let closedInVain: OpenElement[] = [];
  let isMismatch = false;
  let hasStrayTag = false;
  const roots: XmlNode[] = [];
  const strings = new StringPool();
  let count = 0;
  let ended = false;

  parser.on('error', (error) => {
    const message = plainFault(error.message);
    if (message === 'unexpected close tag') isMismatch = true;
    const stray = /^unmatched closing tag: (.*)$/.exec(message)?.[1];
    // The parser forgets all open elements at a stray closing tag and then wonders at what follows.
    if (hasStrayTag && AFTER_STRAY_TAG.test(message)) return;
    if (stray !== undefined) {
      if (isMismatch) open.reopen(closedInVain);
      isMismatch = false;
      const isKnown = open.close(stray);
      if (isKnown && hasStrayTag) return;
      hasStrayTag = true;
    }
    const last = faults.at(-1);
    const isSaid = last?.message === message && last.line === parser.line;
    if (faults.length < 20 && !isSaid) faults.push({ message, line: parser.line });
  });
  parser.on('attribute', (attribute) => {
    attribute.value = uncopied(attribute.name, attribute.value, text, parser.position);
  });
  parser.on('doctype', (doctype) => {
    for (const [name, value] of entitiesOf(doctype, file)) {
      Object.defineProperty(parser.ENTITIES, name, { get: value, enumerable: true, configurable: true });
    }
  });
  parser.on('opentag', (tag) => {
    count++;
    if (count > MAX_ELEMENTS) {
      throw new ArtworkError(
        'too-large',
        `${file} has more than ${MAX_ELEMENTS} elements: simplify the drawing or split it into several files`,
        `line ${parser.line}`,
      );
    }
    const around = open.innermost;
    const parent = around?.node ?? null;
    const scope = scopeOf(tag.attributes, around?.scope ?? NO_NAMESPACE);
    const colon = tag.name.indexOf(':');
    const prefix = colon < 0 ? '' : tag.name.slice(0, colon);
    const node: OpenNode = {
      name: strings.shared(tag.name.slice(colon + 1)),
      isSvg: isSvgNamespace(prefix, scope),
      attributes: compact(tag.attributes, strings),
      parent,
      children: NO_CHILDREN,
      index: parent?.children.length ?? 0,
      line: parser.line,
      text: '',
    };
    if (parent === null) roots.push(node);
    else if (parent.children === NO_CHILDREN) parent.children = [node];
    else parent.children.push(node);
    open.push({ name: tag.name, node, scope });
    // The parser keeps the tag until it is closed; nested groups would pile up.
    tag.attributes = {};
  });
  parser.on('closetag', () => {
    if (!isMismatch) closedInVain = [];
    isMismatch = false;
    const element = open.pop();
    if (element !== undefined) closedInVain.push(element);
  });
  const keepText = (piece: string): void => {
    const node = open.innermost?.node;
    if (node === undefined) return;
    if (TEXT_KEPT.has(node.name)) node.text += piece;
    else if (TEXT_IN_ORDER.has(node.name)) keepInOrder(node, piece, parser.line);
  };
  parser.on('text', keepText);
  parser.on('cdata', keepText);
  parser.on('end', () => {
    ended = true;
  });

  // Fed in slices, so that the parser never holds a copy of the whole text.
  const slice = 1 << 16;
  for (let i = 0; i < text.length; i += slice) parser.write(text.slice(i, i + slice));
  const openAtEnd = open.count;
  const lastLine = parser.line;
  parser.close();
  if (!ended) throw new ArtworkError('internal', `${file} could not be parsed to its end`);

  const root = roots.find((node) => node.name === 'svg' && node.isSvg);
  if (root === undefined) {
    const found =
      roots[0] === undefined ? 'it holds no element' : `its first element is <${roots[0].name.slice(0, 40)}>`;
    throw new ArtworkError(
      'not-svg',
      `${file} is not an SVG drawing: ${found}; export the artwork as plain SVG or DXF`,
    );
  }
  return { root, faults, brokenOffAt: openAtEnd > 0 || faults.some(isBreak) ? lastLine : null };
}

/** Attributes that may be as long as the file, and in which one white space means the same as another. */
const LONG_ATTRIBUTES = new Set(['d', 'points']);

/**
 * The value as a stretch of the file's text where it is one: what the parser pieces together would be copied whole, which for a
 * drawing of one path is the file once more.
 * @param end - behind the closing quote.
 */
function uncopied(name: string, value: string, text: string, end: number): string {
  if (value.length <= LONGEST_SHARED || !LONG_ATTRIBUTES.has(name)) return value;
  const start = end - 1 - value.length;
  const quote = text[end - 1]!;
  if ((quote !== '"' && quote !== "'") || text[start - 1] !== quote) return value;
  const raw = text.slice(start, end - 1);
  return raw.includes(quote) || raw.includes('&') ? value : raw;
}

/** An object that inherits nothing, so that an attribute may have any name, in the engine's small layout. */
class Attributes {
  [name: string]: string;
}
Object.setPrototypeOf(Attributes.prototype, null);
Reflect.deleteProperty(Attributes.prototype, 'constructor');

/** The parser's own attribute objects are hash tables, five times as large. */
function compact(attributes: Readonly<Record<string, string>>, strings: StringPool): Record<string, string> {
  const own = new Attributes();
  for (const name in attributes) own[name] = strings.shared(attributes[name]!);
  return own;
}

/** Characters of a text element, as a child in their place; what the parser hands over in pieces is joined. */
function keepInOrder(parent: OpenNode, piece: string, line: number): void {
  const last = parent.children.at(-1);
  if (last?.name === TEXT_NODE) {
    last.text += piece;
    return;
  }
  const index = parent.children.length;
  const child = {
    name: TEXT_NODE,
    isSvg: false,
    attributes: {},
    parent,
    children: NO_CHILDREN,
    index,
    line,
    text: piece,
  };
  if (parent.children === NO_CHILDREN) parent.children = [child];
  else parent.children.push(child);
}

/** Longest text that is looked for among those seen: styles repeat, path data does not. */
const LONGEST_SHARED = 512;
const MOST_SHARED = 2000;

/** Equal texts kept once: exported drawings repeat the same style on every element. */
class StringPool {
  private readonly seen = new Map<string, string>();

  shared(text: string): string {
    if (text.length > LONGEST_SHARED) return text;
    const known = this.seen.get(text);
    if (known !== undefined) return known;
    if (this.seen.size < MOST_SHARED) this.seen.set(text, text);
    return text;
  }
}

/** The namespaces declared on an element, and those around it. Linked rather than copied: nesting may be very deep. */
interface NamespaceScope {
  readonly own: ReadonlyMap<string, string>;
  /** The default namespace in force, so that the usual question needs no search. */
  readonly standard: string;
  readonly outer: NamespaceScope | null;
}

const NO_NAMESPACE: NamespaceScope = { own: new Map(), standard: '', outer: null };

function scopeOf(attributes: Readonly<Record<string, string>>, outer: NamespaceScope): NamespaceScope {
  let own: Map<string, string> | null = null;
  for (const name in attributes) {
    if (!name.startsWith('xmlns')) continue;
    if (name !== 'xmlns' && name[5] !== ':') continue;
    own ??= new Map();
    own.set(name.slice(6), attributes[name]!.trim());
  }
  return own === null ? outer : { own, standard: own.get('') ?? outer.standard, outer };
}

/** Files that declare no namespace at all are common and meant as SVG. */
function isSvgNamespace(prefix: string, scope: NamespaceScope): boolean {
  if (prefix === '') return scope.standard === '' || scope.standard === SVG_NAMESPACE;
  for (let at: NamespaceScope | null = scope; at !== null; at = at.outer) {
    const uri = at.own.get(prefix);
    if (uri !== undefined) return uri === SVG_NAMESPACE;
  }
  return prefix === 'svg';
}

/** What the parser says of a document whose root it believes closed. */
const AFTER_STRAY_TAG = /^(?:documents may contain only one root|text data outside of root node|unexpected close tag)/;

function isBreak(fault: XmlFault): boolean {
  return fault.message.startsWith('unexpected end') || fault.message.startsWith('unclosed');
}

/** The parser's message without its own line:column prefix. */
function plainFault(message: string): string {
  return message.replace(/^[^:]*:?\d+:\d+: /, '').replace(/\.$/, '');
}
