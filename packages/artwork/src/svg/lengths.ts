import { lengthInPx } from './calculated.ts';
import { fontSizeOf, rootFontSizeOf, type Style } from './style.ts';
import type { XmlNode } from './xml-tree.ts';

/** Size of the nearest viewport in user units: what percentages refer to. */
export interface ViewportSize {
  readonly width: number;
  readonly height: number;
}

export type Axis = 'x' | 'y' | 'both';

/** User units of a length as written; null when it cannot be read. */
export function userLength(text: string, axis: Axis, style: Style, viewport: ViewportSize): number | null {
  const { width, height } = viewport;
  // SVG 2, 'Units': the diagonal over the root of two where no axis is meant.
  const whole = axis === 'x' ? width : axis === 'y' ? height : Math.hypot(width, height) / Math.SQRT2;
  return lengthInPx(text, { whole, fontSize: fontSizeOf(style), rootFontSize: rootFontSizeOf(style) });
}

/** Reads lengths of one element in user units, from its attributes or from a sheet. */
export class LengthReader {
  /** The first length that could not be read, in words. */
  fault: string | null = null;
  private readonly node: XmlNode;
  private readonly style: Style;
  private readonly viewport: ViewportSize;

  constructor(node: XmlNode, style: Style, viewport: ViewportSize) {
    this.node = node;
    this.style = style;
    this.viewport = viewport;
  }

  /** Null when it is not given, `auto`, or cannot be read (then `fault` says so). */
  read(name: string, axis: Axis): number | null {
    const text = this.style.own[name] ?? this.node.attributes[name];
    if (text === undefined || text.trim() === '' || text.trim() === 'auto') return null;
    const px = userLength(text, axis, this.style, this.viewport);
    if (px === null) this.fault ??= `'${text.slice(0, 24)}' is no length for ${name}`;
    return px;
  }

  orZero(name: string, axis: Axis): number {
    return this.read(name, axis) ?? 0;
  }
}
