import { type SheetStyle, styleOf } from '@underlap/artwork/process-style';
import type { SheetDrawing, SheetPath } from '@underlap/artwork/sheet-drawing';
import { DXF_FIT_TOLERANCE_MM, layerName, writeSheetDxf } from '@underlap/artwork/write-dxf';
import { writeSheetSvg } from '@underlap/artwork/write-svg';
import type { FORMATS } from './choices.ts';
import type { FoundSheet } from './proof/found-sheet.ts';
import { readDxfSheet } from './proof/read-dxf-sheet.ts';
import { readPdfSheet } from './proof/read-pdf-sheet.ts';
import { readSvgSheet } from './proof/read-svg-sheet.ts';

export type Format = (typeof FORMATS)[number];
export type SheetContent = string | Uint8Array;

/** How one kind of sheet file is written, and how it is read again for its proof. */
export interface SheetFormat {
  /** @throws ArtworkError when it cannot be written. */
  write(drawing: SheetDrawing, style: SheetStyle): SheetContent | Promise<SheetContent>;
  /** By a reader that shares nothing with the writer. @throws Error when it cannot be read. */
  read(content: SheetContent): FoundSheet | Promise<FoundSheet>;
  /** What a path is written under, as the reader tells it. */
  groupOf(path: SheetPath, style: SheetStyle): string;
  /** How far a written outline may be from the meant one, mm. */
  readonly toleranceMm: number;
}

/** What the exact check's own curves are off (0.001 on either side) and a file's last digit, mm. */
const TOLERANCE_MM = 0.004;

/** Every format of `FORMATS`; a further one is its writer, its reader, its name there and an entry here. */
export const SHEET_FORMATS: Readonly<Record<Format, SheetFormat>> = {
  svg: {
    write: writeSheetSvg,
    read: (content) => readSvgSheet(asText(content)),
    groupOf: ({ process }) => process,
    toleranceMm: TOLERANCE_MM,
  },
  dxf: {
    write: writeSheetDxf,
    read: (content) => readDxfSheet(asText(content)),
    groupOf: (path, style) => layerName(styleOf(path, style).layer),
    // arcs stand for Beziers and ellipses
    toleranceMm: TOLERANCE_MM + 2 * DXF_FIT_TOLERANCE_MM,
  },
  pdf: {
    // Loaded when asked for: the library is large, and most jobs need no PDF.
    write: async (drawing, style) => (await import('@underlap/artwork/write-pdf')).writeSheetPdf(drawing, style),
    read: (content) => readPdfSheet(asBytes(content)),
    groupOf: (path, style) => styleOf(path, style).layer,
    toleranceMm: TOLERANCE_MM,
  },
};

function asText(content: SheetContent): string {
  return typeof content === 'string' ? content : new TextDecoder().decode(content);
}

function asBytes(content: SheetContent): Uint8Array {
  return typeof content === 'string' ? new TextEncoder().encode(content) : content;
}
