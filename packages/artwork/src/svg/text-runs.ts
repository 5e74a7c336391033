import { contourLength } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import { IDENTITY } from '@underlap/geometry/matrix';
import { plainContour, SegmentPacker } from '@underlap/geometry/packed-segments';
import type { TextRun } from '../drawing.ts';
import { elementGeometry, SHAPE_ELEMENTS } from './element-geometry.ts';
import type { IdIndex } from './id-index.ts';
import { type Axis, userLength, type ViewportSize } from './lengths.ts';
import { MAX_SEGMENTS } from './limits.ts';
import { hrefOf, localReference } from './references.ts';
import { fontSizeOf, type OnBadValue, type Style, type StyleReader } from './style.ts';
import { TEXT_NODE, type XmlNode } from './xml-tree.ts';

/** Texts within texts within texts: more is no drawing. */
const MOST_NESTED = 40;

/** Letters of one text; more is a book. */
const MOST_CHARACTERS = 5_000;

/** What reading a text needs of the walk. */
export interface TextGround {
  readonly styles: StyleReader;
  readonly byId: IdIndex;
  readonly viewport: ViewportSize;
  readonly onBadValue: OnBadValue;
  /** Called with a sentence for what is not followed. */
  readonly tell: (message: string) => void;
}

/** Characters that no letter stands for; they could steer a terminal where the words are told. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
const CONTROLS = /[\u0000-\u001f\u007f-\u009f]/g;

type Lists = { readonly [name in 'x' | 'y' | 'dx' | 'dy']: readonly number[] };
const NO_LISTS: Lists = { x: [], y: [], dx: [], dy: [] };

/**
 * The characters of a text element with their style and places, in user units of the element.
 * @returns runs without collapsible white space; empty for a text without characters.
 * @remarks Source: SVG 2, 'Text', and CSS Text Level 3, 'White space'. Lists of positions hold for the characters of their element.
 */
export function textRuns(node: XmlNode, style: Style, ground: TextGround): TextRun[] {
  const runs: TextRun[] = [];
  const state = { isSpaceBefore: true, lists: NO_LISTS, characters: 0 };

  const visit = (element: XmlNode, own: Style, path: TextRun['path'], depth: number): void => {
    if (depth > MOST_NESTED) return;
    const before = state.lists;
    const given = listsOf(element, own, ground.viewport);
    state.lists = {
      x: given.x.length > 0 ? given.x : before.x,
      y: given.y.length > 0 ? given.y : before.y,
      dx: given.dx.length > 0 ? given.dx : before.dx,
      dy: given.dy.length > 0 ? given.dy : before.dy,
    };
    for (const name of ['rotate', 'textLength']) {
      if (element.attributes[name] !== undefined) ground.tell(`its ${name} is not followed`);
    }
    for (const child of element.children) {
      if (child.name === TEXT_NODE) add(child.text, own, element, path);
      else if (child.isSvg && (child.name === 'tspan' || child.name === 'a')) {
        const inner = ground.styles.styleOf(child, own, ground.onBadValue);
        if ((inner.own.display ?? '').trim() !== 'none') visit(child, inner, path, depth + 1);
      } else if (child.isSvg && child.name === 'textPath') {
        const inner = ground.styles.styleOf(child, own, ground.onBadValue);
        visit(child, inner, pathOf(child, inner, ground), depth + 1);
      }
    }
  };

  const add = (written: string, own: Style, element: XmlNode, path: TextRun['path']): void => {
    const keeps = isPreserving(element);
    let words = written.replace(/[\t\r\n]/g, ' ').replace(CONTROLS, '');
    if (!keeps) {
      words = words.replace(/ +/g, ' ');
      if (state.isSpaceBefore) words = words.replace(/^ /, '');
    }
    words = words.slice(0, MOST_CHARACTERS - state.characters);
    if (words === '') return;
    state.characters += words.length;
    state.isSpaceBefore = words.endsWith(' ');
    const { lists } = state;
    runs.push({ text: words, ...lists, ...faceOf(own, ground.viewport), path });
    const rest = (list: readonly number[]) => list.slice(words.length);
    state.lists = { x: rest(lists.x), y: rest(lists.y), dx: rest(lists.dx), dy: rest(lists.dy) };
  };

  visit(node, style, null, 0);
  const last = runs.at(-1);
  if (last !== undefined && !isPreserving(node)) runs[runs.length - 1] = { ...last, text: last.text.replace(/ $/, '') };
  return runs.filter((run) => run.text !== '');
}

