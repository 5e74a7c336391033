import type { ContourView } from '@underlap/geometry/curve';
import type { FilledContours } from '@underlap/geometry/cut-contours';
import { IDENTITY, type Matrix, multiply } from '@underlap/geometry/matrix';
import { SegmentPacker } from '@underlap/geometry/packed-segments';
import type { Bounds } from '@underlap/geometry/ring';
import { ComplaintList } from '../complaint-list.ts';
import type { DrawnShape, DrawnText } from '../drawing.ts';
import { ArtworkError } from '../error.ts';
import { harmlessText } from '../harmless-text.ts';
import { CLIP_MESSAGE, type ClipChain, Clipper, clipChain, viewportClip } from './clip.ts';
import { SHAPE_ELEMENTS } from './element-geometry.ts';
import type { IdIndex } from './id-index.ts';
import { givenName, nameOf, wordsFor } from './labels.ts';
import { LengthReader, type ViewportSize } from './lengths.ts';
import { MAX_MEASURED, MAX_MEASURED_DEPTH, MAX_SEGMENTS, MAX_UNFOLDED } from './limits.ts';
import { type Look, lookInClip, lookOf, strokeWidthOf } from './look.ts';
import { opacityOf } from './paint.ts';
import { boundsOfAll, placedGeometry } from './placed-geometry.ts';
import { readText } from './read-text.ts';
import { localReference } from './references.ts';
import { ShapeIds } from './shape-ids.ts';
import { fontSizeOf, ROOT_STYLE, rootFontSizeOf, type Style, type StyleReader } from './style.ts';
import { fullTransform } from './transform.ts';
import { transformOrigin } from './transform-origin.ts';
import { chosenChild, complainOfUndrawable, complainOfUnseen, DEFINITIONS, GROUPS, isChosen } from './undrawable.ts';
import { type UseChain, useIds, useTarget } from './use-chain.ts';
import { parseViewBox, viewportMatrix } from './viewport.ts';
import type { XmlNode } from './xml-tree.ts';

export interface WalkInput {
  readonly file: string;
  readonly root: XmlNode;
  readonly byId: IdIndex;
  readonly styles: StyleReader;
  /** From the root's user units (inside its viewBox) to drawing units. */
  readonly toDrawing: Matrix;
  /** The root's viewport in its user units. */
  readonly viewport: ViewportSize;
  readonly complaints: ComplaintList;
}

/** One element still to be visited, with everything its ancestors hand down. */
interface Visit {
  readonly node: XmlNode;
  readonly matrix: Matrix;
  readonly parentStyle: Style;
  readonly opacity: number;
  readonly viewport: ViewportSize;
  readonly layer: string | null;
  readonly uses: UseChain | null;
  readonly clips: ClipChain | null;
  /** Width and height that a `use` sets on the symbol or svg it shows. */
  readonly override: { readonly width: number | null; readonly height: number | null } | null;
}

/** Elements still to be visited that have all else in common. */
interface Batch {
  readonly nodes: readonly XmlNode[];
  next: number;
  readonly common: Omit<Visit, 'node'>;
}

/** Why a drawing is walked through: to read it, to find the box of a part of it, to learn what a clip lets be seen. */
type Purpose = 'draw' | 'measure' | 'clip';

/** What was drawn aside only to be measured: elements so far, and how deep measuring is nested just now. */
interface Measured {
  count: number;
  depth: number;
}

/**
 * Visit everything that is drawn, in document order, and return its shapes in drawing units.
 * @throws ArtworkError `too-large` when `use` or the paths unfold beyond the limits.
 * @remarks O(elements drawn); an explicit stack, so that depth cannot overflow.
 */
export function walkDrawing(input: WalkInput): { shapes: DrawnShape[]; texts: DrawnText[] } {
  const walker = new Walker(input);
  return { shapes: walker.run(), texts: walker.texts };
}

class Walker {
  private readonly input: WalkInput;
  readonly texts: DrawnText[] = [];
  private readonly shapes: DrawnShape[] = [];
  private readonly pending: Batch[] = [];
  private readonly ids = new ShapeIds();
  private readonly packer = new SegmentPacker();
  /** Shared with the walkers that it starts. */
  private readonly measured: Measured;
  private readonly purpose: Purpose;
  private readonly clipper: Clipper;
  private unfolded = 0;
  private segments = 0;

  /** @param measured - of the walker that this one works aside for. */
  constructor(input: WalkInput, measured: Measured | null = null, purpose: Purpose = 'draw') {
    this.input = input;
    this.measured = measured ?? { count: 0, depth: 0 };
    this.purpose = purpose;
    this.clipper = new Clipper();
  }

