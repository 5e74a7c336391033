import { contourArea, contourLength, transformContour } from '@underlap/geometry/contour';
import type { ArcSegment, Contour, Segment } from '@underlap/geometry/curve';
import { approximateByArcs } from '@underlap/geometry/curve-to-arcs';
import type { Point } from '@underlap/geometry/point';
import { type CuttingGroup, cuttingGroups } from './cutting-groups.ts';
import { nearestIndex } from './indexed-colour.ts';
import { DEFAULT_SHEET_STYLE, type SheetStyle, styleOf } from './process-style.ts';
import { CAUTIONS, type SheetDrawing, sheetFacts } from './sheet-drawing.ts';

/**
 * R12 knows lines and circular arcs alone: ellipses and Beziers are fitted with tangent arcs within this distance, mm, and
 * closer on small contours, so that their area stays within 1e-4 too. Well below what a beam can show.
 */
export const DXF_FIT_TOLERANCE_MM = 0.005;

/**
 * Fit tolerance as a share of a contour's width (4 area / perimeter, a circle's diameter). A fit that lies off by t on one
 * side everywhere changes the area of a circle by 4 t / d; real fits lie on both sides and change it by a third of that.
 */
const TOLERANCE_PER_WIDTH = 6e-5;

/** No fit is asked to be closer than this, mm: the coordinates themselves have six decimals. */
const CLOSEST_FIT_MM = 1e-4;

/** Arcs of one circle, and points of one place, mm. */
const SAME = 1e-7;

/** Name under which the extended data of entities is registered (DXF reference, 'Extended data'; known since R11). */
const APPLICATION = 'UNDERLAP';

/** Longest string of extended data, characters. */
const LONGEST_STRING = 255;

/** Digits after the point: mm of coordinates, and the unitless bulges that decide radii. */
const COORDINATE_DECIMALS = 6;
const BULGE_DECIMALS = 12;

/**
 * One sheet as DXF R12 (AC1009), y up, mm, the sheet's lower left corner at 0, 0.
 *
 * Every contour stays whole: whole circles are CIRCLEs, single arcs and lines ARCs and LINEs, all else one POLYLINE whose
 * arcs are bulges, so that no program has to chain loose ends. One layer per process, with the nearest of the fixed
 * colours; paths come in cutting order. Every entity carries its piece in its extended data (application UNDERLAP, one
 * string: the placement).
 * @returns the file's text; the same sheet and style always give the same text.
 */
export function writeSheetDxf(sheet: SheetDrawing, style: SheetStyle = DEFAULT_SHEET_STYLE): string {
  const out = new TagWriter();
  const groups = cuttingGroups(sheet, style);
  const facts = [
    sheet.title,
    ...sheetFacts(sheet),
    `curves: ellipses and Beziers are fitted with tangent arcs within ${DXF_FIT_TOLERANCE_MM} mm`,
    ...CAUTIONS,
  ];
  for (const fact of facts) out.tag(999, plainText(fact));
  writeHeader(out, sheet);
  writeTables(out, groups, style);
  out.tag(0, 'SECTION').tag(2, 'ENTITIES');
  for (const group of groups) {
    for (const path of group.paths) {
      const tag = { layer: layerName(styleOf(path, style).layer), piece: path.pieceId };
      for (const contour of [path.contour, ...(path.holes ?? [])]) writeContour(out, contour, sheet.heightMm, tag);
    }
  }
  out.tag(0, 'ENDSEC').tag(0, 'EOF');
  return out.text();
}

function writeHeader(out: TagWriter, sheet: SheetDrawing): void {
  const corner = (name: string, x: number, y: number) => out.tag(9, name).number(10, x).number(20, y);
  out.tag(0, 'SECTION').tag(2, 'HEADER');
  out.tag(9, '$ACADVER').tag(1, 'AC1009');
  // R12 itself has no unit variable; programs of today read this one in any version (4 = mm, 1 = metric).
  out.tag(9, '$INSUNITS').tag(70, '4').tag(9, '$MEASUREMENT').tag(70, '1');
  out.tag(9, '$LUNITS').tag(70, '2').tag(9, '$LUPREC').tag(70, '4');
  corner('$EXTMIN', 0, 0).number(30, 0);
  corner('$EXTMAX', sheet.widthMm, sheet.heightMm).number(30, 0);
  corner('$LIMMIN', 0, 0);
  corner('$LIMMAX', sheet.widthMm, sheet.heightMm);
  out.tag(0, 'ENDSEC');
}

