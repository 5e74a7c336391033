import type { Matrix } from '@underlap/geometry/matrix';
import type { Point } from '@underlap/geometry/point';
import { areaInPlane, CURVE_TYPES, planeOf, readCurve, TILTED } from './curve-entities.ts';
import type { Entity, EntityColour, SkippedEntity } from './entity.ts';
import { BadNumber, type EntityTags, tagNumber } from './entity-tags.ts';
import { hatchLoops, solidContour } from './hatch.ts';
import { readTextEntity } from './text-entities.ts';

interface Reason {
  readonly code: string;
  readonly severity: SkippedEntity['severity'];
  readonly message: string;
}

const reason = (code: string, severity: SkippedEntity['severity'], message: string): Reason => ({
  code,
  severity,
  message,
});

const TEXT = reason(
  'text',
  'warning',
  'this kind of text is not read: convert it to plain text or to outlines (polylines) in the drawing program first',
);
const BROKEN_TEXT = reason('text', 'warning', 'this text cannot be read, so it is left out: write it again');
const NO_WORDS = reason('hidden', 'note', 'it shows no letter and is left out');
const DIMENSION = reason('dimension', 'note', 'dimensions and leaders are not cut and are left out');
const FILLED = reason(
  'filled-area',
  'warning',
  'a filled area is left out: draw its outline as a closed polyline if it is to be cut or engraved',
);
const SPATIAL = reason('three-d', 'warning', 'it is a body or face in space and is left out: draw its outline flat');
const BITMAP = reason(
  'bitmap',
  'warning',
  'a bitmap has no outlines to cut and is left out: trace it to paths in the drawing program first',
);
const POINTER = reason('construction', 'note', 'points and endless construction lines are left out');
const FOREIGN = reason('foreign-content', 'warning', 'content of another program is left out: draw it as plain shapes');

/** What is known and cannot be cut. Everything else that is not a curve or an insert is 'unknown-element'. */
const UNDRAWABLE: Readonly<Record<string, Reason>> = {
  ATTDEF: TEXT,
  RTEXT: TEXT,
  ARCALIGNEDTEXT: TEXT,
  DIMENSION,
  ARC_DIMENSION: DIMENSION,
  LARGE_RADIAL_DIMENSION: DIMENSION,
  LEADER: DIMENSION,
  MLEADER: DIMENSION,
  MULTILEADER: DIMENSION,
  TOLERANCE: DIMENSION,
  ACAD_TABLE: TEXT,
  HATCH: reason(
    'hatch',
    'warning',
    'a hatch of lines is left out: draw its boundary as a closed polyline if it is to be cut or engraved',
  ),
  MPOLYGON: FILLED,
  WIPEOUT: FILLED,
  SHAPE: TEXT,
  IMAGE: BITMAP,
  UNDERLAY: BITMAP,
  PDFUNDERLAY: BITMAP,
  DWFUNDERLAY: BITMAP,
  DGNUNDERLAY: BITMAP,
  POINT: POINTER,
  RAY: POINTER,
  XLINE: POINTER,
  MLINE: reason('multiline', 'warning', 'a multiline is left out: explode it to plain lines first'),
  '3DFACE': SPATIAL,
  '3DSOLID': SPATIAL,
  BODY: SPATIAL,
  REGION: reason('region', 'warning', 'a region is left out: explode it to lines and arcs first'),
  SURFACE: SPATIAL,
  EXTRUDEDSURFACE: SPATIAL,
  LOFTEDSURFACE: SPATIAL,
  PLANESURFACE: SPATIAL,
  REVOLVEDSURFACE: SPATIAL,
  SWEPTSURFACE: SPATIAL,
  MESH: SPATIAL,
  HELIX: SPATIAL,
  OLEFRAME: FOREIGN,
  OLE2FRAME: FOREIGN,
  ACAD_PROXY_ENTITY: FOREIGN,
};

