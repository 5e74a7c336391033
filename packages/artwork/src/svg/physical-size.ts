import { contourBounds } from '@underlap/geometry/contour';
import { IDENTITY, type Matrix } from '@underlap/geometry/matrix';
import type { ComplaintList } from '../complaint-list.ts';
import type { DrawnShape, PhysicalSize, ReadOptions } from '../drawing.ts';
import {
  isPhysicalUnit,
  type Length,
  lengthToMm,
  lengthToPx,
  MM_PER_INCH,
  PX_PER_INCH,
  parseLength,
} from '../units.ts';
import type { ViewportSize } from './lengths.ts';
import { parseViewBox, type ViewBox, viewportMatrix } from './viewport.ts';
import type { XmlNode } from './xml-tree.ts';

/** The two readings of a px that drawing programs use: CSS's 96 to the inch and the older 72 (a px is a point). */
const CUSTOMARY_PER_INCH = [96, 72] as const;

/** What em and % on the root refer to; % never gets here. */
const ROOT_BASE = { whole: 0, fontSize: 16, rootFontSize: 16 };

export interface RootSize {
  /** From the root's user units to mm when the page is physical, else to px. */
  readonly toDrawing: Matrix;
  readonly viewport: ViewportSize;
  /** With the shapes known: the true size, and what they still have to be scaled by. */
  settle(shapes: readonly DrawnShape[]): SettledSize;
}

export interface SettledSize {
  readonly size: PhysicalSize;
  readonly scale: number;
  /** The page from 0, 0 in final drawing units; null when the file has none. */
  readonly page: ViewportSize | null;
}

/**
 * The drawing's true size, from what its root says and what the user says; never guessed.
 *
 * A width or height in mm, cm, in, pt, pc or Q is physical. px and bare numbers are not: the standard says 96 to the inch, but
 * drawing programs write files at 72 and others, so they leave the size open (in px), as a viewBox alone does. A user's width
 * always decides; a user's units to the inch decide where the file leaves it open.
 */
export function rootSize(root: XmlNode, options: ReadOptions, complaints: ComplaintList): RootSize {
  const view = parseViewBox(root.attributes.viewBox);
  if (view === null && root.attributes.viewBox !== undefined) {
    complaints.add('bad-viewbox', 'warning', `viewBox '${root.attributes.viewBox.slice(0, 40)}' cannot be read`, 'svg');
  }
  for (const side of ['width', 'height'] as const) {
    const text = root.attributes[side];
    if (text === undefined || text.trim() === 'auto' || text.trim().endsWith('%') || sideOf(text) !== null) continue;
    complaints.add(
      'bad-length',
      'warning',
      `the drawing's ${side} '${text.slice(0, 24)}' is no length and is not used`,
      'svg',
    );
  }
  const page = pageOf(root, view);
  const { preserveAspectRatio } = root.attributes;
  const viewport = view ?? page.viewport ?? { width: 100, height: 100 };
  const toDrawing =
    view === null || page.size === null
      ? unitMatrix(page)
      : viewportMatrix(view, { x: 0, y: 0, ...page.size }, preserveAspectRatio);
  return {
    toDrawing,
    viewport,
    settle: (shapes) => settle(page, shapes, options, complaints),
  };
}

interface Page {
  /** The outermost viewport: in mm when the page is physical, else in CSS px; null when only the shapes tell. */
  readonly size: ViewportSize | null;
  /** The same in CSS px. */
  readonly viewport: ViewportSize | null;
  /** Does a physical unit stand behind it? */
  readonly isPhysical: boolean;
}

/** Without a viewBox a user unit is a px. */
function unitMatrix(page: Page): Matrix {
  return page.isPhysical ? { ...IDENTITY, a: MM_PER_INCH / PX_PER_INCH, d: MM_PER_INCH / PX_PER_INCH } : IDENTITY;
}

function pageOf(root: XmlNode, view: ViewBox | null): Page {
  const width = sideOf(root.attributes.width);
  const height = sideOf(root.attributes.height);
  const isPhysical = [width, height].some((side) => side !== null && isPhysicalUnit(side.unit));
  // mm straight from the unit: a detour over px would blur round figures.
  const measured = (side: Length | null) => side && (isPhysical ? lengthToMm(side) : lengthToPx(side, ROOT_BASE));
  const aspect = view === null ? null : view.width / view.height;
  const size = whole(measured(width), measured(height), aspect) ?? (view && !isPhysical ? view : null);
  const px = (side: Length | null) => side && lengthToPx(side, ROOT_BASE);
  const viewport = whole(px(width), px(height), aspect);
  return {
    size: size && { width: size.width, height: size.height },
    viewport,
    isPhysical: isPhysical && size !== null,
  };
}

/** A missing side follows from the viewBox's proportions. */
function whole(width: number | null, height: number | null, aspect: number | null): ViewportSize | null {
  if (width !== null && height !== null) return { width, height };
  if (aspect === null) return null;
  if (width !== null) return { width, height: width / aspect };
  return height === null ? null : { width: height * aspect, height };
}

/** A side that says something: positive, and not relative to a window. */
function sideOf(text: string | undefined): Length | null {
  const length = text === undefined ? null : parseLength(text);
  if (length === null || length.value <= 0 || length.unit === '%') return null;
  return lengthToPx(length, ROOT_BASE) === null ? null : length;
}

function settle(
  page: Page,
  shapes: readonly DrawnShape[],
  options: ReadOptions,
  complaints: ComplaintList,
): SettledSize {
  const drawn = page.size ?? extentOf(shapes);
  const sized = (scale: number) => ({ widthMm: drawn.width * scale, heightMm: drawn.height * scale });
  const settled = (size: PhysicalSize, scale: number): SettledSize => ({
    size,
    scale,
    page: page.size && { width: page.size.width * scale, height: page.size.height * scale },
  });
  const { widthMm, perInch } = options;
  if (widthMm !== undefined && drawn.width > 0) {
    const scale = widthMm / drawn.width;
    return settled({ kind: 'known', ...sized(scale), widthMm, source: 'user' }, scale);
  }
  if (page.isPhysical) {
    if (perInch !== undefined) {
      const message =
        'the file states its size in a physical unit, so units to the inch are not used; give a width to override it';
      complaints.add('size-option-unused', 'note', message, 'svg');
    }
    return settled({ kind: 'known', ...sized(1), source: 'file' }, 1);
  }
  if (perInch !== undefined) {
    const scale = MM_PER_INCH / perInch;
    return settled({ kind: 'known', ...sized(scale), source: 'user' }, scale);
  }
  const choices = CUSTOMARY_PER_INCH.map((count) => ({ perInch: count, ...sized(MM_PER_INCH / count) }));
  return settled({ kind: 'open', choices }, 1);
}

/** Width and height of everything drawn, from the shapes alone. */
function extentOf(shapes: readonly DrawnShape[]): ViewportSize {
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { contours } of shapes) {
    for (const contour of contours) {
      const bounds = contourBounds(contour);
      minX = Math.min(minX, bounds.minX);
      minY = Math.min(minY, bounds.minY);
      maxX = Math.max(maxX, bounds.maxX);
      maxY = Math.max(maxY, bounds.maxY);
    }
  }
  return minX > maxX ? { width: 0, height: 0 } : { width: maxX - minX, height: maxY - minY };
}
