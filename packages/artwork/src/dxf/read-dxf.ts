import { contourBounds, transformSegment } from '@underlap/geometry/contour';
import { GeometryError } from '@underlap/geometry/error';
import { apply, type Matrix } from '@underlap/geometry/matrix';
import type { Bounds } from '@underlap/geometry/ring';
import { ComplaintList } from '../complaint-list.ts';
import type { Complaint, Drawing, ReadOptions } from '../drawing.ts';
import { ArtworkError } from '../error.ts';
import { assertReadOptions } from '../read-options.ts';
import { repairShapes } from '../repair/repair-shapes.ts';
import { tellUnlikelySize } from '../size-check.ts';
import { parseDocument } from './document.ts';
import { drawnTexts } from './drawn-texts.ts';
import type { DxfDocument } from './entity.ts';
import { expandDocument } from './expand.ts';
import { PlacedCurves } from './placed-curves.ts';
import { shapesFromCurves } from './shapes-from-curves.ts';
import { settleSize } from './units.ts';

/** Largest text that is read, characters. */
const MAX_CHARACTERS = 64_000_000;

/** A coordinate (group 10 or 20) with a decimal comma. */
const DECIMAL_COMMAS = /[\r\n][ \t]*[12]0[ \t]*\r?[\n\r][ \t]*[+-]?\d*,\d+[ \t]*[\r\n]/;

/**
 * A curve further than this from the middle of the drawing, mm, is a stray and no part of it. A drawing that reaches so far on both
 * sides is half of what geometry takes, so that every later step has room.
 */
const MAX_REACH_MM = 2.5e5;

/** mm of a unit that stands in for the repair's tolerances while the true one is open: the larger choice closes least. */
const MM_PER_OPEN_UNIT = 25.4;

/**
 * Read an ASCII DXF drawing (R12 to current): every line, arc, circle, ellipse, polyline and spline of the model, blocks
 * unfolded, with exact contours; loose curves whose ends meet are joined. The result has y down and its upper left corner
 * at 0, 0, in mm (in drawing units while the size is open); nothing is mirrored.
 * @param text - the file's text, already decoded.
 * @returns the drawing with everything that was mended or left out told in `repairs` and `complaints`.
 * @throws ArtworkError `not-dxf`, `binary`, `broken-dxf`, `empty-drawing`, `too-large`, `bad-option`.
 * @remarks O(text + what is drawn) time. Memory within ten times the text, garbage included, unless it is all short lines that meet
 * nowhere (see DESIGN-dxf.md).
 */
export function readDxf(text: string, options: ReadOptions): Drawing {
  assertReadOptions(options);
  assertText(text, options.name);
  const document = parseDocument(text);
  assertDocument(document, options.name);
  const complaints = new ComplaintList();
  const expansion = expandDocument(document, options.name);
  const unitless = settleSize(1, 1, document.insUnits, document.measurement, withoutWidth(options));
  const curves = withinReach(expansion.curves, unitless.scale, complaints);
  const bounds = boundsOf(curves);
  if (bounds === null)
    throw emptyDrawing(options.name, document, [...expansion.notes, ...notesOf(complaints.finish())]);
  const width = bounds.maxX - bounds.minX;
  const height = bounds.maxY - bounds.minY;
  const settled = settleSize(width, height, document.insUnits, document.measurement, options);
  const { scale, size } = settled;
  // The one flip: DXF y grows upwards, a Drawing's downwards.
  const toDrawing: Matrix = { a: scale, b: 0, c: 0, d: -scale, e: -bounds.minX * scale, f: bounds.maxY * scale };
  tellDocument(document, complaints);
  if (DECIMAL_COMMAS.test(text)) {
    const message = 'its numbers have decimal commas, which DXF does not know; they are read as decimal points';
    complaints.add('decimal-comma', 'note', message, 'file');
  }
  for (const { code, severity, message, element, at } of expansion.notes) {
    complaints.add(code, severity, message, element, at && apply(toDrawing, at));
  }
  if (settled.isPerInchUnused) {
    const message = 'the file states its unit, so units to the inch are not used; give a width to override it';
    complaints.add('size-option-unused', 'note', message, '$INSUNITS');
  }
  tellUnlikelySize(size, complaints);
  const usable = placeable(curves, toDrawing, complaints);
  const mmPerUnit = size.kind === 'open' ? MM_PER_OPEN_UNIT : 1;
  const repair = options.repair !== false;
  const made = shapesFromCurves(usable, toDrawing, Math.max(width, height), repair, complaints);
  const mended = repairShapes(made.shapes, {
    repair,
    mmPerUnit,
    ...(options.closeGapMm === undefined ? {} : { closeGapMm: options.closeGapMm }),
  });
  const told = [...complaints.finish(), ...mended.complaints];
  if (mended.shapes.length === 0) {
    throw emptyDrawing(options.name, document, notesOf([...mended.complaints, ...told]));
  }
  const { shapes } = mended;
  const texts = drawnTexts(expansion.texts, toDrawing, shapes.at(-1)?.id ?? null);
  const repairs = [...made.repairs, ...mended.repairs];
  return { name: options.name, format: 'dxf', size, shapes, texts, repairs, complaints: told };
}

