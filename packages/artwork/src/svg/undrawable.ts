import type { Matrix } from '@underlap/geometry/matrix';
import { apply } from '@underlap/geometry/matrix';
import type { ComplaintList } from '../complaint-list.ts';
import type { IdIndex } from './id-index.ts';
import { wordsFor } from './labels.ts';
import { localReference } from './references.ts';
import type { Style } from './style.ts';
import type { XmlNode } from './xml-tree.ts';

/** Elements whose children are drawn in place. */
export const GROUPS: ReadonlySet<string> = new Set(['g', 'a', 'switch']);

/** Elements that hold material for others or words for people; they draw nothing where they stand. */
export const DEFINITIONS: ReadonlySet<string> = new Set([
  'clipPath',
  'color-profile',
  'cursor',
  'defs',
  'desc',
  'filter',
  'font',
  'font-face',
  'glyph',
  'linearGradient',
  'marker',
  'mask',
  'metadata',
  'pattern',
  'radialGradient',
  'script',
  'style',
  'title',
  'view',
]);

interface Undrawable {
  readonly code: string;
  readonly message: string;
}

const TEXT: Undrawable = {
  code: 'text',
  message:
    'text has no outlines without its font, so it is left out: give the font file, or convert it to outlines (paths) in the drawing program first',
};
const MOVING: Undrawable = {
  code: 'animation',
  message: 'movement is left out; the drawing is read as it stands at the start',
};

const UNDRAWABLE: Readonly<Record<string, Undrawable>> = {
  text: TEXT,
  tspan: TEXT,
  textPath: TEXT,
  tref: TEXT,
  flowRoot: TEXT,
  image: {
    code: 'bitmap',
    message: 'a bitmap has no outlines to cut and is left out: trace it to paths in the drawing program first',
  },
  foreignObject: {
    code: 'foreign-content',
    message: 'embedded content of another kind is left out: draw it as shapes',
  },
  animate: MOVING,
  animateMotion: MOVING,
  animateTransform: MOVING,
  animateColor: MOVING,
  set: MOVING,
};

/** Tell of an element that no outline can be taken from. @returns false when it is none of these. */
export function complainOfUndrawable(node: XmlNode, complaints: ComplaintList, matrix: Matrix): boolean {
  const known = UNDRAWABLE[node.name];
  if (known === undefined) return false;
  const x = Number.parseFloat(node.attributes.x ?? '0');
  const y = Number.parseFloat(node.attributes.y ?? '0');
  const severity = known === MOVING ? 'note' : 'warning';
  complaints.add(known.code, severity, known.message, wordsFor(node), apply(matrix, { x: x || 0, y: y || 0 }));
  return true;
}

/** Tell of effects that change what is seen but are not followed: the shape is read as if they were not there. */
export function complainOfUnseen(
  node: XmlNode,
  style: Style,
  complaints: ComplaintList,
  words: string,
  byId: IdIndex,
): void {
  const refers = (property: string): boolean => {
    const value = style.own[property];
    if (value === undefined || value === 'none') return false;
    const id = localReference(value);
    return id === null ? value.trim() !== '' : byId.get(id) !== undefined;
  };
  const hasStyledMask = ['mask-image', '-webkit-mask', '-webkit-mask-image'].some((name) => isSet(style.own[name]));
  if (refers('mask') || hasStyledMask) {
    complaints.add(
      'mask',
      'warning',
      'its mask is not followed: cut the shapes to what is seen in the drawing program',
      words,
    );
  }
  if (refers('filter'))
    complaints.add('filter', 'warning', 'its filter effect is left out; the plain shape is read', words);
  if (isSet(style.own['mix-blend-mode']) && style.own['mix-blend-mode'] !== 'normal') {
    const message = 'it is blended with what lies below and is read in its own plain colour';
    complaints.add('paint-replaced', 'note', message, words);
  }
  if (node.name === 'g' || node.name === 'svg') return;
  if (['marker-start', 'marker-mid', 'marker-end'].some((name) => (style.inherited[name] ?? 'none') !== 'none')) {
    complaints.add(
      'marker',
      'note',
      'markers on its line are left out: convert them to paths if they are meant',
      words,
    );
  }
}

function isSet(value: string | undefined): boolean {
  return value !== undefined && value.trim() !== '' && value.trim() !== 'none';
}

/** Would a viewer show it, by its conditions? Languages count as understood when English is among them. */
export function isChosen(node: XmlNode): boolean {
  const { systemLanguage, requiredExtensions } = node.attributes;
  if (requiredExtensions !== undefined && requiredExtensions.trim() !== '') return false;
  return systemLanguage === undefined || /(^|,)\s*en\b/i.test(systemLanguage);
}

/** The first child of a `switch` whose conditions hold, with a word when others would show elsewhere. */
export function chosenChild(node: XmlNode, complaints: ComplaintList): readonly XmlNode[] {
  const drawn = node.children.filter((child) => child.isSvg && !DEFINITIONS.has(child.name));
  const chosen = drawn.find(isChosen);
  if (drawn.some((child) => child.attributes.systemLanguage !== undefined)) {
    const what = chosen === undefined ? 'none of them is for English, so nothing of it is read' : 'one is read';
    const message = `it holds versions for several languages, of which ${what}: delete those that are not meant`;
    complaints.add('language', chosen === undefined ? 'warning' : 'note', message, wordsFor(node));
  }
  return chosen === undefined ? [] : [chosen];
}