  run(): DrawnShape[] {
    const { root, toDrawing, viewport } = this.input;
    const rootVisit = { node: root, matrix: toDrawing, parentStyle: ROOT_STYLE, opacity: 1, viewport, layer: null };
    this.enter({ ...rootVisit, uses: null, clips: null, override: null }, true);
    return this.drain() ?? [];
  }

  /** Visits what is pending; null when too much of the drawing is measured over and over. */
  private drain(): DrawnShape[] | null {
    for (let visit = this.nextVisit(); visit !== null; visit = this.nextVisit()) {
      if (this.purpose !== 'draw' && ++this.measured.count > MAX_MEASURED) return null;
      this.enter(visit, false);
    }
    return this.shapes;
  }

  private nextVisit(): Visit | null {
    for (let batch = this.pending.at(-1); batch !== undefined; batch = this.pending.at(-1)) {
      const node = batch.nodes[batch.next++];
      // Before its last is entered, so that groups within groups do not pile up.
      if (batch.next >= batch.nodes.length) this.pending.pop();
      if (node !== undefined) return visitOf(node, batch.common);
    }
    return null;
  }

  private enter(visit: Visit, isRoot: boolean): void {
    const { node } = visit;
    const { complaints, styles } = this.input;
    if (visit.uses !== null && ++this.unfolded > MAX_UNFOLDED) {
      throw this.tooLarge(`more than ${MAX_UNFOLDED} elements shown again by <use>`, node);
    }
    // A symbol draws nothing where it stands, only where a `use` shows it.
    if (!node.isSvg || DEFINITIONS.has(node.name) || (node.name === 'symbol' && visit.override === null)) return;
    const words = wordsFor(node);
    const style = styles.styleOf(node, visit.parentStyle, (property, value) => {
      complaints.add(
        'bad-style',
        'warning',
        `${property} '${value.slice(0, 40)}' cannot be read and is left out`,
        words,
      );
    });
    if (!isChosen(node)) {
      const message = 'it is meant for another language or program than is read here (English) and is left out';
      complaints.add('language', 'note', message, words);
      return;
    }
    if ((style.own.display ?? '').trim() === 'none') {
      complaints.add('hidden', 'note', 'it is switched off (display: none) and left out', words);
      return;
    }
    if (node.name !== 'text' && complainOfUndrawable(node, complaints, visit.matrix)) return;
    const opacity = visit.opacity * opacityOf(style.own.opacity);
    const matrix = isRoot ? this.rootMatrix(visit, style, words) : this.localMatrix(visit, style, words);
    if (matrix === null) return;
    complainOfUnseen(node, style, complaints, words, this.input.byId);
    const clips = this.clipsOf(visit, style, matrix, words);
    const { parentStyle, viewport, layer, uses, override } = visit;
    const inner = { node, matrix, parentStyle, opacity, viewport, layer, uses, clips, override };
    if (SHAPE_ELEMENTS.has(node.name)) this.draw(inner, style, words);
    else if (node.name === 'text') this.keepText(inner, style, words);
    else if (node.name === 'use') this.unfold(inner, style, words);
    else if (isRoot) this.pushChildren(inner, style, matrix, visit.viewport);
    else if (node.name === 'svg' || node.name === 'symbol') this.enterViewport(inner, style, words);
    else if (GROUPS.has(node.name)) this.pushChildren(inner, style, matrix, visit.viewport);
    else
      complaints.add(
        'unknown-element',
        'note',
        `<${node.name.slice(0, 40)}> is not a drawing element and is left out`,
        words,
      );
  }

  /** The clips of what is around it, and its own in front. */
  private clipsOf(visit: Visit, style: Style, matrix: Matrix, words: string): ClipChain | null {
    const { byId, complaints } = this.input;
    const value = style.own['clip-path'];
    if (value === undefined || value.trim() === 'none' || this.purpose === 'measure') return visit.clips;
    const id = localReference(value);
    const clip = id === null ? undefined : byId.get(id);
    if (id !== null && clip === undefined) return visit.clips;
    // A clip moves with the x and y of a `use`: SVG 1.1, 'The use element', makes them part of its transform.
    const own = visit.node.name === 'use' ? multiply(matrix, useShift(visit.node, style, visit.viewport)) : matrix;
    const members = clip?.name === 'clipPath' ? this.clipMembers(clip, visit, style, own) : null;
    if (members !== null) return clipChain(members, words, visit.clips);
    complaints.add('clip-path', 'warning', CLIP_MESSAGE, words);
    return visit.clips;
  }

