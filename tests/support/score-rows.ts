import { readArtwork } from '@underlap/artwork/read-artwork';
import { distancePointToRing } from '@underlap/geometry/distance';
import { jobFrom } from '@underlap/job/parse-job';
import { signStage } from '@underlap/job/sign-stage';
import type { Part, Sign } from '@underlap/stack/sign';
import type { MeantPart, RowDrawing } from './random-rows.ts';

/** As its maker meant it; otherwise, but told by a warning that says where; otherwise without a word. */
export interface RowScore {
  readonly outcome: 'right' | 'told' | 'silent';
  /** What differs and is not told. */
  readonly faults: readonly string[];
}

/** Outlines of guides are drawn up to 0.6 mm off, and a part is laid as well as they say. */
const PLACE_MM = 0.25;

/** Warnings that tell of parts and holes read otherwise than meant, and of guides that are cut. */
const PART_WARNINGS = ['twin-outlines', 'hole-or-part', 'crossing-outline', 'open-cut'];

const JOB = jobFrom({ bed: '900x900', boards: ['900x900'], artwork: {} }, 'rows');

export function signOfRows({ data, name }: RowDrawing): Sign {
  return signStage(readArtwork(data, { name }), JOB);
}

export function scoreRows(drawing: RowDrawing, sign: Sign = signOfRows(drawing)): RowScore {
  const warned = new Set(sign.complaints.filter(({ severity }) => severity !== 'note').map(({ code }) => code));
  const told = new Set([...sign.complaints.map(({ code }) => code), ...sign.repairs.map(({ kind }) => kind as string)]);
  const faults = drawing.mustTell.filter((code) => !told.has(code)).map((code) => `${code} is not told`);
  const open = [...sign.parts];
  const missing = drawing.parts.filter((meant) => {
    const at = open.findIndex((part) => isMeant(part, meant, shiftOf(sign, drawing)));
    if (at >= 0) open.splice(at, 1);
    return at < 0;
  });
  const isPartTold = PART_WARNINGS.some((code) => warned.has(code));
  // A part that is only not laid where it belongs is told by name.
  const unplaced = sign.complaints.filter(({ code }) => code === 'unplaced-part').length;
  const unexplained = Math.max(missing.length, open.length) - unplaced;
  if (unexplained > 0 && !isPartTold)
    faults.push(
      `${missing.map(({ kind }) => kind).join(', ')} not as meant; also ${open.map(({ id }) => id).join(', ')}`,
    );
  const marks = { score: 0, engrave: 0 };
  for (const { process } of sign.parts.flatMap((part) => part.marks)) if (process !== 'deep-score') marks[process]++;
  const isMarked = marks.score === drawing.marks.score && marks.engrave === drawing.marks.engrave;
  // Guides drawn as areas may be burnt as areas, and that is told.
  const isSwapped = marks.score + marks.engrave === drawing.marks.score + drawing.marks.engrave;
  if (!isMarked && !isPartTold && !(isSwapped && warned.has('fill-in-cut')))
    faults.push(`marks ${JSON.stringify(marks)} for ${JSON.stringify(drawing.marks)}`);
  const isRight = missing.length === 0 && open.length === 0 && isMarked;
  return { outcome: faults.length > 0 ? 'silent' : isRight ? 'right' : 'told', faults };
}

/** A DXF is read with its upper left corner at 0, 0: the plate, which never moves, tells by how much. */
function shiftOf(sign: Sign, { name }: RowDrawing): { x: number; y: number } {
  if (!name.endsWith('.dxf')) return { x: 0, y: 0 };
  const plate = sign.parts.find(({ region }) => Math.abs(widthOf(region.outer) - 300) < 0.01);
  if (plate === undefined) return { x: 0, y: 0 };
  const { outer } = plate.region;
  return { x: least(outer, 0) - 20, y: least(outer, 1) - 20 };
}

function least(ring: Float64Array, axis: 0 | 1): number {
  let low = Infinity;
  for (let i = axis; i < ring.length; i += 2) low = Math.min(low, ring[i]!);
  return low;
}

function widthOf(ring: Float64Array): number {
  return (
    -least(
      ring.map((value) => -value),
      0,
    ) - least(ring, 0)
  );
}

function isMeant({ region, shape, place }: Part, meant: MeantPart, shift: { x: number; y: number }): boolean {
  if (shape.holes.length !== meant.holes || (meant.isPlaced && meant.kind !== 'plate' && place !== 'assembled'))
    return false;
  return meant.points.every(({ x, y }) => distancePointToRing(x + shift.x, y + shift.y, region.outer) <= PLACE_MM);
}
