import { designsOf } from '@underlap/job/designs';
import { type Inspection, inspectDrawing } from '@underlap/job/inspect';
import { inspectPicture } from '@underlap/job/inspect-picture';
import { letteredDrawing } from '@underlap/job/lettered-drawing';
import { readStage } from '@underlap/job/read-stage';
import type { Use } from '@underlap/stack/usage';
import type { Command } from 'commander';
import { addArtworkOptions, type JobOptions, overridesOf } from '../job-options.ts';
import { loadJob } from '../load-job.ts';
import { print } from '../print.ts';
import { table } from '../table.ts';
import { writeOne } from '../write-files.ts';

interface Options extends JobOptions {
  readonly picture?: string;
  readonly json?: boolean;
}

/** Inspection looks at no bed and no board; a job needs them all the same. */
const ANY_MACHINE = { bed: '1000x1000', boards: ['1000x1000'] };

/** `underlap inspect`: what a drawing holds and how it was understood. */
export function addInspect(root: Command): void {
  const command = root
    .command('inspect')
    .description('list size, parts, marks, colours, repairs and complaints of a drawing')
    .argument('<file>', 'ART.svg, ART.dxf, or a job file')
    .option('--picture <file>', 'draw it as SVG, parts numbered, complaints marked in place')
    .option('--json', 'print one JSON object');
  addArtworkOptions(command).action(async (file: string, options: Options) => {
    const job = loadJob(file, overridesOf(options), ANY_MACHINE);
    const [design] = designsOf(job);
    const drawing = await letteredDrawing(readStage(job.artwork.text ?? '', job), design?.job ?? job);
    const inspection = inspectDrawing(drawing, job.artwork);
    if (options.picture !== undefined) writeOne(options.picture, inspectPicture(drawing, job.artwork));
    print(options.json === true ? `${JSON.stringify(inspection)}\n` : `${asText(inspection)}\n`);
  });
}

function asText(inspection: Inspection): string {
  const { parts, marks, uses, matches, repairs, complaints } = inspection;
  return [
    `${inspection.name}: ${sizeWords(inspection)}, read as a ${inspection.mode} drawing`,
    ...(inspection.sizeChoices ?? []).map(
      ({ perInch, widthMm }) =>
        `  ${widthMm.toFixed(1)} mm wide at ${perInch} to the inch: say so with --per-inch ${perInch}, or --width`,
    ),
    '',
    table([
      ['No.', 'part', 'layer', 'size mm', 'area cm2', 'holes', 'paint', 'process'],
      ...parts.map((part, index) => [
        String(index + 1),
        part.name === part.id ? part.id : `${part.id} (${part.name})`,
        part.layer ?? '',
        part.widthMm === null || part.heightMm === null
          ? 'open'
          : `${part.widthMm.toFixed(1)} x ${part.heightMm.toFixed(1)}`,
        part.areaMm2 === null ? 'open' : (part.areaMm2 / 100).toFixed(2),
        String(part.holes),
        part.paint ?? 'bare',
        part.process,
      ]),
    ]),
    ...section(
      'Marks',
      marks.map(
        (mark) =>
          `${mark.process} on ${mark.part}${mark.lengthMm === null ? '' : `, ${mark.lengthMm.toFixed(1)} mm`} (${mark.id})`,
      ),
    ),
    ...section('Colours', uses.filter(({ by }) => by === 'colour').map(useWords)),
    ...section('Layers', uses.filter(({ by }) => by === 'layer').map(useWords)),
    ...(uses.length === 0
      ? []
      : ['', '  To change what one is taken for: --key "NAME=cut" (or score, engrave, paint, ignore)']),
    ...section(
      'Stack',
      matches.map(
        (match) =>
          `${match.part} goes on ${match.onPart}, turned by ${match.turnDeg.toFixed(1)} degrees${match.ambiguous ? ' (one of several equal places)' : ''}`,
      ),
    ),
    ...section(
      'Repairs',
      repairs.map((repair) => `${repair.message} (${placeWords(repair.place)})`),
    ),
    ...section(
      'Complaints',
      complaints.map((entry) => `${entry.severity}: ${entry.message} (${placeWords(entry.place)})`),
    ),
  ].join('\n');
}

function useWords({ name, usedAs, shapes, process, reason }: Use): string {
  return `${name}${usedAs === null ? '' : ` ${usedAs}`} in ${shapes} ${shapes === 1 ? 'shape' : 'shapes'}: ${process} (${reason})`;
}

function sizeWords({ widthMm, heightMm, sizeSource }: Inspection): string {
  if (widthMm === null || heightMm === null) return 'its size is open';
  return `${widthMm.toFixed(1)} x ${heightMm.toFixed(1)} mm (from the ${sizeSource === 'user' ? 'user' : 'file'})`;
}

function placeWords({ element, at }: Inspection['complaints'][number]['place']): string {
  return at === null ? element : `${element}, at ${at.x.toFixed(1)}, ${at.y.toFixed(1)}`;
}

function section(title: string, lines: readonly string[]): string[] {
  return lines.length === 0 ? [] : ['', `${title}:`, ...lines.map((line) => `  ${line}`)];
}
