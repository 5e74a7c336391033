import type { Contour, Segment } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import DxfParser, { type IArcEntity, type ICircleEntity, type IEntity, type IPolylineEntity } from 'dxf-parser';
import type { FoundOutline, FoundSheet } from './found-sheet.ts';

/** Points nearer than this are one, mm: the file has six decimals. */
const SAME_MM = 2e-6;

/**
 * Read a written DXF sheet with dxf-parser; bulges and arcs become arcs here, and y is turned down again.
 * @throws Error when it names no extent, or holds entities that a sheet never holds. Pieces are not told: the parser leaves extended data out.
 */
export function readDxfSheet(text: string): FoundSheet {
  const parsed = new DxfParser().parseSync(text);
  const corner = parsed?.header.$EXTMAX as Point | undefined;
  if (parsed === null || corner === undefined || parsed.header.$INSUNITS !== 4) {
    throw new Error('it names no extent in mm');
  }
  const outlines = parsed.entities.map(
    (entity): FoundOutline => ({ group: entity.layer, pieceId: null, contour: flipped(contourOf(entity), corner.y) }),
  );
  return { widthMm: corner.x, heightMm: corner.y, outlines };
}

function contourOf(entity: IEntity): Contour {
  switch (entity.type) {
    case 'CIRCLE': {
      const { center, radius } = entity as ICircleEntity;
      return arcFrom(center, radius, 0, 2 * Math.PI, true);
    }
    case 'ARC': {
      const { center, radius, startAngle, endAngle } = entity as IArcEntity;
      const turn = (endAngle - startAngle) % (2 * Math.PI);
      return arcFrom(center, radius, startAngle, turn <= 0 ? turn + 2 * Math.PI : turn, false);
    }
    case 'LINE': {
      const [from, to] = (entity as IEntity & { vertices: Point[] }).vertices;
      if (from === undefined || to === undefined) throw new Error('it holds a line without ends');
      return { start: from, segments: [{ kind: 'line', to }], closed: false };
    }
    case 'POLYLINE':
      return polyline(entity as IPolylineEntity);
    default:
      throw new Error(`it holds an entity that sheets do not have (${entity.type})`);
  }
}

function arcFrom(centre: Point, radius: number, from: number, sweep: number, closed: boolean): Contour {
  const at = (angle: number) => ({ x: centre.x + radius * Math.cos(angle), y: centre.y + radius * Math.sin(angle) });
  return { start: at(from), segments: [{ kind: 'arc', to: at(from + sweep), centre, radius, sweep }], closed };
}

/** Bulge = tan(sweep / 4), positive counter-clockwise (DXF reference). */
function polyline({ vertices, shape }: IPolylineEntity): Contour {
  const segments: Segment[] = [];
  const last = shape ? vertices.length : vertices.length - 1;
  for (let i = 0; i < last; i++) {
    const p = vertices[i]!;
    const q = vertices[(i + 1) % vertices.length]!;
    const chord = Math.hypot(q.x - p.x, q.y - p.y);
    if (chord < SAME_MM) continue;
    const to = { x: q.x, y: q.y };
    if (!p.bulge) {
      segments.push({ kind: 'line', to });
      continue;
    }
    // The centre lies beside the chord's middle, on the left for positive bulges below a half turn.
    const off = (1 / p.bulge - p.bulge) / 4;
    const centre = { x: (p.x + q.x) / 2 - off * (q.y - p.y), y: (p.y + q.y) / 2 + off * (q.x - p.x) };
    const radius = (chord * (1 + p.bulge * p.bulge)) / (4 * Math.abs(p.bulge));
    segments.push({ kind: 'arc', to, centre, radius, sweep: 4 * Math.atan(p.bulge) });
  }
  const [first] = vertices;
  if (first === undefined) throw new Error('it holds a polyline without vertices');
  return { start: { x: first.x, y: first.y }, segments, closed: shape };
}

function flipped(contour: Contour, height: number): Contour {
  const flip = ({ x, y }: Point): Point => ({ x, y: height - y });
  return {
    start: flip(contour.start),
    segments: contour.segments.map(
      (segment): Segment =>
        segment.kind === 'arc'
          ? { ...segment, to: flip(segment.to), centre: flip(segment.centre), sweep: -segment.sweep }
          : { kind: 'line', to: flip(segment.to) },
    ),
    closed: contour.closed,
  };
}