/** Texts that become letters with a font. */
const LETTERED: ReadonlySet<string> = new Set(['TEXT', 'MTEXT', 'ATTRIB']);

const BROKEN_HATCH = reason(
  'broken-shape',
  'warning',
  'its boundary cannot be read, so it is left out: draw it as a closed polyline',
);
const EMPTY_AREA = reason('nothing-drawn', 'note', 'it has no extent and is left out');

const PAPER = reason('paper-space', 'note', 'it lies on the paper layout, not in the model, and is left out');
const INVISIBLE = reason('hidden', 'note', 'it is switched off and left out');

const BY_LAYER: EntityColour = { kind: 'layer' };

/** Entities that belong to the paper, the view or the bookkeeping: nothing a maker could miss. */
const SILENT: ReadonlySet<string> = new Set(['VIEWPORT', 'SEQEND', 'LIGHT', 'SUN', 'VERTEX', 'SECTION', 'CAMERA']);

/**
 * One entity with what hangs on it (the vertices of a polyline).
 * @returns null for what is not meant to be seen in the model: bookkeeping, paper space.
 */
export function readEntity(tags: EntityTags, vertices: readonly EntityTags[]): Entity | null {
  if (SILENT.has(tags.type)) return null;
  const head = headOf(tags);
  try {
    if (tags.integer(67, 0) === 1) return skipped(head, PAPER, null);
    if (tags.integer(60, 0) === 1) return skipped(head, INVISIBLE, null);
    if (CURVE_TYPES.has(tags.type)) {
      const reading = readCurve(tags, vertices);
      if (reading.kind === 'curve') {
        const { type, layer, handle, line } = head;
        const { contour, warning } = reading;
        // Written out: the engine keeps spread objects for long, and a drawing has a hundred thousand of these.
        return { type, layer, handle, line, colour: colourOf(tags), kind: 'curve', contour, warning, area: 'none' };
      }
      const severity = reading.fault.code === 'nothing-drawn' ? 'note' : 'warning';
      return skipped(head, { ...reading.fault, severity }, placeOf(tags));
    }
    if (tags.type === 'INSERT') {
      const plane = planeOf(tags);
      if (plane === null) return skipped(head, { ...TILTED, severity: 'warning' }, placeOf(tags));
      const put = insertOf(tags, plane === 'behind');
      return { ...head, colour: colourOf(tags), kind: 'insert', block: tags.text(2, ''), ...put };
    }
    if (LETTERED.has(tags.type)) {
      if (tags.type === 'ATTRIB' && (tags.integer(70, 0) & 1) !== 0) return skipped(head, INVISIBLE, null);
      const reading = readTextEntity(tags);
      if (reading === 'empty') return skipped(head, NO_WORDS, placeOf(tags));
      if (reading === 'unreadable') return skipped(head, BROKEN_TEXT, placeOf(tags));
      return { ...head, colour: colourOf(tags), kind: 'text', ...reading };
    }
    const unknown = reason('unknown-element', 'note', `${tags.type.slice(0, 40)} is not read and is left out`);
    return skipped(head, UNDRAWABLE[tags.type] ?? unknown, placeOf(tags));
  } catch (fault) {
    return skippedFor(head, fault);
  }
}

/**
 * A filled area: SOLID and TRACE, and a hatch that is solid, as the loops that bound it; one that is lines is left out and told.
 */
