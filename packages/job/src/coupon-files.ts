import type { SheetStyle } from '@underlap/artwork/process-style';
import type { SheetDrawing, SheetPath } from '@underlap/artwork/sheet-drawing';
import { CAUTIONS } from '@underlap/artwork/sheet-drawing';
import { strokeText } from '@underlap/artwork/stroke-font';
import { transformContour } from '@underlap/geometry/contour';
import { placementMatrix } from '@underlap/geometry/matrix';
import type { Coupon, CouponOptions } from '@underlap/seam/coupon';
import type { Job } from './document.ts';
import { SHEET_FORMATS } from './sheet-formats.ts';
import type { FileSet } from './stages.ts';

/** Wood left round the coupon, mm. */
const BORDER_MM = 5;

/** The coupon as one sheet: labels scored, inner lines before outlines. */
export function couponDrawing(coupon: Coupon, options: CouponOptions): SheetDrawing {
  const onto = placementMatrix(BORDER_MM, BORDER_MM, 0);
  const drawn = coupon.pieces.flatMap((piece): SheetPath[] => [
    ...strokeText(piece.label, piece.labelAt, piece.labelHeightMm).map(
      (contour): SheetPath => ({ process: 'score', pieceId: piece.id, contour, role: 'label' }),
    ),
    ...piece.lines.map((contour): SheetPath => ({ process: 'cut-inner', pieceId: piece.id, contour, role: 'part' })),
    ...piece.shape.holes.map(
      (contour): SheetPath => ({ process: 'cut-inner', pieceId: piece.id, contour, role: 'part' }),
    ),
    { process: 'cut-outer', pieceId: piece.id, contour: piece.shape.outer, role: 'part' },
  ]);
  const paths = drawn.map((path) => ({ ...path, contour: transformContour(path.contour, onto) }));
  return {
    title: `Coupon for kerf and fit, ${options.thickness} mm stock`,
    job: 'coupon',
    sheetNumber: 1,
    sheetCount: 1,
    widthMm: coupon.widthMm + 2 * BORDER_MM,
    heightMm: coupon.heightMm + 2 * BORDER_MM,
    seed: 0,
    kerfState: 'compensated',
    kerfMm: options.kerf,
    toleranceMm: 0.01,
    paths,
  };
}

/** The coupon in the wanted formats, and how to read it as text. */
export async function couponFiles(
  coupon: Coupon,
  options: CouponOptions,
  formats: Job['output']['formats'],
  style: SheetStyle,
): Promise<FileSet> {
  const drawing = couponDrawing(coupon, options);
  const files = new Map<string, string | Uint8Array>();
  for (const format of formats) files.set(`coupon.${format}`, await SHEET_FORMATS[format].write(drawing, style));
  files.set(
    'coupon.txt',
    `${[...coupon.instructions, '', 'Cautions:', ...CAUTIONS.map((line) => `- ${line}`)].join('\n')}\n`,
  );
  return files;
}
