import { existsSync } from 'node:fs';
import { basename } from 'node:path';
import { regionArea } from '@underlap/geometry/region';
import { parseRegions } from '@underlap/job/path-regions';
import { reportSchema } from '@underlap/job/report-schema';
import { bookIn, bookOut, parseShelf, type Shelf } from '@underlap/job/shelf';
import { bookReport } from '@underlap/job/shelf-report';
import { largestRectangle } from '@underlap/shop/largest-rectangle';
import type { Command } from 'commander';
import { FileError, UsageError } from '../exit.ts';
import { lengthOption, sizeOption } from '../lengths.ts';
import { readText } from '../load-job.ts';
import { print } from '../print.ts';
import { table } from '../table.ts';
import { writeOne } from '../write-files.ts';

interface AddOptions {
  readonly size?: string;
  readonly outline?: string;
  readonly thickness: string;
  readonly material?: string;
}

/** `underlap shelf`: the offcuts on hand, booked in and out. */
export function addShelf(root: Command): void {
  const shelf = root
    .command('shelf')
    .description('offcuts on hand: list them, book what a job used and left, add and take');
  shelf
    .command('list')
    .description('what is on the shelf, oldest first')
    .argument('<shelf>', 'SHELF.json')
    .option('--json', 'print the shelf as one JSON object')
    .action((file: string, options: { readonly json?: boolean }) => {
      const known = loadShelf(file);
      print(options.json === true ? `${JSON.stringify(known)}\n` : `${shelfTable(known)}\n`);
    });
  shelf
    .command('book')
    .description('book out the offcuts that a job was cut from and book in what it left; twice does no harm')
    .argument('<shelf>', 'SHELF.json, made when there is none')
    .argument('<report>', 'report.json of the job that was cut')
    .action((file: string, report: string) => {
      const before = shelfOrNew(file);
      const parsed = reportSchema.safeParse(jsonOf(report));
      if (!parsed.success)
        throw new FileError(`${report} is no report of this version: plan the job again.`, { file: report });
      const after = bookReport(before, parsed.data, today());
      save(file, after);
      const gone = before.offcuts.filter(({ id }) => !after.offcuts.some((one) => one.id === id)).length;
      const come = after.offcuts.filter(({ id }) => !before.offcuts.some((one) => one.id === id)).length;
      print(`${gone} booked out, ${come} booked in, ${after.offcuts.length} on ${basename(file)}\n`);
    });
  shelf
    .command('add')
    .description('put an offcut on the shelf by hand')
    .argument('<shelf>', 'SHELF.json, made when there is none')
    .argument('<id>', 'what is written on it')
    .requiredOption('--thickness <length>', 'how thick it is')
    .option('--size <size>', 'a rectangle, "200x150"')
    .option('--outline <path>', 'SVG path data in mm instead of a size; further subpaths are holes')
    .option('--material <words>', 'what it is')
    .action((file: string, id: string, options: AddOptions) => {
      const before = shelfOrNew(file);
      if (before.offcuts.some((offcut) => offcut.id === id))
        throw new UsageError(`${file} has an offcut "${id}" already: give this one another name.`);
      const after = bookIn(
        { ...before, bookings: before.bookings.filter((booking) => booking.id !== id) },
        [byHand(id, options)],
        'by hand',
        today(),
      );
      save(file, after);
      print(`${id} is on the shelf, ${after.offcuts.length} in all\n`);
    });
  shelf
    .command('take')
    .description('take offcuts off the shelf')
    .argument('<shelf>', 'SHELF.json')
    .argument('<ids...>', 'names of offcuts')
    .action((file: string, ids: readonly string[]) => {
      const before = loadShelf(file);
      const unknown = ids.find((id) => !before.offcuts.some((offcut) => offcut.id === id));
      if (unknown !== undefined) throw new UsageError(`There is no offcut "${unknown}" in ${file}.`);
      save(file, bookOut(before, ids, 'by hand', today()));
      print(`${ids.join(', ')} taken\n`);
    });
}

/** @throws FileError, JobError. */
export function loadShelf(file: string): Shelf {
  return parseShelf(readText(file), basename(file));
}

function shelfOrNew(file: string): Shelf {
  return existsSync(file) ? loadShelf(file) : { version: 1, offcuts: [], bookings: [] };
}

function byHand(id: string, { size, outline, thickness, material }: AddOptions) {
  const given = outline ?? (size === undefined ? null : rectanglePath(sizeOption('--size', size)));
  if (given === null)
    throw new UsageError('Say how large the offcut is: --size 200x150, or --outline with SVG path data.');
  const regions = parseRegions(given, 'the outline');
  const [region] = regions;
  const rectangle = region === undefined ? null : largestRectangle(region);
  if (region === undefined || regions.length > 1 || rectangle === null)
    throw new UsageError('The outline has to be one area with room for a rectangle.');
  return {
    id,
    outline: given,
    areaMm2: regionArea(region),
    rectangle: {
      x: rectangle.minX,
      y: rectangle.minY,
      width: rectangle.maxX - rectangle.minX,
      height: rectangle.maxY - rectangle.minY,
    },
    material: material ?? '',
    thickness: lengthOption('--thickness', thickness),
    grain: false,
    from: 'by hand',
  };
}

function rectanglePath({ width, height }: { readonly width: number; readonly height: number }): string {
  return `M0 0H${width}V${height}H0Z`;
}

function jsonOf(file: string): unknown {
  try {
    return JSON.parse(readText(file));
  } catch (error) {
    if (error instanceof FileError) throw error;
    throw new FileError(`${file} is not JSON.`, { file });
  }
}

function save(file: string, shelf: Shelf): void {
  writeOne(file, `${JSON.stringify(shelf, null, 2)}\n`);
}

/** The day as it is written on the shelf. */
export function today(): string {
  return new Date().toISOString().slice(0, 10);
}

function shelfTable({ offcuts }: Shelf): string {
  if (offcuts.length === 0) return 'The shelf is empty.';
  const sorted = [...offcuts].sort((a, b) => (a.since < b.since ? -1 : a.since > b.since ? 1 : 0));
  return table([
    ['name', 'largest rectangle mm', 'area cm2', 'thick mm', 'material', 'since', 'from'],
    ...sorted.map(({ id, rectangle, areaMm2, thickness, material, since, from }) => [
      id,
      `${rectangle.width.toFixed(0)} x ${rectangle.height.toFixed(0)}`,
      (areaMm2 / 100).toFixed(0),
      String(thickness),
      material === '' ? '-' : material,
      since,
      from,
    ]),
  ]);
}
