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

/** What an element says of the places of its characters; a list holds for those from its own first one. */
interface Placing {
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly dx: readonly number[];
  readonly dy: readonly number[];
  readonly rotate: readonly number[];
  /** Characters of the element, by their number in the text. */
  readonly from: number;
  to: number;
}

/**
 * The characters of a text element with their style and places, in user units of the element.
 * @returns runs without collapsible white space; empty for a text without characters.
 * @remarks Source: SVG 2, 'Text' (resolving character positions: an element's lists overlay those of the elements around it) and CSS
 * Text Level 3, 'White space'.
 */
export function textRuns(node: XmlNode, style: Style, ground: TextGround): TextRun[] {
  const words: Omit<TextRun, 'x' | 'y' | 'dx' | 'dy' | 'rotate'>[] = [];
  const placings: Placing[] = [];
  const state = { isSpaceBefore: true, characters: 0, stretches: 0 };

  const visit = (element: XmlNode, own: Style, around: Pick<TextRun, 'path' | 'stretch'>, depth: number): void => {
    if (depth > MOST_NESTED) return;
    const placing = placingOf(element, own, ground.viewport, state.characters);
    placings.push(placing);
    const stretch = around.stretch ?? stretchOf(element, own, state.stretches + 1, ground);
    if (stretch !== null) state.stretches = stretch.group;
    const within = { path: around.path, stretch };
    for (const child of element.children) {
      if (child.name === TEXT_NODE) add(child.text, own, element, within);
      else if (child.isSvg && (child.name === 'tspan' || child.name === 'a')) {
        const inner = ground.styles.styleOf(child, own, ground.onBadValue);
        if ((inner.own.display ?? '').trim() !== 'none') visit(child, inner, within, depth + 1);
      } else if (child.isSvg && child.name === 'textPath') {
        const inner = ground.styles.styleOf(child, own, ground.onBadValue);
        visit(child, inner, { ...within, path: pathOf(child, inner, ground) }, depth + 1);
      }
    }
    placing.to = state.characters;
  };

  const add = (written: string, own: Style, element: XmlNode, around: Pick<TextRun, 'path' | 'stretch'>): void => {
    const keeps = isPreserving(element);
    let text = written.replace(/[\t\r\n]/g, ' ').replace(CONTROLS, '');
    if (!keeps) {
      text = text.replace(/ +/g, ' ');
      if (state.isSpaceBefore) text = text.replace(/^ /, '');
    }
    text = text.slice(0, MOST_CHARACTERS - state.characters);
    if (text === '') return;
    state.characters += text.length;
    state.isSpaceBefore = text.endsWith(' ');
    words.push({ text, ...faceOf(own, ground.viewport), ...around });
  };

  visit(node, style, { path: null, stretch: null }, 0);
  const runs = withPlaces(words, placings);
  const last = runs.at(-1);
  if (last !== undefined && !isPreserving(node)) runs[runs.length - 1] = { ...last, text: last.text.replace(/ $/, '') };
  const isApart = runs.some(({ stretch, x, y }, at) => {
    if (stretch === null) return false;
    const isFirst = runs.findIndex((run) => run.stretch?.group === stretch.group) === at;
    return [x, y].some((list) => list.some((place, index) => place !== null && !(isFirst && index === 0)));
  });
  if (!isApart) return runs.filter((run) => run.text !== '');
  ground.tell('its textLength is not followed, since its letters have places of their own');
  return runs.filter((run) => run.text !== '').map((run) => ({ ...run, stretch: null }));
}

/** Lists of an element overlay those of the elements around it, character by character; a turn holds to the end of its element. */
function withPlaces(
  words: readonly Omit<TextRun, keyof Pick<Placing, 'x' | 'y' | 'dx' | 'dy' | 'rotate'>>[],
  placings: readonly Placing[],
): TextRun[] {
  const count = words.reduce((sum, { text }) => sum + text.length, 0);
  const overlaid = (name: 'x' | 'y' | 'dx' | 'dy' | 'rotate'): (number | null)[] => {
    const places = new Array<number | null>(count).fill(null);
    for (const placing of placings) {
      const list = placing[name];
      const to = name === 'rotate' && list.length > 0 ? placing.to : Math.min(placing.to, placing.from + list.length);
      for (let at = placing.from; at < to; at++) places[at] = list[Math.min(at - placing.from, list.length - 1)]!;
    }
    return places;
  };
  const [x, y, dx, dy, rotate] = [overlaid('x'), overlaid('y'), overlaid('dx'), overlaid('dy'), overlaid('rotate')];
  let from = 0;
  return words.map((run): TextRun => {
    const [start, end] = [from, from + run.text.length];
    from = end;
    const own = (list: readonly (number | null)[]) => upToLast(list.slice(start, end));
    const shifts = (list: readonly (number | null)[]) => own(list).map((shift) => shift ?? 0);
    return { ...run, x: own(x), y: own(y), dx: shifts(dx), dy: shifts(dy), rotate: shifts(rotate) };
  });
}

function upToLast(list: readonly (number | null)[]): (number | null)[] {
  return list.slice(0, 1 + list.findLastIndex((entry) => entry !== null));
}

function stretchOf(node: XmlNode, style: Style, group: number, ground: TextGround): TextRun['stretch'] {
  const written = node.attributes.textLength;
  if (written === undefined) return null;
  const length = userLength(written, 'x', style, ground.viewport);
  if (length === null || !(length > 0)) {
    ground.tell(`its textLength '${written.slice(0, 40)}' cannot be read and is not followed`);
    return null;
  }
  return { group, length, by: node.attributes.lengthAdjust === 'spacingAndGlyphs' ? 'glyphs' : 'gaps' };
}

function isPreserving(node: XmlNode): boolean {
  for (let at: XmlNode | null = node; at !== null; at = at.parent) {
    const space = at.attributes['xml:space'];
    if (space !== undefined) return space === 'preserve';
  }
  return false;
}

function placingOf(node: XmlNode, style: Style, viewport: ViewportSize, from: number): Placing {
  const read = (name: 'x' | 'y' | 'dx' | 'dy' | 'rotate', toNumber: (word: string) => number | null): number[] => {
    const written = node.attributes[name]?.trim();
    if (written === undefined || written === '') return [];
    const values = written.split(/[\s,]+/).map(toNumber);
    // A list is read as far as it makes sense.
    const end = values.indexOf(null);
    return (end < 0 ? values : values.slice(0, end)).filter((value) => value !== null);
  };
  const along = (axis: Axis) => (word: string) => userLength(word, axis, style, viewport);
  const degrees = (word: string) => (Number.isFinite(Number(word)) ? Number(word) : null);
  return {
    x: read('x', along('x')),
    y: read('y', along('y')),
    dx: read('dx', along('x')),
    dy: read('dy', along('y')),
    rotate: read('rotate', degrees),
    from,
    to: from,
  };
}

type Face = Pick<
  TextRun,
  'families' | 'size' | 'sizeOf' | 'weight' | 'italic' | 'letterSpacing' | 'wordSpacing' | 'anchor' | 'direction'
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
    sizeOf: 'em',
    weight:
      weight === 'bold' || weight === 'bolder'
        ? 700
        : Number.parseInt(weight, 10) || (weight === 'lighter' ? 300 : 400),
    italic: of('font-style') === 'italic' || of('font-style').startsWith('oblique'),
    letterSpacing: spacing('letter-spacing'),
    wordSpacing: spacing('word-spacing'),
    anchor: anchor === 'middle' || anchor === 'end' ? anchor : 'start',
    direction: of('direction') === 'rtl' ? 'rtl' : 'ltr',
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
