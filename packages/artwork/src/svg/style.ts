import { parseColour } from '../colour.ts';
import { parseLength } from '../units.ts';
import { isCalculated, lengthInPx } from './calculated.ts';
import { withReferences } from './custom-properties.ts';
import { type Declaration, InlineStyles, isCustom, type StyleSheet } from './style-sheet.ts';
import type { XmlNode } from './xml-tree.ts';

/** Properties that children take over. */
const INHERITED = new Set([
  'clip-rule',
  'color',
  'fill',
  'fill-opacity',
  'direction',
  'fill-rule',
  'font-family',
  'font-size',
  'font-style',
  'font-weight',
  'letter-spacing',
  'marker-end',
  'marker-mid',
  'marker-start',
  'stroke',
  'stroke-dasharray',
  'stroke-opacity',
  'stroke-width',
  'text-anchor',
  'visibility',
  'word-spacing',
]);

/** Properties that hold for their element alone. `transform` is an attribute with its own grammar unless a style sets it. */
const OWN = new Set([
  '-webkit-mask',
  '-webkit-mask-image',
  'clip-path',
  'd',
  'display',
  'filter',
  'mask',
  'mask-image',
  'mix-blend-mode',
  'opacity',
  'overflow',
  'stop-color',
  'transform',
  'transform-box',
  'transform-origin',
  'vector-effect',
]);

/** Properties that move an element and are no attributes: CSS Transforms Level 2; they hold for their element alone. */
const CSS_ONLY = new Set(['translate', 'rotate', 'scale', 'offset-path']);

/** In SVG 2 these attributes are properties too and may stand in a sheet. */
const GEOMETRY = new Set(['x', 'y', 'cx', 'cy', 'r', 'rx', 'ry', 'width', 'height']);

type Properties = Readonly<Record<string, string>>;

/** The style of one element: what is inherited and what is its own. Unset properties are absent. */
export interface Style {
  readonly inherited: Properties;
  readonly own: Properties;
}

const NOTHING: Properties = Object.freeze({});
const INITIAL_FONT_SIZE = 16;

/** Where children find the font size of the outermost element; no name of a property. */
const ROOT_FONT_SIZE = '(root font size)';

/** px of the words for font sizes: CSS Fonts Level 4, 'Absolute size keyword mapping table' for a medium of 16 px. */
const FONT_SIZES: Readonly<Record<string, number>> = {
  'xx-small': 9,
  'x-small': 10,
  small: 13,
  medium: 16,
  large: 18,
  'x-large': 24,
  'xx-large': 32,
};

/** Customary step between relative sizes (the standard leaves it open). */
const LARGER = 1.2;

export const ROOT_STYLE: Style = { inherited: NOTHING, own: NOTHING };

/** What is told about values that were left out. */
export type OnBadValue = (property: string, value: string) => void;

/** Works out the cascade: presentation attributes, then rules by specificity, then the style attribute, then !important. */
export class StyleReader {
  private readonly inline = new InlineStyles();
  private readonly sheet: StyleSheet;

  constructor(sheet: StyleSheet) {
    this.sheet = sheet;
  }

  /** Style of an element under a parent of the given style (the `use` element for what it shows). */
  styleOf(node: XmlNode, parent: Style, onBadValue: OnBadValue): Style {
    const attributes: Declaration[] = [];
    for (const property in node.attributes) {
      if ((INHERITED.has(property) || OWN.has(property)) && property !== 'transform' && property !== 'd') {
        attributes.push({ property, value: node.attributes[property]!, isImportant: false });
      }
    }
    const fromSheet = this.sheet.declarationsFor(node);
    const styleText = node.attributes.style;
    const fromElement = styleText === undefined ? [] : this.inline.read(styleText);
    if (attributes.length + fromSheet.length + fromElement.length === 0) {
      return parent.own === NOTHING ? parent : { inherited: parent.inherited, own: NOTHING };
    }
    const inherited: Record<string, string> = { ...parent.inherited };
    const own: Record<string, string> = {};
    const cascade = strongestFirst([...attributes, ...fromSheet, ...fromElement].flatMap(withoutShorthand));
    // The first that can be read wins, so that a long sheet costs no more than it decides.
    const settled = new Set<string>();
    for (const { property, value } of cascade) {
      if (!isCustom(property) || settled.has(property)) continue;
      inherited[property] = value;
      settled.add(property);
    }
    const lookUp = (name: string): string | undefined => inherited[name];
    for (const { property, value } of cascade) {
      if (settled.has(property)) continue;
      const computed = withReferences(value, lookUp);
      if (computed === null) onBadValue(property, value);
      // A reference that leads nowhere counts as `unset`, whatever weaker rules say.
      if (apply(property, computed ?? 'unset', inherited, own, parent, onBadValue)) settled.add(property);
    }
    // em on the root counts from the initial size, rem everywhere from what comes of it.
    if (node.parent === null && inherited['font-size'] !== undefined)
      inherited[ROOT_FONT_SIZE] = inherited['font-size'];
    return { inherited, own };
  }
}

