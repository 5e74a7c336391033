import { PDFiumLibrary } from '@hyzyla/pdfium';

/** What PDFium shows of a page. */
export interface PdfPicture {
  readonly widthPt: number;
  readonly heightPt: number;
  readonly pixelWidth: number;
  readonly pixelHeight: number;
  /** How dark each pixel is, 0 (white) to 1, by the red channel. */
  readonly ink: Float64Array;
}

let library: Promise<PDFiumLibrary> | null = null;

/** Render the only page of a PDF with PDFium (a library that Underlap itself does not use). */
export async function pdfPicture(bytes: Uint8Array, pixelsPerPoint: number): Promise<PdfPicture> {
  library ??= PDFiumLibrary.init();
  const document = await (await library).loadDocument(bytes);
  try {
    const page = document.getPage(0);
    const { originalWidth, originalHeight } = page.getOriginalSize();
    const { width, height, data } = await page.render({ scale: pixelsPerPoint, render: 'bitmap' });
    const ink = new Float64Array(width * height);
    for (let i = 0; i < ink.length; i++) ink[i] = 1 - data[4 * i]! / 255;
    return { widthPt: originalWidth, heightPt: originalHeight, pixelWidth: width, pixelHeight: height, ink };
  } finally {
    document.destroy();
  }
}

/** Area in square points and centre in points (y down) of what is dark. */
export function inked(picture: PdfPicture): { area: number; x: number; y: number } {
  const perPixelX = picture.widthPt / picture.pixelWidth;
  const perPixelY = picture.heightPt / picture.pixelHeight;
  let [area, x, y] = [0, 0, 0];
  picture.ink.forEach((value, i) => {
    const weight = value * perPixelX * perPixelY;
    area += weight;
    x += weight * ((i % picture.pixelWidth) + 0.5) * perPixelX;
    y += weight * (Math.floor(i / picture.pixelWidth) + 0.5) * perPixelY;
  });
  return { area, x: x / area, y: y / area };
}
