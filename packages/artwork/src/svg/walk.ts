import type { FilledContours } from '@underlap/geometry/cut-contours';
import { IDENTITY, type Matrix, multiply } from '@underlap/geometry/matrix';
import { SegmentPacker } from '@underlap/geometry/packed-segments';
import type { Bounds } from '@underlap/geometry/ring';
import { ComplaintList } from '../complaint-list.ts';
import type { DrawnShape, DrawnText } from '../drawing.ts';
import { ArtworkError } from '../error.ts';
import { CLIP_MESSAGE, type ClipChain, Clipper, clipChain } from './clip.ts';
import { SHAPE_ELEMENTS } from './element-geometry.ts';
import { elementTransform } from './element-transform.ts';
import type { IdIndex } from './id-index.ts';
import { innerViewport } from './inner-viewport.ts';
import { givenName, nameOf, wordsFor } from './labels.ts';
import { LengthReader, type ViewportSize } from './lengths.ts';
import { MAX_MEASURED, MAX_MEASURED_DEPTH, MAX_SEGMENTS, MAX_UNFOLDED } from './limits.ts';
import { lookInClip, lookOf, strokeWidthOf } from './look.ts';
import { opacityOf } from './paint.ts';
import { boundsOfAll, placedGeometry } from './placed-geometry.ts';
import { readText } from './read-text.ts';
import { localReference } from './references.ts';
import { seenWithin } from './seen-within.ts';
import { ShapeIds } from './shape-ids.ts';
import { ROOT_STYLE, type Style, type StyleReader } from './style.ts';
import { fullTransform } from './transform.ts';
import { chosenChild, complainOfUndrawable, complainOfUnseen, DEFINITIONS, GROUPS, isChosen } from './undrawable.ts';
import { useIds, useTarget } from './use-chain.ts';
import { type Batch, layerBelow, useName, useShift, type Visit, visitOf } from './visit.ts';
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
    return elementTransform(visit, style, words, this.input.complaints, () => this.ownBox(visit, style));
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
    const layer = layerBelow(node, visit);
    const children = node.name === 'switch' ? chosenChild(node, this.input.complaints) : node.children;
    const { opacity, uses, clips } = visit;
    const common = { matrix, parentStyle: style, opacity, viewport, layer, uses, clips, override: null };
    this.pending.push({ nodes: children, next: 0, common });
  }

  private enterViewport(visit: Visit, style: Style, words: string): void {
    const inner = innerViewport(visit, style, words, this.input.complaints);
    if (inner !== null) this.pushChildren({ ...visit, clips: inner.clips }, style, inner.matrix, inner.viewport);
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
    const left = look && seenWithin(this.clipper, contours, look, visit.clips, words, complaints);
    if (left === null) return;
    this.shapes.push({
      id: this.ids.next(node, useIds(uses)),
      name: givenName(node) ?? useName(visit),
      layer: visit.layer,
      ...left,
      place: { element: words, at: left.contours[0]!.start },
    });
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