function strongestFirst(cascade: readonly Declaration[]): Declaration[] {
  const backwards = cascade.slice().reverse();
  if (!cascade.some(({ isImportant }) => isImportant)) return backwards;
  return [...backwards.filter(({ isImportant }) => isImportant), ...backwards.filter((entry) => !entry.isImportant)];
}

/** @returns false when the value cannot be read and counts as not written. */
function apply(
  property: string,
  value: string,
  inherited: Record<string, string>,
  own: Record<string, string>,
  parent: Style,
  onBadValue: OnBadValue,
): boolean {
  if (property === 'marker') {
    for (const place of ['marker-start', 'marker-mid', 'marker-end']) inherited[place] = value;
    return true;
  }
  if (property === 'font' && value.toLowerCase() === 'inherit') return true;
  if (property === 'font' || property === 'all') {
    onBadValue(property, value);
    return false;
  }
  const isInherited = INHERITED.has(property);
  if (!isInherited && !OWN.has(property) && !GEOMETRY.has(property) && !CSS_ONLY.has(property)) return true;
  const target = isInherited ? inherited : own;
  const outer = isInherited ? parent.inherited[property] : parent.own[property];
  const word = value.toLowerCase();
  if (word === 'inherit' || (word === 'unset' && isInherited)) {
    if (outer === undefined) delete target[property];
    else target[property] = outer;
  } else if (word === 'initial' || word === 'unset') delete target[property];
  else if (property === 'font-size') {
    const px = fontSize(word, parent);
    if (px === null) onBadValue(property, value);
    else inherited[property] = String(px);
    return px !== null;
  } else if (isValid(property, value)) target[property] = value;
  else {
    onBadValue(property, value);
    return false;
  }
  return true;
}

/** Style, weight and the like, then the size with perhaps a line height, then families: CSS Fonts Level 4, 'Shorthand font property'. */
const FONT =
  /^\s*((?:[a-z-]+\s+|[1-9]\d{0,3}\s+)*?)((?:\d*\.)?\d+(?:[a-z]+|%)|(?:xx?-)?(?:small|large)|medium|larger|smaller|calc\([^)]*\))\s*(?:\/\s*\S+\s*)?\s+(\S.*)$/i;

/** The parts of a `font`, each to be settled by itself; its size matters beyond texts, since em lengths count from it. */
function withoutShorthand(declaration: Declaration): Declaration | readonly Declaration[] {
  const match = declaration.property === 'font' ? FONT.exec(declaration.value) : null;
  if (match === null) return declaration;
  const [, words, size, families] = match;
  const before = words!.toLowerCase().split(/\s+/);
  const weight = before.find((word) => /^(?:\d+|bold(?:er)?|lighter)$/.test(word)) ?? 'normal';
  const slant = before.find((word) => word === 'italic' || word === 'oblique') ?? 'normal';
  const parts = { 'font-size': size!, 'font-weight': weight, 'font-style': slant, 'font-family': families! };
  return Object.entries(parts).map(([property, value]) => ({ ...declaration, property, value }));
}

/** Font size in px, so that em lengths below it are right; null when it cannot be read. */
function fontSize(value: string, parent: Style): number | null {
  const outer = fontSizeOf(parent);
  if (value === 'larger') return outer * LARGER;
  if (value === 'smaller') return outer / LARGER;
  const px =
    FONT_SIZES[value] ?? lengthInPx(value, { whole: outer, fontSize: outer, rootFontSize: rootFontSizeOf(parent) });
  return px !== null && px >= 0 ? px : null;
}

/** Font size that rem refers to, px. */
export function rootFontSizeOf(style: Style): number {
  return Number(style.inherited[ROOT_FONT_SIZE] ?? INITIAL_FONT_SIZE);
}

/** Font size that em and ex refer to, px. */
export function fontSizeOf(style: Style): number {
  return Number(style.inherited['font-size'] ?? INITIAL_FONT_SIZE);
}

/** A wrong value counts as not written: what would hold without it holds. */
function isValid(property: string, value: string): boolean {
  if (property === 'fill' || property === 'stroke') return isPaint(value);
  if (property === 'color') return parseColour(value) !== null;
  if (property === 'stroke-width') return parseLength(value) !== null || isCalculated(value);
  if (property === 'fill-rule') return value === 'nonzero' || value === 'evenodd';
  return true;
}

function isPaint(value: string): boolean {
  const word = value.trim().toLowerCase();
  return (
    word === 'none' ||
    word === 'currentcolor' ||
    word === 'context-fill' ||
    word === 'context-stroke' ||
    word.startsWith('url(') ||
    parseColour(value) !== null
  );
}