export function readArea(tags: EntityTags): readonly Entity[] {
  const head = headOf(tags);
  try {
    if (tags.integer(67, 0) === 1) return [skipped(head, PAPER, null)];
    if (tags.integer(60, 0) === 1) return [skipped(head, INVISIBLE, null)];
    const isHatch = tags.type === 'HATCH';
    if (isHatch && tags.integer(70, 0) !== 1) return [skipped(head, UNDRAWABLE.HATCH!, placeOf(tags))];
    const solid = isHatch ? null : solidContour(tags);
    const loops = isHatch ? hatchLoops(tags) : solid === null ? [] : [solid];
    if (loops === null) return [skipped(head, BROKEN_HATCH, placeOf(tags))];
    if (loops.length === 0) return [skipped(head, EMPTY_AREA, placeOf(tags))];
    const curves: Entity[] = [];
    for (const loop of loops) {
      const reading = areaInPlane(tags, loop);
      if (reading.kind === 'fault') return [skipped(head, { ...reading.fault, severity: 'warning' }, placeOf(tags))];
      const { contour, warning } = reading;
      const area = curves.length === 0 ? 'first' : 'further';
      curves.push({
        ...head,
        colour: colourOf(tags),
        kind: 'curve',
        contour,
        area,
        warning: area === 'first' ? warning : null,
      });
    }
    return curves;
  } catch (fault) {
    return [skippedFor(head, fault)];
  }
}

function skippedFor(head: Head, fault: unknown): SkippedEntity {
  if (!(fault instanceof BadNumber)) throw fault;
  const message = `"${fault.value}" in line ${fault.line} is not a usable number, so it is left out: draw it again`;
  return skipped(head, reason('non-finite', 'error', message), null);
}

type Head = Pick<SkippedEntity, 'type' | 'layer' | 'colour' | 'handle' | 'line'>;

function headOf(tags: EntityTags): Head {
  const { type, line } = tags;
  const handle = tags.text(5, '') || null;
  return { type, layer: tags.text(8, '0'), colour: BY_LAYER, handle, line };
}

function skipped(head: Head, why: Reason, at: Point | null): SkippedEntity {
  return { ...head, kind: 'skipped', ...why, at };
}

/** Colour groups of an entity or layer: 420 true colour, 62 colour number (0 from the block, 256 from the layer). */
export function colourOf(tags: EntityTags): EntityColour {
  if (tags.has(420)) return { kind: 'true', rgb: tags.integer(420, 0) & 0xffffff };
  const index = Math.abs(tags.integer(62, 256));
  if (index === 0) return { kind: 'block' };
  return index > 255 ? BY_LAYER : { kind: 'index', index };
}

/** Where an entity stands. The first point of a hatch is its height alone; the second lies on its boundary. */
function placeOf(tags: EntityTags): Point | null {
  const skip = tags.type === 'HATCH' ? 1 : 0;
  const x = tags.all.filter(({ code }) => code === 10)[skip];
  const y = tags.all.filter(({ code }) => code === 20)[skip];
  return x === undefined || y === undefined ? null : { x: tagNumber(x), y: tagNumber(y) };
}

/** More rows or columns than this are no drawing but a mistake; the expansion has its own limit on what comes of them. */
const MOST_REPEATS = 100_000;

function insertOf(tags: EntityTags, isBehind: boolean) {
  const count = (code: number) => Math.min(MOST_REPEATS, Math.max(1, tags.integer(code, 1)));
  const turn = (tags.number(50, 0) * Math.PI) / 180;
  const [cos, sin] = [exact(Math.cos(turn)), exact(Math.sin(turn))];
  const sx = tags.number(41, 1);
  const sy = tags.number(42, 1);
  const flip = isBehind ? -1 : 1;
  const matrix: Matrix = {
    a: flip * cos * sx,
    b: sin * sx,
    c: flip * -sin * sy,
    d: cos * sy,
    e: flip * tags.number(10, 0),
    f: tags.number(20, 0),
  };
  const columnSpacing = tags.number(44, 0);
  const rowSpacing = tags.number(45, 0);
  return {
    matrix,
    columns: count(70),
    rows: count(71),
    columnStep: { x: flip * cos * columnSpacing, y: sin * columnSpacing },
    rowStep: { x: flip * -sin * rowSpacing, y: cos * rowSpacing },
  };
}

/** Quarter turns are exact: cos 90 degrees is 0, not 6e-17. */
function exact(value: number): number {
  const near = Math.round(value);
  return Math.abs(value - near) < 1e-15 ? near : value;
}
