import { Helper } from 'dxf';
import DxfParser from 'dxf-parser';

/** A vertex of a closed or open outline with the bulge of the way to the next one. */
export interface OutsideVertex {
  readonly x: number;
  readonly y: number;
  readonly bulge: number;
}

/** What an outside parser finds for one entity, drawing units. */
export interface OutsideEntity {
  readonly layer: string;
  readonly type: string;
  readonly areaMm2: number;
  readonly lengthMm: number;
  readonly vertices: readonly OutsideVertex[];
}

/** Re-read by the package dxf-parser. */
export function readWithDxfParser(text: string): OutsideEntity[] {
  const parsed = new DxfParser().parseSync(text);
  if (parsed === null) throw new Error('dxf-parser reads nothing');
  return parsed.entities.map((entity) => {
    const loose = entity as unknown as Record<string, unknown>;
    const centre = loose.center as { x: number; y: number } | undefined;
    return measured({
      layer: entity.layer,
      type: entity.type,
      x: centre?.x ?? 0,
      y: centre?.y ?? 0,
      r: Number(loose.radius),
      startAngle: Number(loose.startAngle),
      endAngle: Number(loose.endAngle),
      closed: loose.shape === true,
      vertices: (loose.vertices ?? []) as RawVertex[],
    });
  });
}

/** Re-read by the package dxf. */
export function readWithDxf(text: string): OutsideEntity[] {
  const parsed = new Helper(text).parsed as { entities: Record<string, unknown>[] };
  return parsed.entities.map((entity) => {
    const ends = [entity.start, entity.end].filter((end) => end !== undefined) as RawVertex[];
    return measured({
      layer: String(entity.layer),
      type: String(entity.type),
      x: Number(entity.x),
      y: Number(entity.y),
      r: Number(entity.r),
      startAngle: Number(entity.startAngle),
      endAngle: Number(entity.endAngle),
      closed: entity.closed === true,
      vertices: entity.type === 'LINE' ? ends : ((entity.vertices ?? []) as RawVertex[]),
    });
  });
}

interface RawVertex {
  readonly x: number;
  readonly y: number;
  readonly bulge?: number;
}

interface Raw {
  readonly layer: string;
  readonly type: string;
  readonly x: number;
  readonly y: number;
  readonly r: number;
  readonly startAngle: number;
  readonly endAngle: number;
  readonly closed: boolean;
  readonly vertices: readonly RawVertex[];
}

function measured({ layer, type, r, startAngle, endAngle, closed, vertices }: Raw): OutsideEntity {
  const head = { layer, type };
  if (type === 'CIRCLE') return { ...head, areaMm2: Math.PI * r * r, lengthMm: 2 * Math.PI * r, vertices: [] };
  if (type === 'ARC') {
    const sweep = (endAngle - startAngle + 2 * Math.PI) % (2 * Math.PI);
    return { ...head, areaMm2: 0, lengthMm: r * sweep, vertices: [] };
  }
  const all = vertices.map(({ x, y, bulge }) => ({ x, y, bulge: bulge ?? 0 }));
  return { ...head, ...measuredPolyline(all, closed), vertices: all };
}

/** Shoelace plus circular segments r^2 / 2 (t - sin t), t = 4 atan(bulge); textbook formulas, none of Underlap's code. */
function measuredPolyline(vertices: readonly OutsideVertex[], closed: boolean): { areaMm2: number; lengthMm: number } {
  let area = 0;
  let length = 0;
  const count = closed ? vertices.length : vertices.length - 1;
  for (let i = 0; i < count; i++) {
    const p = vertices[i]!;
    const q = vertices[(i + 1) % vertices.length]!;
    const chord = Math.hypot(q.x - p.x, q.y - p.y);
    area += (p.x * q.y - q.x * p.y) / 2;
    if (p.bulge === 0) {
      length += chord;
      continue;
    }
    const turn = 4 * Math.atan(p.bulge);
    const radius = chord / (2 * Math.abs(Math.sin(turn / 2)));
    length += radius * Math.abs(turn);
    area += ((radius * radius) / 2) * (turn - Math.sin(turn));
  }
  return { areaMm2: closed ? Math.abs(area) : 0, lengthMm: length };
}

/** The sheet that a DXF says it is (package dxf-parser), and how far its outlines reach beyond it, drawing units. */
export function sheetDxfLimits(text: string): { width: number; height: number; beyond: number } {
  const parsed = new DxfParser().parseSync(text);
  const corner = parsed?.header.$EXTMAX as { x: number; y: number } | undefined;
  if (corner === undefined) throw new Error('the DXF names no extent');
  const points = readWithDxfParser(text).flatMap(({ vertices }) => vertices);
  const beyond = points.map(({ x, y }) => Math.max(-x, -y, x - corner.x, y - corner.y));
  return { width: corner.x, height: corner.y, beyond: Math.max(-Infinity, ...beyond) };
}
