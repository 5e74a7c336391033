import { placementMatrix } from '@underlap/geometry/matrix';
import type { Ring } from '@underlap/geometry/ring';
import { transformRegion } from '@underlap/geometry/transform-region';
import type { DesignResult, StockLayout } from '../stages.ts';
import { type Html, html } from './html.ts';
import { coordinate } from './numbers.ts';

/** Space between boards in a picture of several, as a share of their width. */
const GAP = 0.04;

/** All boards of all stocks in one small picture, as a wall of sheets; no numbers, for comparing by eye. */
export function layoutPicture(stocks: readonly StockLayout[], designs: readonly DesignResult[]): Html {
  const sheets = stocks.flatMap(({ layout }) => layout.sheets);
  const byId = new Map(stocks.flatMap(({ pieces }) => pieces.map((piece) => [piece.id, piece])));
  const paints = new Map(
    designs.flatMap(({ design, sign }) => sign.parts.map((part) => [`${design.prefix}${part.id}`, part.paint])),
  );
  const width = Math.max(1, ...sheets.map((sheet) => sheet.width));
  const height = Math.max(1, ...sheets.map((sheet) => sheet.height));
  const columns = Math.max(1, Math.ceil(Math.sqrt(sheets.length)));
  const gap = GAP * width;
  const rows = Math.ceil(sheets.length / columns);
  const ink = ((width + gap) * columns) / 500;
  return html`<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="${sheets.length} boards" viewBox="${coordinate(-gap / 2)} ${coordinate(-gap / 2)} ${coordinate(columns * (width + gap))} ${coordinate(Math.max(1, rows) * (height + gap))}">${sheets.map(
    (sheet, at) => {
      const x = (at % columns) * (width + gap);
      const y = Math.floor(at / columns) * (height + gap);
      return html`<g transform="translate(${coordinate(x)} ${coordinate(y)})"><rect width="${coordinate(sheet.width)}" height="${coordinate(sheet.height)}" fill="#efe3cd" stroke="#22252a" stroke-width="${coordinate(ink)}"/>${
        sheet.offcut === null
          ? null
          : html`<path d="${ringData(sheet.offcut.outer)}" fill="#ffffff" fill-opacity=".6" stroke="#5a6069" stroke-width="${coordinate(ink)}" stroke-dasharray="${coordinate(5 * ink)} ${coordinate(3 * ink)}"/>`
      }${sheet.placements.map((placement) => {
        const piece = byId.get(placement.pieceId)!;
        const region = transformRegion(
          piece.cutRegion,
          placementMatrix(placement.x, placement.y, placement.turnDeg, placement.mirrored),
        );
        const data = [region.outer, ...region.holes].map(ringData).join('');
        return html`<path d="${data}" fill="${paints.get(`${piece.design.prefix}${piece.partId}`) ?? '#ffffff'}" fill-rule="evenodd" stroke="#22252a" stroke-width="${coordinate(ink / 2)}"/>`;
      })}</g>`;
    },
  )}</svg>`;
}

/** A picture needs no more than a tenth of a millimetre, so near points are left out. */
function ringData(ring: Ring): string {
  const points: string[] = [];
  let lastX = Number.NaN;
  let lastY = Number.NaN;
  for (let i = 0; i < ring.length; i += 2) {
    const x = ring[i]!;
    const y = ring[i + 1]!;
    if (Math.hypot(x - lastX, y - lastY) < 0.5 && i + 2 < ring.length) continue;
    points.push(`${x.toFixed(1)} ${y.toFixed(1)}`);
    lastX = x;
    lastY = y;
  }
  return `M${points.join('L')}Z`;
}