function writeTables(out: TagWriter, groups: readonly CuttingGroup[], style: SheetStyle): void {
  const layers = new Map<string, number>();
  const taken = new Set<number>();
  for (const group of groups) {
    const { colour, layer } = group.isNumbers ? style.numbers : style.layers[group.process];
    const name = layerName(layer);
    if (layers.has(name)) continue;
    const index = nearestIndex(colour, taken);
    taken.add(index);
    layers.set(name, index);
  }
  out.tag(0, 'SECTION').tag(2, 'TABLES');
  out.tag(0, 'TABLE').tag(2, 'LTYPE').tag(70, '1');
  out.tag(0, 'LTYPE').tag(2, 'CONTINUOUS').tag(70, '0').tag(3, 'Solid line').tag(72, '65').tag(73, '0').number(40, 0);
  out.tag(0, 'ENDTAB');
  out
    .tag(0, 'TABLE')
    .tag(2, 'LAYER')
    .tag(70, String(layers.size + 1));
  for (const [name, colour] of [['0', 7] as const, ...layers]) {
    out.tag(0, 'LAYER').tag(2, name).tag(70, '0').tag(62, String(colour)).tag(6, 'CONTINUOUS');
  }
  out.tag(0, 'ENDTAB');
  out.tag(0, 'TABLE').tag(2, 'APPID').tag(70, '1');
  out.tag(0, 'APPID').tag(2, APPLICATION).tag(70, '0');
  out.tag(0, 'ENDTAB').tag(0, 'ENDSEC');
}

/** What stands beside the geometry of an entity. */
interface EntityTag {
  readonly layer: string;
  readonly piece: string;
}

function writeContour(out: TagWriter, drawn: Contour, height: number, tag: EntityTag): void {
  const flipped = transformContour(drawn, { a: 1, b: 0, c: 0, d: -1, e: 0, f: height });
  const contour = approximateByArcs(flipped, fitTolerance(flipped));
  if (contour.segments.length === 0) return;
  const circle = asCircle(contour);
  const [only] = contour.segments;
  if (circle !== null) {
    out.tag(0, 'CIRCLE').tag(8, tag.layer).point(circle.centre).number(40, circle.radius).piece(tag.piece);
  } else if (contour.segments.length === 1 && only !== undefined && !contour.closed) {
    writeSingle(out, contour.start, only, tag);
  } else {
    writePolyline(out, contour, tag);
  }
}

function fitTolerance(contour: Contour): number {
  const length = contourLength(contour);
  const width = contour.closed && length > 0 ? (4 * Math.abs(contourArea(contour))) / length : length / Math.PI;
  return Math.min(DXF_FIT_TOLERANCE_MM, Math.max(CLOSEST_FIT_MM, width * TOLERANCE_PER_WIDTH));
}

/** The circle when the contour is one whole turn round one centre. */
function asCircle(contour: Contour): ArcSegment | null {
  const [first] = contour.segments;
  if (first?.kind !== 'arc' || !contour.closed) return null;
  let turn = 0;
  for (const segment of contour.segments) {
    if (segment.kind !== 'arc' || Math.abs(segment.radius - first.radius) > SAME) return null;
    if (Math.hypot(segment.centre.x - first.centre.x, segment.centre.y - first.centre.y) > SAME) return null;
    turn += segment.sweep;
  }
  return Math.abs(Math.abs(turn) - 2 * Math.PI) < 1e-9 ? first : null;
}

