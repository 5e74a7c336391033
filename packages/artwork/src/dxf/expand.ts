import { transformContour } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import { GeometryError } from '@underlap/geometry/error';
import { apply, IDENTITY, type Matrix, multiply } from '@underlap/geometry/matrix';
import type { Point } from '@underlap/geometry/point';
import type { Colour } from '../drawing.ts';
import { ArtworkError } from '../error.ts';
import { indexedColour } from '../indexed-colour.ts';
import { nameKey } from './document.ts';
import {
  type Block,
  type DxfDocument,
  type Entity,
  type EntityColour,
  type InsertEntity,
  type LayerState,
  type TextEntity,
  wordsFor,
} from './entity.ts';
import { PlacedCurves } from './placed-curves.ts';
import type { TextReading } from './text-entities.ts';

/** Most curve segments, and most inserted blocks (each cell of an array counts), that a drawing may unfold to. */
const MAX_SEGMENTS = 2_000_000;
const MAX_INSERTS = 100_000;

/** Most texts, each of which may come with every block. */
const MAX_TEXTS = 20_000;

const TEXT_WITHOUT_FONT =
  'text has no outlines without its font, so it is left out: give the font file, or convert it to outlines (polylines) in the drawing program first';

/** Deepest nesting of blocks; hand-made drawings stay below 6. */
const MAX_DEPTH = 32;

export interface ExpansionNote {
  readonly code: string;
  readonly severity: 'error' | 'warning' | 'note';
  readonly message: string;
  readonly element: string;
  readonly at: Point | null;
}

/** A text with all that its blocks and layers decide. */
export interface PlacedText extends TextReading {
  readonly type: string;
  readonly handle: string | null;
  readonly layer: string;
  readonly colour: Colour;
  /** Words that lead a person to it. */
  readonly element: string;
}

export interface Expansion {
  /** In model coordinates: y up, drawing units. */
  readonly curves: PlacedCurves;
  readonly texts: readonly PlacedText[];
  readonly notes: readonly ExpansionNote[];
}

/** What an entity inherits from the block insert that brings it in. */
interface Context {
  readonly matrix: Matrix;
  readonly layer: string | null;
  readonly colour: Colour;
  readonly blocks: readonly string[];
  readonly name: string | null;
}

const MODEL: Context = { matrix: IDENTITY, layer: null, colour: indexedColour(7), blocks: [], name: null };

/**
 * Unfolds all inserted blocks and settles layers and colours; curves on layers that are off or frozen are left out and
 * counted in a note.
 * @throws ArtworkError `too-large` when blocks within blocks multiply beyond two million segments or 100,000 inserts.
 * @remarks O(what is drawn); bounded for any input.
 */
export function expandDocument(document: DxfDocument, file: string): Expansion {
  return new Expander(document, file).run();
}

class Expander {
  readonly #document: DxfDocument;
  readonly #file: string;
  readonly #curves = new PlacedCurves();
  readonly #texts: PlacedText[] = [];
  readonly #notes: ExpansionNote[] = [];
  readonly #hidden = new Map<string, { layer: string; count: number; state: string }>();
  readonly #states = new Map<string, LayerState | null>();
  #segments = 0;
  #inserts = 0;

  constructor(document: DxfDocument, file: string) {
    this.#document = document;
    this.#file = file;
  }

  run(): Expansion {
    for (const entity of this.#document.entities) this.#place(entity, MODEL);
    for (const { layer, count, state } of this.#hidden.values()) {
      const message = `the layer is ${state}, so its ${count} ${count === 1 ? 'object is' : 'objects are'} left out: switch it on if they are meant`;
      this.#notes.push({ code: 'hidden', severity: 'note', message, element: `layer ${layer}`, at: null });
    }
    return { curves: this.#curves, texts: this.#texts, notes: this.#notes };
  }

  #place(entity: Entity, context: Context): void {
    // Layer 0 inside a block means 'the layer of the insert'.
    const layer = entity.layer === '0' && context.layer !== null ? context.layer : entity.layer;
    const state = this.#layerState(layer);
    if (state?.isFrozen || (state?.isOff && entity.kind !== 'insert')) {
      const key = nameKey(layer);
      const entry = this.#hidden.get(key) ?? { layer, count: 0, state: state.isFrozen ? 'frozen' : 'switched off' };
      entry.count++;
      this.#hidden.set(key, entry);
      return;
    }
    if (entity.kind === 'skipped') {
      // What a block says of its attributes is never seen; the attributes themselves come with the insert.
      if (entity.type === 'ATTDEF' && context.blocks.length > 0) return;
      const at = entity.at && apply(context.matrix, entity.at);
      this.#note(entity.code, entity.severity, entity.message, elementOf(entity, context), at);
      return;
    }
    const colour = this.#colour(entity.colour, layer, context);
    if (entity.kind === 'insert') {
      this.#insert(entity, { ...context, layer, colour }, elementOf(entity, context));
      return;
    }
    if (entity.kind === 'text') {
      this.#text(entity, layer, colour, context);
      return;
    }
    const { contour, type, handle, line, warning, area } = entity;
    if (warning !== null) {
      const element = elementOf(entity, context);
      this.#note(warning.code, 'warning', warning.message, element, apply(context.matrix, contour.start));
    }
    const placed = this.#transformed(contour, context.matrix, entity, context);
    if (placed === null) return;
    this.#segments += contour.segments.length;
    if (this.#segments > MAX_SEGMENTS) {
      throw this.#tooLarge(`more than ${MAX_SEGMENTS} segments`, elementOf(entity, context));
    }
    this.#curves.add({ contour: placed, type, layer, colour, block: context.name, handle, line, area });
  }

  /** Told as missing: what is made of it with a font is told by whoever makes it. */
  #text(entity: TextEntity, layer: string, colour: Colour, context: Context): void {
    if (this.#texts.length >= MAX_TEXTS)
      throw this.#tooLarge(`more than ${MAX_TEXTS} texts`, elementOf(entity, context));
    const { type, handle, runs, name, warning } = entity;
    const matrix = multiply(context.matrix, entity.matrix);
    const element = elementOf(entity, context);
    const at = { x: matrix.e, y: matrix.f };
    this.#texts.push({ type, handle, runs, name, warning, matrix, layer, colour, element });
    this.#note('text', 'warning', TEXT_WITHOUT_FONT, element, at);
    if (warning !== null) this.#note('text-layout', 'warning', warning, element, at);
  }

  /** By the name as written, so that its key is made once and not for every entity. */
  #layerState(layer: string): LayerState | null {
    let state = this.#states.get(layer);
    if (state === undefined) {
      state = this.#document.layers.get(nameKey(layer)) ?? null;
      this.#states.set(layer, state);
    }
    return state;
  }