function assertText(text: string, file: string): void {
  if (text.length > MAX_CHARACTERS) {
    const size = `${Math.round(text.length / 1e6)} MB`;
    throw new ArtworkError(
      'too-large',
      `${file} is ${size}; at most ${MAX_CHARACTERS / 1e6} MB are read: simplify the drawing`,
    );
  }
  const head = text.slice(0, 4096);
  if (/^.{0,32}Binary DXF/.test(head)) {
    throw new ArtworkError('binary', `${file} is a binary DXF, which is not read: save it as ASCII (text) DXF`);
  }
  if (head.includes('\0')) {
    throw new ArtworkError('binary', `${file} is no text: if it is a drawing, save it as ASCII (text) DXF`);
  }
}

function assertDocument(document: ReturnType<typeof parseDocument>, file: string): void {
  if (document.hasSections) return;
  const place = document.brokenAt === null ? null : `line ${document.brokenAt}`;
  throw new ArtworkError('not-dxf', `${file} is not a DXF file: it has no sections`, place);
}

function tellDocument(document: DxfDocument, complaints: ComplaintList): void {
  if (document.brokenAt !== null) {
    const message = `the file stops being DXF in line ${document.brokenAt}: what came before was read, anything after is missing; save it again`;
    complaints.add('broken-dxf', 'error', message, `line ${document.brokenAt}`);
  } else if (document.isTruncated) {
    const message = 'the file breaks off without an end mark: something may be missing; save it again';
    complaints.add('truncated', 'error', message, 'end of file');
  }
}

/** Curves near the middle of all; the middle is a median, so that no stray can move it. */
function withinReach(curves: PlacedCurves, mmPerUnit: number, complaints: ComplaintList): PlacedCurves {
  const reach = MAX_REACH_MM / mmPerUnit;
  const [x, y] = [middleOf(curves, 'x'), middleOf(curves, 'y')];
  return without(curves, (index) => {
    const box = contourBounds(curves.contour(index));
    if (Math.max(x - box.minX, box.maxX - x, y - box.minY, box.maxY - y) <= reach) return false;
    const message = `it reaches more than ${MAX_REACH_MM / 1e6} km from the middle of the drawing, so it is left out: delete it, bring it back, or look whether the unit is right`;
    complaints.add('out-of-range', 'error', message, curves.element(index));
    return true;
  });
}

function middleOf(curves: PlacedCurves, axis: 'x' | 'y'): number {
  const starts = new Float64Array(curves.length);
  for (let i = 0; i < curves.length; i++) starts[i] = curves.contour(i).start[axis];
  return starts.sort()[starts.length >> 1] ?? 0;
}

/** The curves that can be turned over into the drawing's frame; one that is thinner than its digits cannot and is told. */
function placeable(curves: PlacedCurves, toDrawing: Matrix, complaints: ComplaintList): PlacedCurves {
  return without(curves, (index) => {
    const { start, segments } = curves.contour(index);
    try {
      // Lines can be placed anywhere.
      for (const segment of segments) if (segment.kind !== 'line') transformSegment(segment, toDrawing);
      return false;
    } catch (fault) {
      if (!(fault instanceof GeometryError)) throw fault;
      const message = 'it is flattened to nothing, so it is left out';
      complaints.add('bad-transform', 'error', message, curves.element(index), apply(toDrawing, start));
      return true;
    }
  });
}

/** The same list when nothing is left out, as usual. */
function without(curves: PlacedCurves, isLeftOut: (index: number) => boolean): PlacedCurves {
  const gone = new Set<number>();
  for (let i = 0; i < curves.length; i++) if (isLeftOut(i)) gone.add(i);
  if (gone.size === 0) return curves;
  const kept = new PlacedCurves();
  for (let i = 0; i < curves.length; i++) if (!gone.has(i)) kept.add(curves.at(i));
  return kept;
}

function boundsOf(curves: PlacedCurves): Bounds | null {
  if (curves.length === 0) return null;
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let i = 0; i < curves.length; i++) {
    const box = contourBounds(curves.contour(i));
    minX = Math.min(minX, box.minX);
    minY = Math.min(minY, box.minY);
    maxX = Math.max(maxX, box.maxX);
    maxY = Math.max(maxY, box.maxY);
  }
  return { minX, minY, maxX, maxY };
}

interface Note {
  readonly severity: string;
  readonly message: string;
  readonly element: string;
}

function notesOf(complaints: readonly Complaint[]): Note[] {
  return complaints.map(({ severity, message, place }) => ({ severity, message, element: place.element }));
}

function emptyDrawing(file: string, document: DxfDocument, notes: readonly Note[]): ArtworkError {
  if (document.brokenAt !== null) {
    const place = `line ${document.brokenAt}`;
    return new ArtworkError('broken-dxf', `${file} stops being DXF in ${place}, before anything is drawn`, place);
  }
  const first = notes.find(({ severity }) => severity !== 'note') ?? notes[0];
  const why = first === undefined ? 'it draws no curve' : `${first.element}: ${first.message}`;
  return new ArtworkError('empty-drawing', `${file} has nothing to cut: ${why}`, first?.element ?? null);
}

function withoutWidth({ name, perInch }: ReadOptions): ReadOptions {
  return perInch === undefined ? { name } : { name, perInch };
}
