import 'jsts/org/locationtech/jts/monkey.js';
import WKTReader from 'jsts/org/locationtech/jts/io/WKTReader.js';
import IndexedFacetDistance from 'jsts/org/locationtech/jts/operation/distance/IndexedFacetDistance.js';
import { svgPathProperties } from 'svg-path-properties';
import type { JstsGeometry } from './jsts-geometry.ts';

/** What an outsider finds on one written sheet, mm. */
export interface SheetFindings {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly pieces: readonly { readonly id: string; readonly areaMm2: number; readonly geometry: JstsGeometry }[];
  /** Least distance between two pieces; 0 when they overlap; Infinity with one piece. */
  readonly leastGapMm: number;
  /** Least distance of a piece to the sheet's edge; negative when it sticks out. */
  readonly leastMarginMm: number;
}

type Flat = [number, number][];

/** Curves are followed in steps of this length, so that chords stay within about 0.001 mm of a 2 mm arc. */
const STEP_MM = 0.1;

/**
 * Re-check a written sheet with libraries that Underlap itself does not use: svg-path-properties reads the paths, jsts measures
 * areas and distances.
 * @throws Error when the file is not in true size or a piece has no outer cut.
 */
export function recheckSheet(svg: string): SheetFindings {
  const width = /<svg[^>]*\bwidth="([\d.]+)mm"/.exec(svg);
  const height = /<svg[^>]*\bheight="([\d.]+)mm"/.exec(svg);
  const box = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg);
  if (width === null || height === null || box === null) throw new Error('the sheet has no size in mm');
  if (width[1] !== box[1] || height[1] !== box[2]) throw new Error('the sheet is not in true size');
  const widthMm = Number(width[1]);
  const heightMm = Number(height[1]);
  const outer = new Map<string, Flat[]>();
  const inner = new Map<string, Flat[]>();
  for (const group of svg.matchAll(/<g [^>]*data-process="([^"]+)"[^>]*>([\s\S]*?)<\/g>/g)) {
    const target = group[1] === 'cut-outer' ? outer : group[1] === 'cut-inner' ? inner : null;
    if (target === null) continue;
    for (const path of group[2]!.matchAll(/<path[^>]*data-piece="([^"]+)"[^>]* d="([^"]+)"/g)) {
      target.set(path[1]!, [...(target.get(path[1]!) ?? []), ...flatten(path[2]!)]);
    }
  }
  const pieces = [...outer].map(([id, rings]) => {
    if (rings.length !== 1) throw new Error(`${id} has ${rings.length} outer cuts`);
    const ring = rings[0]!;
    return { id, ring, geometry: polygon(ring, inner.get(id) ?? []), box: boxOf(ring) };
  });
  for (const id of inner.keys()) if (!outer.has(id)) throw new Error(`${id} has holes but no outer cut`);
  let leastGapMm = Infinity;
  let leastMarginMm = Infinity;
  pieces.forEach((piece, index) => {
    const { minX, minY, maxX, maxY } = piece.box;
    leastMarginMm = Math.min(leastMarginMm, minX, minY, widthMm - maxX, heightMm - maxY);
    for (const other of pieces.slice(0, index)) {
      const apart = Math.max(
        other.box.minX - maxX,
        minX - other.box.maxX,
        other.box.minY - maxY,
        minY - other.box.maxY,
      );
      if (apart >= leastGapMm) continue;
      leastGapMm = Math.min(leastGapMm, gapBetween(piece.geometry, other.geometry));
    }
  });
  return {
    widthMm,
    heightMm,
    pieces: pieces.map(({ id, geometry }) => ({ id, areaMm2: geometry.getArea(), geometry })),
    leastGapMm,
    leastMarginMm,
  };
}

/** Distance between two areas; 0 when they overlap. */
export function gapBetween(a: JstsGeometry, b: JstsGeometry): number {
  return a.intersects(b) ? 0 : IndexedFacetDistance.distance(a, b);
}

/** Area geometry of path data: first ring outer, further data holes. */
export function geometryOf(outline: string, holes: readonly string[]): JstsGeometry {
  return polygon(flatten(outline)[0]!, holes.flatMap(flatten));
}

function flatten(data: string): Flat[] {
  return data
    .split(/(?=M)/)
    .filter((subpath) => subpath.trim() !== '')
    .map((subpath) => {
      const properties = new svgPathProperties(subpath);
      const points: Flat = [];
      for (const part of properties.getParts()) {
        points.push([part.start.x, part.start.y]);
        const chord = Math.hypot(part.end.x - part.start.x, part.end.y - part.start.y);
        if (part.length <= chord * (1 + 1e-9)) continue;
        const steps = Math.ceil(part.length / STEP_MM);
        for (let k = 1; k < steps; k++) {
          const point = part.getPointAtLength((k * part.length) / steps);
          points.push([point.x, point.y]);
        }
      }
      return points.filter((point, i) => i === 0 || point[0] !== points[i - 1]![0] || point[1] !== points[i - 1]![1]);
    });
}

function polygon(outer: Flat, holes: readonly Flat[]): JstsGeometry {
  const text = [outer, ...holes].map((ring) => `(${[...ring, ring[0]!].map(([x, y]) => `${x} ${y}`).join(', ')})`);
  return new WKTReader().read(`POLYGON (${text.join(', ')})`);
}

function boxOf(ring: Flat): { minX: number; minY: number; maxX: number; maxY: number } {
  const xs = ring.map((point) => point[0]);
  const ys = ring.map((point) => point[1]);
  return { minX: Math.min(...xs), minY: Math.min(...ys), maxX: Math.max(...xs), maxY: Math.max(...ys) };
}
