import type { Contour, Segment } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import type { FoundOutline, FoundSheet } from './found-sheet.ts';

/** 72 points to the inch (ISO 32000-1, 8.3.2.3). */
const MM_PER_POINT = 25.4 / 72;

/** Operators that change nothing about where lines run: width, cap, colours. */
const LOOKS: ReadonlySet<string> = new Set(['w', 'J', 'j', 'M', 'd', 'RG', 'rg', 'G', 'g', 'K', 'k', 'q', 'Q']);
const PAINTS: ReadonlySet<string> = new Set(['S', 's', 'f', 'F', 'f*', 'B', 'B*', 'b', 'b*']);

/**
 * Read a written PDF sheet: pdf-lib opens the container and unpacks the page's content; the operators are interpreted here
 * (ISO 32000-1, 8.5 paths, 14.6 marked content), independently of how they were written. A whole PDF renderer would do the same
 * at ten times the size of the page.
 * @throws Error when there is not one page, or the content holds an operator that sheets never hold.
 */
export async function readPdfSheet(bytes: Uint8Array): Promise<FoundSheet> {
  const { PDFDocument, PDFName, PDFDict, PDFArray, PDFRawStream, PDFHexString, decodePDFRawStream } = await import(
    'pdf-lib'
  );
  const document = await PDFDocument.load(bytes, { updateMetadata: false });
  const [page, more] = document.getPages();
  if (page === undefined || more !== undefined) throw new Error('it has not one page');
  const { width, height } = page.getSize();
  const contents = page.node.Contents();
  const streams =
    contents instanceof PDFArray ? contents.asArray().map((ref) => document.context.lookup(ref)) : [contents];
  const text = streams
    .map((stream) => {
      if (!(stream instanceof PDFRawStream)) throw new Error('its content cannot be read');
      return new TextDecoder('latin1').decode(decodePDFRawStream(stream).decode());
    })
    .join('\n');
  const properties = page.node.Resources()?.lookupMaybe(PDFName.of('Properties'), PDFDict);
  const layerOf = (name: string): string => {
    const title = properties?.lookupMaybe(PDFName.of(name), PDFDict)?.lookupMaybe(PDFName.of('Name'), PDFHexString);
    return title?.decodeText() ?? '';
  };
  const outlines = interpret(text, height, layerOf);
  return { widthMm: width * MM_PER_POINT, heightMm: height * MM_PER_POINT, outlines };
}

function interpret(text: string, height: number, layerOf: (name: string) => string): FoundOutline[] {
  const outlines: FoundOutline[] = [];
  const marked: { readonly layer?: string; readonly piece?: string }[] = [];
  let contours: Contour[] = [];
  let start: Point | null = null;
  let segments: Segment[] = [];
  let operands: string[] = [];
  const point = (at: number): Point => ({
    x: Number(operands[at]) * MM_PER_POINT,
    y: (height - Number(operands[at + 1])) * MM_PER_POINT,
  });
  const end = (closed: boolean): void => {
    if (start !== null && segments.length > 0) {
      const { x, y } = segments.at(-1)!.to;
      const isOpen = closed && (x !== start.x || y !== start.y);
      contours.push({ start, segments: isOpen ? [...segments, { kind: 'line', to: start }] : segments, closed });
    }
    start = null;
    segments = [];
  };
  const paint = (): void => {
    end(false);
    const layer = marked.findLast((entry) => entry.layer !== undefined)?.layer ?? '';
    const pieceId = marked.findLast((entry) => entry.piece !== undefined)?.piece ?? null;
    outlines.push(...contours.map((contour): FoundOutline => ({ group: layer, pieceId, contour })));
    contours = [];
  };
  for (const token of text.match(/<<.*?>>|\/[^\s/<>[\]()]+|[^\s/<>[\]()]+/g) ?? []) {
    if (/^[-+.\d]|^\/|^<</.test(token)) {
      operands.push(token);
      continue;
    }
    if (token === 'm') {
      end(false);
      start = point(0);
    } else if (token === 'l') segments.push({ kind: 'line', to: point(0) });
    else if (token === 'c') segments.push({ kind: 'cubic', c1: point(0), c2: point(2), to: point(4) });
    else if (token === 'h') end(true);
    else if (PAINTS.has(token)) paint();
    else if (token === 'BDC') {
      const [tag = '', value = ''] = operands;
      marked.push(tag === '/OC' ? { layer: layerOf(value.slice(1)) } : { piece: pieceIn(value) });
    } else if (token === 'EMC') marked.pop();
    else if (!LOOKS.has(token)) throw new Error(`its content holds an operator that sheets do not have (${token})`);
    operands = [];
  }
  return outlines;
}

/** The placement in `<</Id <FEFF...>>>`: UTF-16 with its mark (ISO 32000-1, 7.9.2.2). */
function pieceIn(value: string): string {
  const hex = /\/Id\s*<([0-9A-Fa-f]+)>/.exec(value)?.[1] ?? '';
  const units = (hex.match(/.{4}/g) ?? []).map((unit) => Number.parseInt(unit, 16));
  return String.fromCharCode(...(units[0] === 0xfeff ? units.slice(1) : units));
}
