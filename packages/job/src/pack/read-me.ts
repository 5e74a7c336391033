import { CAUTIONS } from '@underlap/artwork/sheet-drawing';
import { counted } from '../counted.ts';
import type { Job } from '../document.ts';
import { duration, mm, percent } from '../report-html/numbers.ts';
import type { Report } from '../report-schema.ts';
import { type Variant, variantOf } from '../variants.ts';

/** The read-me of one bed's pack, in plain text: what it is, how large, what to cut from, how it holds, and what one may do with it. */
export function packReadMe(report: Report, job: Job): string {
  const variant = variantOf(report, '');
  const { bed, designs, loadings } = report;
  const times = loadings.reduce((sum, loading) => sum + loading.times, 0);
  const lines = [
    report.job,
    '='.repeat([...report.job].length),
    '',
    ...designs.map(({ id, artwork, count }) => {
      const of = id === '' ? 'Finished size' : `Finished size of ${id}${count === 1 ? '' : `, ${count} of them`}`;
      return `${of}: ${both(artwork.widthMm, artwork.heightMm)}.`;
    }),
    `For a bed of ${both(bed.width, bed.height)} or larger.`,
    `Pieces of one sign: ${variant.pieces}, from ${counted(report.parts.length, 'part')}.`,
    ...boardLines(report),
    `Files: ${loadings.length}, one for each way the machine is loaded; ${counted(times, 'loading')} in all, about ${duration(report.cost.machineSeconds)} at ${job.costs.speeds.cut} mm/s for cuts (your machine may differ).`,
    ...seamLines(variant),
    ...report.hanging.map(({ design, massKg }) => {
      const of = design === '' ? 'one sign' : design;
      return `Weight of ${of}: about ${massKg.toFixed(2)} kg at ${job.shop.densityKgM3} kg/m3.`;
    }),
    ...variant.notFitting.map((message) => `Not written: ${message}`),
    '',
    'In this folder',
    '--------------',
    `Cut files: true size, 1:1, millimetres (${job.output.formats.join(', ')}). Kerf: ${kerfWords(report)}.`,
    'build-guide.html: how the sign is built, a picture a step.',
    'report.html: every sheet with its numbers, boxes to tick, paint, time.',
    'finished.png: a picture of the finished sign.',
    '',
    'Licence',
    '-------',
    job.output.licence === ''
      ? 'Not stated: ask whoever you have this design from what you may do with it.'
      : job.output.licence,
    '',
    'Cautions',
    '--------',
    ...CAUTIONS,
    '',
  ];
  return lines.join('\n');
}

function boardLines(report: Report): string[] {
  const kinds = new Map<string, number>();
  for (const { stock, width, height, material } of report.sheets) {
    const own = report.stocks.find(({ id }) => id === material);
    const thickness = own?.thickness ?? report.thickness;
    const named = [own?.material ?? '', material].filter((word) => word !== '');
    const size = `${mm(width)} x ${mm(height)} mm`;
    const kind = `${size}, ${mm(thickness)} mm thick${stock === size.replaceAll(' mm', '').replaceAll(' ', '') ? '' : ` (${stock})`}${named.length === 0 ? '' : `, ${named.join(', ')}`}`;
    kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
  }
  const signs = report.batch === 1 ? 'one sign' : `${report.batch} signs`;
  return [...kinds].map(([kind, count]) => `Boards for ${signs}: ${count} of ${kind}.`);
}

function seamLines(variant: Variant): string[] {
  if (variant.splitParts.length === 0) return ['No part is split.'];
  return [
    `Split: ${variant.splitParts.join(', ')}; ${mm(variant.seamLengthMm)} mm of seam, ${percent(variant.hiddenShare)} hidden below other parts, ${percent(variant.heldShare)} held by glued parts or plates.`,
  ];
}

function kerfWords({ compensate, kerf }: Report): string {
  return compensate === 'none'
    ? 'not compensated, set it in the program of your machine'
    : `${kerf} mm is taken into account, do not compensate again`;
}

/** "508 x 305 mm (20.0 x 12.0 in)" */
function both(width: number, height: number): string {
  return `${mm(width)} x ${mm(height)} mm (${(width / 25.4).toFixed(1)} x ${(height / 25.4).toFixed(1)} in)`;
}
