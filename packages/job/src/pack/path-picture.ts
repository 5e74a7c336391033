import { html } from '../report-html/html.ts';
import { coordinate } from '../report-html/numbers.ts';

/** One filled or stroked path, SVG path data in units of its own. */
export interface PicturePath {
  readonly d: string;
  readonly fill: string | null;
  readonly stroke: string | null;
  /** Width of the stroke and lengths of its dashes, in the path's units. */
  readonly width: number;
  readonly dash: readonly number[];
  /** From its units to pixels: scaled, then moved. */
  readonly scale: number;
  readonly x: number;
  readonly y: number;
}

/** A picture of paths alone: it needs no fonts, and looks the same as SVG, in a browser and as a bitmap. */
export interface PathPicture {
  readonly title: string;
  /** Pixels. */
  readonly width: number;
  readonly height: number;
  readonly paper: string;
  readonly paths: readonly PicturePath[];
}

/** A picture as bytes of a PNG; null where none can be made. */
export type PngMaker = (picture: PathPicture) => Promise<Uint8Array | null>;

/** What a canvas of a browser and one of a library have in common. */
export interface Canvas2d<Path> {
  fillStyle: unknown;
  strokeStyle: unknown;
  lineWidth: number;
  lineJoin: string;
  lineCap: string;
  setTransform(a: number, b: number, c: number, d: number, e: number, f: number): void;
  setLineDash(dash: number[]): void;
  fillRect(x: number, y: number, width: number, height: number): void;
  fill(path: Path, rule: 'evenodd'): void;
  stroke(path: Path): void;
}

/** Paint a picture on a canvas of its size. @param pathOf - makes the canvas's own path of SVG path data. */
export function paintPathPicture<Path>(
  context: Canvas2d<Path>,
  pathOf: (d: string) => Path,
  { width, height, paper, paths }: PathPicture,
): void {
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.fillStyle = paper;
  context.fillRect(0, 0, width, height);
  context.lineJoin = 'round';
  for (const { d, fill, stroke, width: line, dash, scale, x, y } of paths) {
    const path = pathOf(d);
    context.setTransform(scale, 0, 0, scale, x, y);
    if (fill !== null) {
      context.fillStyle = fill;
      context.fill(path, 'evenodd');
    }
    if (stroke === null) continue;
    context.strokeStyle = stroke;
    context.lineWidth = line;
    context.lineCap = dash.length === 0 ? 'round' : 'butt';
    context.setLineDash([...dash]);
    context.stroke(path);
  }
}

/** The same as SVG. */
export function pathPictureSvg({ title, width, height, paper, paths }: PathPicture): string {
  return html`<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" role="img" aria-label="${title}"><title>${title}</title>
<rect width="${width}" height="${height}" fill="${paper}"/>
${paths.map(
  ({ d, fill, stroke, width: line, dash, scale, x, y }) =>
    html`<path d="${d}" transform="translate(${coordinate(x)} ${coordinate(y)}) scale(${Number(scale.toFixed(6))})" fill="${fill ?? 'none'}" fill-rule="evenodd"${
      stroke === null
        ? null
        : html` stroke="${stroke}" stroke-width="${coordinate(line)}" stroke-linejoin="round" stroke-linecap="${dash.length === 0 ? 'round' : 'butt'}" stroke-dasharray="${dash.length === 0 ? 'none' : dash.map(coordinate).join(' ')}"`
    }/>
`,
)}</svg>
`.text;
}
