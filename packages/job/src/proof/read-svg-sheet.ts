import type { Contour, Segment } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import { type SVGCommand, SVGPathData } from 'svg-pathdata';
import { type INode, parseSync } from 'svgson';
import type { FoundOutline, FoundSheet } from './found-sheet.ts';

/**
 * Read a written SVG sheet with svgson, its paths with svg-pathdata: nothing of the writer, nor of the reader of artwork.
 * @throws Error when it is no SVG in mm at true size, or holds what a sheet never holds.
 */
export function readSvgSheet(text: string): FoundSheet {
  const root = parseSync(text);
  const { width = '', height = '', viewBox = '' } = root.attributes;
  const box = viewBox.split(/\s+/).map(Number);
  const size = [millimetres(width), millimetres(height)] as const;
  if (box[0] !== 0 || box[1] !== 0 || box[2] !== size[0] || box[3] !== size[1]) {
    throw new Error(`it is not in true size: ${width} x ${height}, view box ${viewBox}`);
  }
  const outlines: FoundOutline[] = [];
  collect(root, null, outlines);
  return { widthMm: size[0], heightMm: size[1], outlines };
}

function collect(node: INode, process: string | null, outlines: FoundOutline[]): void {
  if (node.attributes.transform !== undefined) throw new Error('it holds a transform');
  const own = node.attributes['data-process'] ?? process;
  if (node.name === 'path') {
    const pieceId = unescaped(node.attributes['data-piece'] ?? '');
    for (const contour of contoursOf(node.attributes.d ?? '')) outlines.push({ group: own ?? '', pieceId, contour });
  }
  for (const child of node.children) collect(child, own, outlines);
}

/** Subpaths as contours: absolute commands, every arc with its centre as svg-pathdata works it out. */
function contoursOf(data: string): Contour[] {
  const contours: Contour[] = [];
  let start: Point | null = null;
  let segments: Segment[] = [];
  let at: Point = { x: 0, y: 0 };
  const end = (closed: boolean): void => {
    if (start !== null && segments.length > 0) {
      const gap = closed && (at.x !== start.x || at.y !== start.y);
      contours.push({ start, segments: gap ? [...segments, { kind: 'line', to: start }] : segments, closed });
    }
    start = null;
    segments = [];
  };
  for (const command of new SVGPathData(data).toAbs().annotateArcs().commands) {
    if (command.type === SVGPathData.MOVE_TO) {
      end(false);
      start = { x: command.x, y: command.y };
      at = start;
    } else if (command.type === SVGPathData.CLOSE_PATH) {
      end(true);
    } else {
      const segment = segmentOf(command);
      segments.push(segment);
      at = segment.to;
    }
  }
  end(false);
  return contours;
}

function segmentOf(command: SVGCommand): Segment {
  switch (command.type) {
    case SVGPathData.LINE_TO:
      return { kind: 'line', to: { x: command.x, y: command.y } };
    case SVGPathData.CURVE_TO: {
      const { x1, y1, x2, y2, x, y } = command;
      return { kind: 'cubic', c1: { x: x1, y: y1 }, c2: { x: x2, y: y2 }, to: { x, y } };
    }
    case SVGPathData.ARC: {
      const { rX, rY, xRot, x, y, cX = Number.NaN, cY = Number.NaN, phi1 = Number.NaN, phi2 = Number.NaN } = command;
      const sweep = ((phi2 - phi1) * Math.PI) / 180;
      const common = { to: { x, y }, centre: { x: cX, y: cY }, sweep };
      if (rX === rY) return { kind: 'arc', radius: rX, ...common };
      return {
        kind: 'ellipse',
        rx: rX,
        ry: rY,
        axisTurn: (xRot * Math.PI) / 180,
        from: (phi1 * Math.PI) / 180,
        ...common,
      };
    }
    default:
      throw new Error(`a path holds a command that sheets do not have (${command.type})`);
  }
}

function millimetres(text: string): number {
  const found = /^([\d.]+)mm$/.exec(text);
  return found === null ? Number.NaN : Number(found[1]);
}

/** svgson leaves entities as they are. */
function unescaped(text: string): string {
  return text
    .replace(/&lt;/g, '<')
    .replace(/&gt;/g, '>')
    .replace(/&quot;/g, '"')
    .replace(/&amp;/g, '&');
}