  #insert(entity: InsertEntity, inherited: Context, element: string): void {
    const block = this.#document.blocks.get(nameKey(entity.block));
    if (block === undefined) {
      const message = `it refers to the block '${entity.block.slice(0, 40)}', which is not in the file`;
      this.#note('missing-reference', 'warning', message, element, apply(inherited.matrix, originOf(entity)));
      return;
    }
    const key = nameKey(entity.block);
    if (inherited.blocks.includes(key) || inherited.blocks.length >= MAX_DEPTH) {
      const message = inherited.blocks.includes(key)
        ? `it inserts the block '${entity.block.slice(0, 40)}' into itself and is left out`
        : `blocks are nested more than ${MAX_DEPTH} deep here; the rest is left out`;
      this.#note('circular-reference', 'warning', message, element, apply(inherited.matrix, originOf(entity)));
      return;
    }
    // Blocks without a name of their own (*U3, *D12) stand for arrays and the like: the name above says more.
    const name = entity.block.startsWith('*') ? inherited.name : block.name;
    const blocks = [...inherited.blocks, key];
    for (let row = 0; row < entity.rows; row++) {
      for (let column = 0; column < entity.columns; column++) {
        if (++this.#inserts > MAX_INSERTS) throw this.#tooLarge(`more than ${MAX_INSERTS} inserted blocks`, element);
        const matrix = multiply(inherited.matrix, cellMatrix(entity, block, row, column));
        const context = { ...inherited, matrix, blocks, name };
        for (const inner of block.entities) this.#place(inner, context);
      }
    }
  }

  #transformed(contour: Contour, matrix: Matrix, entity: Entity, context: Context): Contour | null {
    if (matrix === IDENTITY) return contour;
    try {
      return transformContour(contour, matrix);
    } catch (fault) {
      if (!(fault instanceof GeometryError)) throw fault;
      const message =
        'its block is inserted so that it is flattened to nothing or leaves all bounds, so it is left out';
      this.#note('bad-transform', 'error', message, elementOf(entity, context), null);
      return null;
    }
  }

  #colour(colour: EntityColour, layer: string, context: Context): Colour {
    switch (colour.kind) {
      case 'true':
        return `#${colour.rgb.toString(16).padStart(6, '0')}`;
      case 'index':
        return indexedColour(colour.index);
      case 'block':
        return context.colour;
      case 'layer': {
        const own = this.#layerState(layer)?.colour;
        return own === undefined || own.kind === 'layer' || own.kind === 'block'
          ? indexedColour(7)
          : this.#colour(own, layer, context);
      }
    }
  }

  #note(code: string, severity: ExpansionNote['severity'], message: string, element: string, at: Point | null): void {
    this.#notes.push({ code, severity, message, element, at });
  }

  #tooLarge(what: string, element: string): ArtworkError {
    const message = `${this.#file}: ${element} makes the drawing unfold to ${what}: explode and simplify its blocks`;
    return new ArtworkError('too-large', message, element);
  }
}

function elementOf(entity: Entity, { name }: Context): string {
  return name === null ? wordsFor(entity) : `${wordsFor(entity)} in block ${name}`;
}

function originOf({ matrix }: InsertEntity): Point {
  return { x: matrix.e, y: matrix.f };
}

function cellMatrix(entity: InsertEntity, { base }: Block, row: number, column: number): Matrix {
  const { matrix, columnStep, rowStep } = entity;
  const e = matrix.e + column * columnStep.x + row * rowStep.x;
  const f = matrix.f + column * columnStep.y + row * rowStep.y;
  return multiply({ ...matrix, e, f }, { ...IDENTITY, e: -base.x, f: -base.y });
}
