import { DEFAULT_SHEET_STYLE } from '@underlap/artwork/process-style';
import { FORMATS } from '@underlap/job/choices';
import { couponFiles } from '@underlap/job/coupon-files';
import { couponShapes, DEFAULT_CLEARANCES, fitFromCoupon, kerfFromCoupon } from '@underlap/seam/coupon';
import type { Command } from 'commander';
import { UsageError } from '../exit.ts';
import { formatsOption } from '../job-options.ts';
import { lengthOption } from '../lengths.ts';
import { print } from '../print.ts';
import { writeFolder } from '../write-files.ts';

interface Options {
  readonly out?: string;
  readonly thickness: string;
  readonly kerf: string;
  readonly clearances?: string;
  readonly formats: string;
  readonly gap?: string;
  readonly liked?: string;
  readonly json?: boolean;
}

/** `underlap coupon`: a small test piece for kerf and fit, and what its readings mean. */
export function addCoupon(root: Command): void {
  root
    .command('coupon')
    .description('a small test piece that measures the kerf and shows the fit; read it with --gap and --liked')
    .option('--out <folder>', 'folder for the coupon and its instructions')
    .option('--thickness <length>', 'thickness of the stock', '6')
    .option('--kerf <length>', 'kerf believed so far', '0.2')
    .option('--clearances <lengths>', 'gaps to try, separated by commas; negative presses')
    .option('--formats <list>', `${FORMATS.join(', ')}, separated by commas`, 'svg')
    .option('--gap <lengths>', 'gap read in the comb, one or more readings separated by commas: prints the kerf')
    .option('--liked <length>', 'clearance of the pair that feels right: prints the fit to enter (with --gap)')
    .option('--json', 'print one JSON object')
    .action(async (options: Options) => {
      if (options.gap === undefined && options.out === undefined) {
        throw new UsageError('coupon takes --out FOLDER to make one, or --gap to read one.');
      }
      if (options.liked !== undefined && options.gap === undefined) {
        throw new UsageError('--liked needs --gap: the fit depends on the kerf that the comb shows.');
      }
      const kerf = lengthOption('--kerf', options.kerf);
      const reading = options.gap === undefined ? null : readCoupon(options.gap, options.liked, kerf);
      const made = options.out === undefined ? null : await makeCoupon(options, kerf, options.out);
      const document = { units: 'mm', ...(reading ?? {}), ...(made ?? {}) };
      print(options.json === true ? `${JSON.stringify(document)}\n` : `${words(reading, made)}\n`);
    });
}

interface Reading {
  readonly kerf: number;
  readonly spread: number;
  readonly fit: number | null;
}

interface Made {
  readonly files: readonly string[];
  readonly instructions: readonly string[];
}

function readCoupon(gap: string, liked: string | undefined, usedKerf: number): Reading {
  const { kerf, spread } = kerfFromCoupon(gap.split(',').map((text) => lengthOption('--gap', text)));
  const fit = liked === undefined ? null : fitFromCoupon(lengthOption('--liked', liked), usedKerf, kerf);
  return { kerf, spread, fit };
}

async function makeCoupon(options: Options, kerf: number, out: string): Promise<Made> {
  const clearances =
    options.clearances?.split(',').map((text) => lengthOption('--clearances', text)) ?? DEFAULT_CLEARANCES;
  const wanted = { thickness: lengthOption('--thickness', options.thickness), kerf, clearances };
  const formats = formatsOption('--formats', options.formats);
  const coupon = couponShapes(wanted);
  const files = await couponFiles(coupon, wanted, formats, DEFAULT_SHEET_STYLE);
  return { files: writeFolder(out, files), instructions: coupon.instructions };
}

function words(reading: Reading | null, made: Made | null): string {
  const lines: string[] = [];
  if (reading !== null) {
    lines.push(
      `Kerf ${reading.kerf.toFixed(3)} mm (readings differ by up to ${reading.spread.toFixed(3)} mm): enter it as kerf.`,
    );
    if (reading.fit !== null) lines.push(`Fit ${reading.fit.toFixed(3)} mm: enter it as fit.`);
  }
  if (made !== null) lines.push(...made.instructions, '', ...made.files);
  return lines.join('\n');
}