function isPreserving(node: XmlNode): boolean {
  for (let at: XmlNode | null = node; at !== null; at = at.parent) {
    const space = at.attributes['xml:space'];
    if (space !== undefined) return space === 'preserve';
  }
  return false;
}

function listsOf(node: XmlNode, style: Style, viewport: ViewportSize): Lists {
  const read = (name: 'x' | 'y' | 'dx' | 'dy', axis: Axis): number[] => {
    const written = node.attributes[name];
    if (written === undefined) return [];
    const lengths = written
      .trim()
      .split(/[\s,]+/)
      .map((word) => userLength(word, axis, style, viewport));
    // A list is read as far as it makes sense.
    const end = lengths.indexOf(null);
    return (end < 0 ? lengths : lengths.slice(0, end)).filter((length) => length !== null);
  };
  return { x: read('x', 'x'), y: read('y', 'y'), dx: read('dx', 'x'), dy: read('dy', 'y') };
}

type Face = Pick<
  TextRun,
  'families' | 'size' | 'weight' | 'italic' | 'letterSpacing' | 'wordSpacing' | 'anchor' | 'direction'
>;

function faceOf(style: Style, viewport: ViewportSize): Face {
  const of = (property: string) => (style.inherited[property] ?? '').trim().toLowerCase();
  const spacing = (property: string) => {
    const written = of(property);
    return written === '' || written === 'normal' ? 0 : (userLength(written, 'x', style, viewport) ?? 0);
  };
  const weight = of('font-weight');
  const anchor = of('text-anchor');
  return {
    families: (style.inherited['font-family'] ?? '')
      .split(',')
      .map((name) => name.trim())
      .filter((name) => name !== ''),
    size: fontSizeOf(style),
    weight:
      weight === 'bold' || weight === 'bolder'
        ? 700
        : Number.parseInt(weight, 10) || (weight === 'lighter' ? 300 : 400),
    italic: of('font-style') === 'italic' || of('font-style').startsWith('oblique'),
    letterSpacing: spacing('letter-spacing'),
    wordSpacing: spacing('word-spacing'),
    anchor: anchor === 'middle' || anchor === 'end' ? anchor : 'start',
    direction: of('direction') === 'rtl' ? 'rtl' : of('direction') === 'ltr' ? 'ltr' : 'auto',
  };
}

/** The line that a `textPath` follows; null, and told, when there is none. */
function pathOf(node: XmlNode, style: Style, ground: TextGround): TextRun['path'] {
  const href = hrefOf(node);
  const id = href === null ? null : localReference(href);
  const target = id === null ? undefined : ground.byId.get(id);
  if (target === undefined || !SHAPE_ELEMENTS.has(target.name)) {
    ground.tell('the line that it follows is not in the file, so it is set level');
    return null;
  }
  if (target.attributes.transform !== undefined)
    ground.tell('the transform of the line that it follows is not followed: apply it in the drawing program');
  const shape = ground.styles.styleOf(target, style, ground.onBadValue);
  const geometry = elementGeometry(target, shape, ground.viewport, MAX_SEGMENTS, IDENTITY, new SegmentPacker());
  const drawn = geometry.contours[0];
  if (drawn === undefined) return null;
  const contour: Contour = plainContour(drawn);
  const written = node.attributes.startOffset ?? '0';
  const length = contourLength(contour);
  const share = /^\s*([-+.\d]+)%\s*$/.exec(written);
  const startOffset =
    share === null ? (userLength(written, 'both', style, ground.viewport) ?? 0) : (Number(share[1]) / 100) * length;
  return { contour, startOffset: Number.isFinite(startOffset) ? startOffset : 0 };
}
