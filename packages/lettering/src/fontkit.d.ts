/** The small part of fontkit that is used; its own types cover Node's buffers only. */
declare module 'fontkit' {
  export interface PathCommand {
    readonly command: 'moveTo' | 'lineTo' | 'quadraticCurveTo' | 'bezierCurveTo' | 'closePath';
    readonly args: readonly number[];
  }
  export interface Glyph {
    readonly id: number;
    readonly codePoints: readonly number[];
    readonly isMark: boolean;
    readonly path: { readonly commands: readonly PathCommand[] };
  }
  export interface GlyphPosition {
    readonly xAdvance: number;
    readonly xOffset: number;
    readonly yOffset: number;
  }
  export interface GlyphRun {
    readonly glyphs: readonly Glyph[];
    readonly positions: readonly GlyphPosition[];
  }
  export interface Font {
    readonly familyName: string | null;
    readonly subfamilyName: string | null;
    readonly unitsPerEm: number;
    readonly ascent: number;
    readonly descent: number;
    readonly copyright: string | null;
    layout(
      text: string,
      features: Readonly<Record<string, boolean>> | undefined,
      script: string | undefined,
      language: string | undefined,
      direction: 'ltr' | 'rtl',
    ): GlyphRun;
    hasGlyphForCodePoint(codePoint: number): boolean;
  }
  export interface FontCollection {
    readonly fonts: readonly Font[];
  }
  export function create(bytes: Uint8Array): Font | FontCollection;
}