  /** What a clipPath lets be seen of an element, in drawing units; null when it cannot be followed. */
  private clipMembers(clip: XmlNode, visit: Visit, style: Style, matrix: Matrix): FilledContours[] | null {
    const { measured, input } = this;
    const told = new ComplaintList();
    const clipStyle = input.styles.styleOf(clip, ROOT_STYLE, () => {});
    const own = fullTransform(clipStyle.own.transform ?? clip.attributes.transform, null);
    const isOwnBox = clip.attributes.clipPathUnits === 'objectBoundingBox';
    const box = isOwnBox ? this.ownBox(visit, style) : null;
    const isClipped = (clipStyle.own['clip-path'] ?? 'none') !== 'none';
    if (own === null || isClipped || (isOwnBox && box === null) || measured.depth >= MAX_MEASURED_DEPTH) return null;
    const units =
      box === null
        ? IDENTITY
        : { ...IDENTITY, a: box.maxX - box.minX, d: box.maxY - box.minY, e: box.minX, f: box.minY };
    const aside = new Walker({ ...input, complaints: told }, measured, 'clip');
    const viewport = box === null ? visit.viewport : { width: 1, height: 1 };
    const inner = { ...visit, node: clip, clips: null, uses: null, opacity: 1 };
    aside.pushChildren(inner, clipStyle, multiply(multiply(matrix, own), units), viewport);
    measured.depth++;
    const shapes = aside.drain();
    measured.depth--;
    const isUnderstood = told.finish().every(({ severity }) => severity === 'note');
    return shapes !== null && isUnderstood ? shapes.map(({ contours, fillRule }) => ({ contours, fillRule })) : null;
  }

  /** SVG 2 lets the outermost svg carry a transform too, outside its viewBox. */
  private rootMatrix(visit: Visit, style: Style, words: string): Matrix | null {
    const own = this.transformOf(visit, style, words);
    return own === null ? null : own === IDENTITY ? visit.matrix : multiply(own, visit.matrix);
  }

  private localMatrix(visit: Visit, style: Style, words: string): Matrix | null {
    const own = this.transformOf(visit, style, words);
    return own === null ? null : own === IDENTITY ? visit.matrix : multiply(visit.matrix, own);
  }

  private transformOf(visit: Visit, style: Style, words: string): Matrix | null {
    const { node } = visit;
    const text = style.own.transform ?? node.attributes.transform;
    const { translate, rotate, scale } = style.own;
    if (style.own['offset-path'] !== undefined && style.own['offset-path'] !== 'none') {
      const message =
        'its offset-path is not followed, so it is read where it stands without it: move it in the drawing program';
      this.input.complaints.add('transform-origin', 'warning', message, words);
    }
    const isMoved = translate !== undefined || rotate !== undefined || scale !== undefined;
    if (text === undefined && !isMoved) return IDENTITY;
    const matrix = fullTransform(text, isMoved ? style.own : null);
    if (matrix === null) {
      const all = [translate, rotate, scale, text].filter((part) => part !== undefined).join(' ');
      const shown = all.slice(0, 60);
      const message = `its transform '${shown}' cannot be read, so it and what it holds are left out: correct it or apply it in the drawing program`;
      this.input.complaints.add('bad-transform', 'error', message, words);
      return null;
    }
    const origin = style.own['transform-origin'];
    if (origin === undefined || matrix === IDENTITY) return matrix;
    const box = this.referenceBox(visit, style);
    const fonts = { fontSize: fontSizeOf(style), rootFontSize: rootFontSizeOf(style) };
    const point = box && transformOrigin(origin, box, fonts);
    if (point === null) {
      const message = `transform-origin '${origin.slice(0, 40)}' is not followed: apply the transform in the drawing program`;
      this.input.complaints.add('transform-origin', 'warning', message, words);
      return matrix;
    }
    const there = { ...IDENTITY, e: point.x, f: point.y };
    return multiply(multiply(there, matrix), { ...IDENTITY, e: -point.x, f: -point.y });
  }

  /**
   * What percentages and keywords of a transform refer to, in the element's own units; null when it cannot be told. Source: CSS
   * Transforms Level 1, 'transform-box': the viewport from 0, 0 unless the element's own box is asked for.
   */
  private referenceBox(visit: Visit, style: Style): Bounds | null {
    const kind = (style.own['transform-box'] ?? 'view-box').trim();
    if (kind === 'view-box') return { minX: 0, minY: 0, maxX: visit.viewport.width, maxY: visit.viewport.height };
    return kind === 'fill-box' || kind === 'content-box' ? this.ownBox(visit, style) : null;
  }

