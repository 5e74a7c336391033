import { contourToPathData } from '@underlap/geometry/path-data';
import { type CuttingGroup, cuttingGroups, nestedPieces } from './cutting-groups.ts';
import { DEFAULT_SHEET_STYLE, type SheetStyle } from './process-style.ts';
import { CAUTIONS, type SheetDrawing, type SheetPath, sheetFacts } from './sheet-drawing.ts';

/** Digits after the point of a coordinate: 0.01 micrometre, so that nothing measurable is lost. */
const DECIMALS = 5;

/**
 * One sheet as SVG: true size, one user unit = 1 mm, one group per process in cutting order, arcs as A and Beziers as C.
 *
 * Every group of paths carries `data-process`, every path `data-piece` (the placement). Part numbers are strokes in
 * groups of their own (`data-role="numbers"`). The root's `data-` attributes and its description state units, kerf
 * state, job, sheet number, seed and tolerance.
 * @returns the file's text; the same sheet and style always give the same text.
 */
export function writeSheetSvg(sheet: SheetDrawing, style: SheetStyle = DEFAULT_SHEET_STYLE): string {
  const groups = cuttingGroups(sheet, style);
  const nested = nestedPieces(sheet.paths);
  const facts = [
    ...sheetFacts(sheet),
    ...(nested.length === 0 || style.rounds === 'nested-first'
      ? []
      : [`lying in holes of other pieces, to be cut before those holes: ${nested.join(', ')}`]),
  ];
  const { widthMm: width, heightMm: height } = sheet;
  const lines = [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="${mm(width)}mm" height="${mm(height)}mm" ` +
      `viewBox="0 0 ${mm(width)} ${mm(height)}" data-units="mm" data-kerf="${sheet.kerfState}" ` +
      `data-kerf-mm="${sheet.kerfMm}" data-tolerance-mm="${sheet.toleranceMm}" ` +
      `${sheet.fitMm === undefined ? '' : `data-fit-mm="${sheet.fitMm}" `}data-job="${escaped(sheet.job)}" ` +
      `data-sheet="${sheet.sheetNumber}" data-sheets="${sheet.sheetCount}" ${loadingData(sheet)}data-seed="${escaped(String(sheet.seed))}">`,
    `<title>${escaped(sheet.title)}</title>`,
    `<desc>${escaped([...facts, ...CAUTIONS].join('\n'))}</desc>`,
  ];
  for (const group of groups) lines.push(...groupLines(group, style));
  lines.push('</svg>', '');
  return lines.join('\n');
}

function loadingData({ times, loading, origin }: SheetDrawing): string {
  return [
    ...(times === undefined ? [] : [`data-times="${times}" `]),
    ...(loading === undefined ? [] : [`data-loading="${loading.number}" data-loadings="${loading.count}" `]),
    ...(origin === undefined
      ? []
      : [`data-origin-mm="${mm(origin.x)} ${mm(origin.y)}" data-turned="${origin.isTurned ? 90 : 0}" `]),
  ].join('');
}

function groupLines(group: CuttingGroup, style: SheetStyle): string[] {
  const { colour, layer } = group.isNumbers ? style.numbers : style.layers[group.process];
  const role = group.isNumbers ? ' data-role="numbers"' : '';
  const suffix = group.round > 0 ? `-${group.round + 1}` : '';
  const id = `${group.isNumbers ? `numbers-${group.process}` : group.process}${suffix}`;
  return [
    `<g id="${id}" data-process="${group.process}" data-layer="${escaped(layer)}"${role} fill="none" stroke="${colour}" ` +
      `stroke-width="${style.lineWidthMm}" stroke-linecap="round" stroke-linejoin="round">`,
    ...group.paths.map((path) => pathLine(path, group, colour)),
    '</g>',
  ];
}

function pathLine(path: SheetPath, group: CuttingGroup, colour: string): string {
  const isArea = group.process === 'engrave' && path.contour.closed && !group.isNumbers;
  const data = [path.contour, ...(path.holes ?? [])].map((contour) => contourToPathData(contour, DECIMALS)).join(' ');
  const role = path.role === undefined || path.role === 'part' ? '' : ` data-role="${path.role}"`;
  const area = isArea ? ` fill="${colour}" fill-rule="evenodd" stroke="none"` : '';
  const number = path.number === undefined ? '' : ` data-number="${escaped(path.number)}"`;
  return `<path data-piece="${escaped(path.pieceId)}"${role}${area} d="${data}"${number}/>`;
}

function mm(value: number): string {
  return String(Number(value.toFixed(DECIMALS)));
}

/** Text made safe for XML: markup escaped, characters that XML 1.0 forbids replaced. */
function escaped(text: string): string {
  return (
    text
      // biome-ignore lint/suspicious/noControlCharactersInRegex: these are exactly what must not reach the file
      .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, '\ufffd')
      .replace(/[\ud800-\udfff]/gu, '\ufffd')
      .replace(/&/g, '&amp;')
      .replace(/</g, '&lt;')
      .replace(/>/g, '&gt;')
      .replace(/"/g, '&quot;')
  );
}
