import type { Contour } from '@underlap/geometry/curve';
import type { Matrix } from '@underlap/geometry/matrix';
import type { Point } from '@underlap/geometry/point';
import { flatText } from '../flat-text.ts';
import type { TextReading } from './text-entities.ts';

/** What every entity says of itself, in block or model coordinates (y up, drawing units). */
export interface EntityHead {
  /** LINE, ARC, INSERT, ... */
  readonly type: string;
  readonly layer: string;
  readonly colour: EntityColour;
  readonly handle: string | null;
  /** Line of the file where it begins. */
  readonly line: number;
}

/** Words that find the entity again: type, handle, line of the file. */
export function wordsFor({ type, handle, line }: Pick<EntityHead, 'type' | 'handle' | 'line'>): string {
  return handle === null ? flatText(type, ', line ', line) : flatText(type, ' ', handle, ', line ', line);
}

/** A colour number 1..255, a true colour, or one that comes from the layer or the inserted block. */
export type EntityColour =
  | { readonly kind: 'layer' }
  | { readonly kind: 'block' }
  | { readonly kind: 'index'; readonly index: number }
  | { readonly kind: 'true'; readonly rgb: number };

export type AreaLoop = 'none' | 'first' | 'further';

/** Something drawn: one exact curve. */
export interface CurveEntity extends EntityHead {
  readonly kind: 'curve';
  readonly contour: Contour;
  /** Does it bound a filled area, and is it the area's first loop or a further one of the curve before it? */
  readonly area: AreaLoop;
  /** Told although the curve is used; null when all is well. */
  readonly warning: { readonly code: string; readonly message: string } | null;
}

/** Words, which become letters with a font. */
export interface TextEntity extends EntityHead, TextReading {
  readonly kind: 'text';
}

/** A block put somewhere, once or in rows and columns. */
export interface InsertEntity extends EntityHead {
  readonly kind: 'insert';
  readonly block: string;
  /** Block coordinates less its base point -> where the insert stands, one for each row and column on demand. */
  readonly matrix: Matrix;
  readonly columns: number;
  readonly rows: number;
  /** Steps between columns and rows, in the coordinates the insert stands in. */
  readonly columnStep: Point;
  readonly rowStep: Point;
}

/** Something that cannot be cut or that cannot be read; told, never dropped silently. */
export interface SkippedEntity extends EntityHead {
  readonly kind: 'skipped';
  readonly code: string;
  readonly message: string;
  readonly severity: 'error' | 'warning' | 'note';
  readonly at: Point | null;
}

export type Entity = CurveEntity | TextEntity | InsertEntity | SkippedEntity;

export interface Block {
  readonly name: string;
  readonly base: Point;
  readonly entities: readonly Entity[];
}

export interface LayerState {
  readonly colour: EntityColour;
  readonly isOff: boolean;
  readonly isFrozen: boolean;
}

/** A DXF file as far as it concerns a flat drawing. */
export interface DxfDocument {
  /** $INSUNITS; null when the file has none. */
  readonly insUnits: number | null;
  /** $MEASUREMENT: 0 imperial, 1 metric; null when the file has none. */
  readonly measurement: number | null;
  readonly layers: ReadonlyMap<string, LayerState>;
  readonly blocks: ReadonlyMap<string, Block>;
  /** Read from the text anew at every pass, so that none is held. */
  readonly entities: Iterable<Entity>;
  /** Line where reading stopped because the pairs of lines broke off; null when the file is whole. */
  readonly brokenAt: number | null;
  /** The file ends without EOF: something may be missing. */
  readonly isTruncated: boolean;
}
