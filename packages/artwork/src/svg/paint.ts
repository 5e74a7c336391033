import { parseColour } from '../colour.ts';
import type { Colour } from '../drawing.ts';
import { plainNumber } from './calculated.ts';
import type { IdIndex } from './id-index.ts';
import { hrefOf, localReference } from './references.ts';
import type { Style } from './style.ts';
import type { UseChain } from './use-chain.ts';
import type { XmlNode } from './xml-tree.ts';

/** Painted where a pattern, which has no one colour, is asked for. */
const STAND_IN: Colour = '#808080';

export interface Paint {
  /** Null when nothing is painted. */
  readonly colour: Colour | null;
  /** Kind of paint server that one colour stands in for, or null. */
  readonly replaced: string | null;
  /** 1 hides what lies below, 0 is not seen. */
  readonly strength: number;
}

export const NO_PAINT: Paint = { colour: null, replaced: null, strength: 0 };

/**
 * What `fill` or `stroke` paints, in one plain colour.
 * @param uses - the `use` elements that show it: their paints are what `context-fill` and `context-stroke` mean (SVG 2, 'Context
 * paint'; nothing is painted where there is none).
 */
export function resolvePaint(
  property: 'fill' | 'stroke',
  style: Style,
  byId: IdIndex,
  opacity: number,
  uses: UseChain | null,
): Paint {
  const value = (style.inherited[property] ?? (property === 'fill' ? '#000000' : 'none')).trim();
  const strength = opacity * opacityOf(style.inherited[`${property}-opacity`]);
  if (strength <= 0) return NO_PAINT;
  const word = value.toLowerCase();
  if (word === 'none') return NO_PAINT;
  if (word === 'currentcolor') return plain(style.inherited.color ?? '#000000', strength);
  if (word === 'context-fill' || word === 'context-stroke') {
    const meant = word === 'context-fill' ? 'fill' : 'stroke';
    return uses === null ? NO_PAINT : resolvePaint(meant, uses.style, byId, strength, uses.outer);
  }
  if (word.startsWith('url(')) return served(value, style, byId, strength);
  return plain(value, strength);
}

/** A number or percentage from 0 to 1; 1 when it is missing or wrong. */
export function opacityOf(text: string | undefined): number {
  if (text === undefined) return 1;
  const value = text.trim().endsWith('%') ? Number.parseFloat(text) / 100 : (plainNumber(text) ?? Number.NaN);
  return Number.isFinite(value) ? Math.min(1, Math.max(0, value)) : 1;
}

function plain(text: string, strength: number): Paint {
  const read = parseColour(text);
  if (read === null || read.alpha === 0) return NO_PAINT;
  return { colour: read.colour, replaced: null, strength: strength * read.alpha };
}

function served(value: string, style: Style, byId: IdIndex, strength: number): Paint {
  const id = localReference(value);
  const server = id === null ? undefined : byId.get(id);
  if (server === undefined) {
    const fallback = value.slice(value.indexOf(')') + 1).trim();
    if (fallback.toLowerCase() === 'currentcolor') return plain(style.inherited.color ?? '#000000', strength);
    return fallback === '' || fallback === 'none' ? NO_PAINT : plain(fallback, strength);
  }
  if (server.name === 'pattern') return { colour: STAND_IN, replaced: 'pattern', strength };
  if (!server.name.endsWith('Gradient')) return NO_PAINT;
  return { colour: firstStop(server, byId) ?? STAND_IN, replaced: 'gradient', strength };
}

/** A gradient's first stop, looked for along its references too (at most a few, so that circles end). */
function firstStop(gradient: XmlNode, byId: IdIndex): Colour | null {
  let at: XmlNode | undefined = gradient;
  for (let hops = 0; at !== undefined && hops < 8; hops++) {
    const stop = at.children.find((child) => child.name === 'stop');
    if (stop !== undefined) {
      const text = /stop-color\s*:\s*([^;]+)/.exec(stop.attributes.style ?? '')?.[1] ?? stop.attributes['stop-color'];
      return text === undefined ? '#000000' : (parseColour(text)?.colour ?? null);
    }
    const href = hrefOf(at);
    const id = href === null ? null : localReference(href);
    at = id === null ? undefined : byId.get(id);
  }
  return null;
}