function writeSingle(out: TagWriter, from: Point, segment: Segment, { layer, piece }: EntityTag): void {
  if (segment.kind === 'arc') {
    const { centre, radius, sweep } = segment;
    // An ARC always runs counter-clockwise: a clockwise one is written from its end.
    const [a, b] = sweep > 0 ? [from, segment.to] : [segment.to, from];
    const angle = (p: Point) => ((Math.atan2(p.y - centre.y, p.x - centre.x) * 180) / Math.PI + 360) % 360;
    out.tag(0, 'ARC').tag(8, layer).point(centre).number(40, radius);
    out
      .tag(50, plainNumber(angle(a), BULGE_DECIMALS))
      .tag(51, plainNumber(angle(b), BULGE_DECIMALS))
      .piece(piece);
    return;
  }
  out.tag(0, 'LINE').tag(8, layer).point(from).number(11, segment.to.x).number(21, segment.to.y).number(31, 0);
  out.piece(piece);
}

function writePolyline(out: TagWriter, contour: Contour, { layer, piece }: EntityTag): void {
  out
    .tag(0, 'POLYLINE')
    .tag(8, layer)
    .tag(66, '1')
    .point({ x: 0, y: 0 })
    .tag(70, contour.closed ? '1' : '0')
    .piece(piece);
  const vertices: { at: Point; bulge: number }[] = [];
  let from = contour.start;
  for (const segment of contour.segments) {
    const sweep = segment.kind === 'arc' ? segment.sweep : 0;
    // Beyond a half turn a bulge grows without limit and loses the radius: two halves are exact.
    if (segment.kind === 'arc' && Math.abs(sweep) > Math.PI + 1e-9) {
      const turn = Math.atan2(from.y - segment.centre.y, from.x - segment.centre.x) + sweep / 2;
      const { centre, radius } = segment;
      const middle = { x: centre.x + radius * Math.cos(turn), y: centre.y + radius * Math.sin(turn) };
      const half = Math.tan(sweep / 8);
      vertices.push({ at: from, bulge: half }, { at: middle, bulge: half });
    } else {
      vertices.push({ at: from, bulge: Math.tan(sweep / 4) });
    }
    from = segment.to;
  }
  const isOpenEnded = !contour.closed || Math.hypot(from.x - contour.start.x, from.y - contour.start.y) > SAME;
  if (isOpenEnded) vertices.push({ at: from, bulge: 0 });
  for (const { at, bulge } of vertices) {
    out.tag(0, 'VERTEX').tag(8, layer).point(at);
    if (bulge !== 0) out.tag(42, plainNumber(bulge, BULGE_DECIMALS));
  }
  out.tag(0, 'SEQEND').tag(8, layer);
}

/** Group codes and values, each on a line of its own. */
class TagWriter {
  readonly #lines: string[] = [];

  tag(code: number, value: string): this {
    this.#lines.push(String(code).padStart(3), value);
    return this;
  }

  number(code: number, value: number): this {
    return this.tag(code, plainNumber(value, COORDINATE_DECIMALS));
  }

  point({ x, y }: Point): this {
    return this.number(10, x).number(20, y).number(30, 0);
  }

  /** Extended data, which comes last in its entity. */
  piece(id: string): this {
    return this.tag(1001, APPLICATION).tag(1000, plainText(id).slice(0, LONGEST_STRING));
  }

  text(): string {
    return `${this.#lines.join('\r\n')}\r\n`;
  }
}

/** Decimal notation without exponent and without minus zero; a point always, as old readers expect of real numbers. */
function plainNumber(value: number, decimals: number): string {
  const text = value.toFixed(decimals).replace(/(\.\d*?)0+$/, '$1');
  const whole = text.endsWith('.') ? `${text}0` : text;
  return whole === '-0.0' ? '0.0' : whole;
}

/** R12 layer names: letters, digits, `$`, `-`, `_`, at most 31. */
export function layerName(name: string): string {
  return name.replace(/[^A-Za-z0-9$_-]/g, '_').slice(0, 31) || 'layer';
}

/** One line of ASCII; other characters in the notation \U+XXXX that DXF readers know. */
function plainText(text: string): string {
  return text
    .replace(/[\r\n]+/g, ' ')
    .replace(/[^\x20-\x7e]/g, (c) => `\\U+${c.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}`);
}