  /** The box of what an element draws, before its own transform: drawn once more, aside and unheard. */
  private ownBox(visit: Visit, style: Style): Bounds | null {
    const { node } = visit;
    if (SHAPE_ELEMENTS.has(node.name)) {
      const told = new ComplaintList();
      const geometry = placedGeometry(node, style, visit.viewport, MAX_SEGMENTS, IDENTITY, '', told);
      return geometry === null ? null : boundsOfAll(geometry.contours);
    }
    if (!GROUPS.has(node.name) || this.measured.depth >= MAX_MEASURED_DEPTH) return null;
    const aside = new Walker({ ...this.input, complaints: new ComplaintList() }, this.measured, 'measure');
    aside.pushChildren({ ...visit, clips: null }, style, IDENTITY, visit.viewport);
    this.measured.depth++;
    const shapes = aside.drain();
    this.measured.depth--;
    return shapes === null ? null : boundsOfAll(shapes.flatMap((shape) => shape.contours));
  }

  private pushChildren(visit: Visit, style: Style, matrix: Matrix, viewport: ViewportSize): void {
    const { node } = visit;
    const layer = groupNameOrNull(node, visit);
    const children = node.name === 'switch' ? chosenChild(node, this.input.complaints) : node.children;
    const { opacity, uses, clips } = visit;
    const common = { matrix, parentStyle: style, opacity, viewport, layer, uses, clips, override: null };
    this.pending.push({ nodes: children, next: 0, common });
  }

  private enterViewport(visit: Visit, style: Style, words: string): void {
    const { node, override } = visit;
    const lengths = new LengthReader(node, style, visit.viewport);
    const isSvg = node.name === 'svg';
    const width = override?.width ?? lengths.read('width', 'x') ?? visit.viewport.width;
    const height = override?.height ?? lengths.read('height', 'y') ?? visit.viewport.height;
    const x = isSvg ? lengths.orZero('x', 'x') : 0;
    const y = isSvg ? lengths.orZero('y', 'y') : 0;
    if (lengths.fault !== null) this.input.complaints.add('bad-length', 'warning', lengths.fault, words);
    if (width <= 0 || height <= 0) {
      this.input.complaints.add('hidden', 'note', 'its viewport has no size, so nothing in it is drawn', words);
      return;
    }
    const view = parseViewBox(node.attributes.viewBox);
    if (view === null && node.attributes.viewBox !== undefined) {
      const message = `its viewBox '${node.attributes.viewBox.slice(0, 40)}' cannot be read and is not used`;
      this.input.complaints.add('bad-viewbox', 'warning', message, words);
    }
    const map =
      view === null
        ? { ...IDENTITY, e: x, f: y }
        : viewportMatrix(view, { x, y, width, height }, node.attributes.preserveAspectRatio);
    const isOpen = ['visible', 'auto'].includes((style.own.overflow ?? 'hidden').trim());
    const clips = isOpen ? visit.clips : viewportClip({ x, y, width, height }, visit.matrix, words, visit.clips);
    this.pushChildren({ ...visit, clips }, style, multiply(visit.matrix, map), view ?? { width, height });
  }

  private unfold(visit: Visit, style: Style, words: string): void {
    const { node } = visit;
    const { complaints, byId } = this.input;
    const found = useTarget(node, visit.uses, byId, complaints, words);
    if (found === null) return;
    const { target, id, depth } = found;
    const lengths = new LengthReader(node, style, visit.viewport);
    const shift = { ...IDENTITY, e: lengths.orZero('x', 'x'), f: lengths.orZero('y', 'y') };
    const override = { width: lengths.read('width', 'x'), height: lengths.read('height', 'y') };
    if (lengths.fault !== null) complaints.add('bad-length', 'warning', lengths.fault, words);
    const isViewport = target.name === 'svg' || target.name === 'symbol';
    const common = {
      matrix: multiply(visit.matrix, shift),
      parentStyle: style,
      opacity: visit.opacity,
      viewport: visit.viewport,
      layer: nameOf(node) === null ? visit.layer : (givenName(node) ?? visit.layer),
      uses: { target, id: node.attributes.id ?? id, depth, style, outer: visit.uses },
      clips: visit.clips,
      override: isViewport ? override : null,
    };
    this.pending.push({ nodes: [target], next: 0, common });
  }

