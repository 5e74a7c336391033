import { IDENTITY, type Matrix } from '@underlap/geometry/matrix';
import { harmlessText } from '../harmless-text.ts';
import type { ClipChain } from './clip.ts';
import { givenName } from './labels.ts';
import { LengthReader, type ViewportSize } from './lengths.ts';
import type { Style } from './style.ts';
import type { UseChain } from './use-chain.ts';
import type { XmlNode } from './xml-tree.ts';

/** One element still to be visited, with everything its ancestors hand down. */
export interface Visit {
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
export interface Batch {
  readonly nodes: readonly XmlNode[];
  next: number;
  readonly common: Omit<Visit, 'node'>;
}

/** Written out: the engine keeps spread objects for long, and a drawing has a hundred thousand of these. */
export function visitOf(node: XmlNode, common: Omit<Visit, 'node'>): Visit {
  const { matrix, parentStyle, opacity, viewport, layer, uses, clips, override } = common;
  return { node, matrix, parentStyle, opacity, viewport, layer, uses, clips, override };
}

/** Where a `use` puts what it shows. */
export function useShift(node: XmlNode, style: Style, viewport: ViewportSize): Matrix {
  const lengths = new LengthReader(node, style, viewport);
  return { ...IDENTITY, e: lengths.orZero('x', 'x'), f: lengths.orZero('y', 'y') };
}

/** The layer of what a group holds. */
export function layerBelow(node: XmlNode, visit: Visit): string | null {
  return node.parent === null ? visit.layer : (givenName(node) ?? visit.layer);
}

/** A shape without a name of its own that a named `use` shows takes that name. */
export function useName(visit: Visit): string | null {
  return visit.uses === null ? null : visit.uses.target === visit.node ? harmlessText(visit.uses.id) : null;
}
