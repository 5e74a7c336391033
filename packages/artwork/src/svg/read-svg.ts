import { transformContour } from '@underlap/geometry/contour';
import { IDENTITY, multiply } from '@underlap/geometry/matrix';
import { ComplaintList } from '../complaint-list.ts';
import type { Complaint, Drawing, DrawnShape, DrawnText, ReadOptions } from '../drawing.ts';
import { ArtworkError } from '../error.ts';
import { assertReadOptions } from '../read-options.ts';
import { repairShapes } from '../repair/repair-shapes.ts';
import { tellUnlikelySize } from '../size-check.ts';
import { MM_PER_INCH, PX_PER_INCH } from '../units.ts';
import { tellWideLines } from '../wide-lines.ts';
import { allNodes, IdIndex } from './id-index.ts';
import { MAX_CHARACTERS } from './limits.ts';
import { tellOffPage } from './off-page.ts';
import { type RootSize, rootSize } from './physical-size.ts';
import { StyleReader } from './style.ts';
import { StyleSheet } from './style-sheet.ts';
import { walkDrawing } from './walk.ts';
import { withinReach } from './within-reach.ts';
import { parseXml, type XmlDocument, type XmlNode } from './xml-tree.ts';

/**
 * Read an SVG drawing: every shape that is drawn, in document order, in mm (in CSS px while its size is open), with exact
 * contours.
 * @param text - the file's text, already decoded.
 * @returns the drawing with everything that was mended or left out told in `repairs` and `complaints`.
 * @throws ArtworkError `not-svg`, `empty-drawing`, `too-large`, `entity-expansion`, `bad-option`.
 * @remarks O(text) time. Memory within ten times the text, garbage included, unless most of the text is small elements of their own
 * (see DESIGN-svg.md).
 */
export function readSvg(text: string, options: ReadOptions): Drawing {
  const file = options.name;
  assertReadOptions(options);
  if (text.length > MAX_CHARACTERS) {
    const size = `${Math.round(text.length / 1e6)} MB`;
    throw new ArtworkError(
      'too-large',
      `${file} is ${size}; at most ${MAX_CHARACTERS / 1e6} MB are read: simplify the drawing`,
    );
  }
  const complaints = new ComplaintList();
  const { drawn, texts, settle } = drawnShapes(text, options, complaints);
  const settled = settle(drawn);
  const shapes = withinReach(scaled(settled.scale, drawn), complaints);
  if (shapes.length + texts.length === 0) throw emptyDrawing(file, complaints.finish());
  tellUnlikelySize(settled.size, complaints);
  tellOffPage(shapes, settled.page, complaints);
  const { repair = true, closeGapMm } = options;
  // While the size is open, tolerances are taken at the standard's reading of a px.
  const mmPerUnit = settled.size.kind === 'known' ? 1 : MM_PER_INCH / PX_PER_INCH;
  tellWideLines(shapes, mmPerUnit, complaints);
  const mended = repairShapes(shapes, { repair, mmPerUnit, ...(closeGapMm === undefined ? {} : { closeGapMm }) });
  if (mended.shapes.length + texts.length === 0)
    throw emptyDrawing(file, [...mended.complaints, ...complaints.finish()]);
  return {
    name: file,
    format: 'svg',
    size: settled.size,
    shapes: mended.shapes,
    texts: scaledTexts(settled.scale, texts),
    repairs: mended.repairs,
    complaints: [...complaints.finish(), ...mended.complaints],
  };
}

/** A step of its own, so that the element tree is gone before the repair begins. */
function drawnShapes(
  text: string,
  options: ReadOptions,
  complaints: ComplaintList,
): { drawn: DrawnShape[]; texts: DrawnText[]; settle: RootSize['settle'] } {
  const file = options.name;
  const document = parseXml(text.charCodeAt(0) === 0xfeff ? text.slice(1) : text, file);
  tellXmlFaults(document, complaints);
  const sheet = sheetOf(document.root);
  const size = rootSize(document.root, options, complaints);
  const { shapes: drawn, texts } = walkDrawing({
    file,
    root: document.root,
    byId: new IdIndex(document.root),
    styles: new StyleReader(sheet),
    toDrawing: size.toDrawing,
    viewport: size.viewport,
    complaints,
  });
  for (const note of sheet.notes)
    complaints.add('style-sheet', 'warning', `the style sheet has ${note}, which is not followed`, 'style');
  if (sheet.isExhausted)
    complaints.add('style-sheet', 'error', 'the style sheet is too costly to match and was cut off', 'style');
  return { drawn, texts, settle: size.settle };
}

function tellXmlFaults({ faults, brokenOffAt }: XmlDocument, complaints: ComplaintList): void {
  if (brokenOffAt !== null) {
    const message = `the file breaks off in line ${brokenOffAt}: what came before was read, anything after is missing; save it again`;
    complaints.add('truncated', 'error', message, `line ${brokenOffAt}`);
  }
  for (const { message, line } of faults) {
    // Nothing is surely where it belongs after a wrong closing tag; it is read as if the tag were not there.
    const isFatal = /clos(?:e|ing) tag/.test(message);
    const advice = isFatal
      ? '; what follows was read as well as could be: check all of it, or save the file again'
      : '';
    const words = `the file is not well-formed: ${message}${advice}`;
    complaints.add('broken-xml', isFatal ? 'error' : 'warning', words, `line ${line}`);
  }
}

function sheetOf(root: XmlNode): StyleSheet {
  const sheet = new StyleSheet();
  for (const node of allNodes(root)) {
    if (node.name !== 'style' || !node.isSvg) continue;
    const { type } = node.attributes;
    if (type === undefined || type === '' || type === 'text/css') sheet.add(node.text);
  }
  return sheet;
}

function scaled(scale: number, shapes: readonly DrawnShape[]): DrawnShape[] {
  if (scale === 1) return [...shapes];
  const matrix = { ...IDENTITY, a: scale, d: scale };
  return shapes.map((shape) => ({
    ...shape,
    contours: shape.contours.map((contour) => transformContour(contour, matrix)),
    strokeWidthMm: shape.strokeWidthMm * scale,
    place: { ...shape.place, at: shape.place.at && { x: shape.place.at.x * scale, y: shape.place.at.y * scale } },
  }));
}

function scaledTexts(scale: number, texts: readonly DrawnText[]): DrawnText[] {
  const matrix = { ...IDENTITY, a: scale, d: scale };
  return texts.map((text) => ({
    ...text,
    matrix: multiply(matrix, text.matrix),
    strokeWidthMm: text.strokeWidthMm * scale,
    place: { ...text.place, at: text.place.at && { x: text.place.at.x * scale, y: text.place.at.y * scale } },
  }));
}

function emptyDrawing(file: string, complaints: readonly Complaint[]): ArtworkError {
  const first = complaints.find(({ severity }) => severity !== 'note') ?? complaints[0];
  const why = first === undefined ? 'it draws no shape' : `${first.place.element}: ${first.message}`;
  return new ArtworkError('empty-drawing', `${file} has nothing to cut: ${why}`, first?.place.element ?? null);
}