  private draw(visit: Visit, style: Style, words: string): void {
    const { node, matrix } = visit;
    const { complaints, byId } = this.input;
    if (matrix.a * matrix.d - matrix.b * matrix.c === 0) {
      complaints.add('flattened', 'warning', 'a transform flattens it to a line, so it is left out', words);
      return;
    }
    const limit = MAX_SEGMENTS - this.segments;
    const geometry = placedGeometry(node, style, visit.viewport, limit, matrix, words, complaints, this.packer);
    if (geometry === null) return;
    const { contours } = geometry;
    for (const contour of contours) this.segments += contour.segments.length;
    if (this.segments >= MAX_SEGMENTS) throw this.tooLarge(`more than ${MAX_SEGMENTS} path segments`, node);
    if (geometry.fault !== null) {
      const at = contours.at(-1)?.segments.at(-1)?.to ?? null;
      const kept = contours.length > 0 ? 'what comes before it is kept' : 'nothing of it could be kept';
      complaints.add(
        'broken-shape',
        'warning',
        `${geometry.fault}; ${kept}: check it in the drawing program`,
        words,
        at,
      );
    }
    if (contours.length === 0) {
      if (geometry.fault === null) complaints.add('nothing-drawn', 'note', 'it has no extent and is left out', words);
      return;
    }
    const strokeWidth = strokeWidthOf(style, visit.viewport, matrix, this.input.toDrawing);
    const { opacity, uses } = visit;
    const look =
      this.purpose === 'clip'
        ? lookInClip(contours, style)
        : lookOf({ contours, style, opacity, uses, strokeWidth, words }, byId, complaints);
    const left = look && this.clipped(contours, look, visit.clips, words);
    if (left === null) return;
    this.shapes.push({
      id: this.ids.next(node, useIds(uses)),
      name: givenName(node) ?? useName(visit),
      layer: visit.layer,
      ...left,
      place: { element: words, at: left.contours[0]!.start },
    });
  }

  /** What the clips leave of a shape; null when that is nothing. */
  private clipped(
    contours: readonly ContourView[],
    look: Look,
    clips: ClipChain | null,
    words: string,
  ): (Look & { readonly contours: readonly ContourView[] }) | null {
    const { complaints } = this.input;
    const at = contours[0]!.start;
    const left = this.clipper.cut({ contours, fillRule: look.fillRule }, look.fill !== null, clips);
    if (left.kind === 'whole') return { ...look, contours };
    if (left.kind === 'failed') {
      complaints.add('clip-path', 'warning', `${CLIP_MESSAGE} (clipped by ${left.by})`, words, at);
      return { ...look, contours };
    }
    if (left.contours.length === 0) {
      const message = `nothing of it is seen within its clip (${left.by}), so it is left out`;
      complaints.add('hidden', 'note', message, words, at);
      return null;
    }
    complaints.add('clipped', 'note', `it is cut to what is seen within its clip (${left.by})`, words, at);
    return { ...look, fillRule: 'nonzero', contours: left.contours };
  }

  private keepText(visit: Visit, style: Style, words: string): void {
    const { node, matrix, viewport, opacity, uses } = visit;
    const strokeWidth = strokeWidthOf(style, viewport, matrix, this.input.toDrawing);
    const text = readText({ node, style, matrix, viewport, opacity, uses, strokeWidth, words }, this.input);
    if (text === null || this.purpose === 'clip') return;
    this.texts.push({
      id: this.ids.next(node, useIds(uses)),
      name: givenName(node) ?? useName(visit),
      layer: visit.layer,
      ...text,
      after: this.shapes.at(-1)?.id ?? null,
    });
  }

  private tooLarge(what: string, node: XmlNode): ArtworkError {
    return new ArtworkError('too-large', `${this.input.file} has ${what}: simplify the drawing`, wordsFor(node));
  }
}

/** Written out: the engine keeps spread objects for long, and a drawing has a hundred thousand of these. */
function visitOf(node: XmlNode, common: Omit<Visit, 'node'>): Visit {
  const { matrix, parentStyle, opacity, viewport, layer, uses, clips, override } = common;
  return { node, matrix, parentStyle, opacity, viewport, layer, uses, clips, override };
}

/** Where a `use` puts what it shows. */
function useShift(node: XmlNode, style: Style, viewport: ViewportSize): Matrix {
  const lengths = new LengthReader(node, style, viewport);
  return { ...IDENTITY, e: lengths.orZero('x', 'x'), f: lengths.orZero('y', 'y') };
}

function groupNameOrNull(node: XmlNode, visit: Visit): string | null {
  return node.parent === null ? visit.layer : (givenName(node) ?? visit.layer);
}

/** A shape without a name of its own that a named `use` shows takes that name. */
function useName(visit: Visit): string | null {
  return visit.uses === null ? null : visit.uses.target === visit.node ? harmlessText(visit.uses.id) : null;
}
