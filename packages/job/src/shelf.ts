import { z } from 'zod';
import { JobError } from './error.ts';

const mm = z.number();

const keptOffcut = z.strictObject({
  id: z.string().min(1).max(40).meta({ description: 'What is burnt on it, or written on it by hand.' }),
  outline: z.string().min(1).meta({ description: 'SVG path data in mm, y down; further subpaths are holes.' }),
  areaMm2: mm.positive(),
  rectangle: z
    .strictObject({ x: mm, y: mm, width: mm.positive(), height: mm.positive() })
    .meta({ description: 'The largest rectangle in it, in the frame of the outline.' }),
  material: z.string().max(120).default(''),
  thickness: mm.positive(),
  grain: z.boolean().default(false),
  from: z.string().max(200).default('').meta({ description: 'The job and sheet that it was left by.' }),
  since: z.string().default('').meta({ description: 'Day on which it came, "2026-05-31".' }),
});

const booking = z.strictObject({
  what: z.enum(['in', 'out']),
  id: z.string(),
  job: z.string(),
  on: z.string(),
});

/** shelf.json: the offcuts of a shop, and what came and went. */
export const shelfSchema = z
  .strictObject({
    version: z.literal(1).default(1),
    offcuts: z.array(keptOffcut).default([]),
    bookings: z.array(booking).default([]),
  })
  .meta({ id: 'UnderlapShelf', title: 'Underlap offcut shelf', description: 'Offcuts on hand. Lengths in mm.' });

export type Shelf = z.output<typeof shelfSchema>;
export type KeptOffcut = Shelf['offcuts'][number];

/** A rest that a job leaves, as its report tells it. */
export type NewOffcut = Omit<KeptOffcut, 'since'>;

/** @throws JobError `job-invalid` naming the place. */
export function parseShelf(text: string, name: string): Shelf {
  let document: unknown;
  try {
    document = JSON.parse(text);
  } catch {
    throw new JobError('job-invalid', `${name} is no shelf file: it is not JSON.`, { file: name });
  }
  const parsed = shelfSchema.safeParse(document);
  if (!parsed.success) {
    const [issue] = parsed.error.issues;
    const field = issue?.path.join('.') ?? '';
    throw new JobError(
      'job-invalid',
      `${name} is no shelf file: ${field === '' ? '' : `${field} `}${issue?.message ?? ''}.`,
      {
        file: name,
        field,
      },
    );
  }
  const twice = parsed.data.offcuts.find(({ id }, at) => parsed.data.offcuts.findIndex((one) => one.id === id) !== at);
  if (twice !== undefined)
    throw new JobError('job-invalid', `${name}: two offcuts are called "${twice.id}".`, {
      file: name,
      field: 'offcuts',
    });
  return parsed.data;
}

/** Put offcuts on the shelf; one that was booked in before, and perhaps used since, stays as it is. */
export function bookIn(shelf: Shelf, offcuts: readonly NewOffcut[], job: string, on: string): Shelf {
  const known = new Set([
    ...shelf.offcuts.map(({ id }) => id),
    ...shelf.bookings.filter(({ what }) => what === 'in').map(({ id }) => id),
  ]);
  const fresh = offcuts.filter(({ id }) => !known.has(id));
  return {
    ...shelf,
    offcuts: [...shelf.offcuts, ...fresh.map((offcut) => ({ ...offcut, since: on }))],
    bookings: [...shelf.bookings, ...fresh.map(({ id }) => ({ what: 'in' as const, id, job, on }))],
  };
}

/** Take offcuts off the shelf; ids that are not on it are left alone. */
export function bookOut(shelf: Shelf, ids: readonly string[], job: string, on: string): Shelf {
  const gone = shelf.offcuts.filter(({ id }) => ids.includes(id));
  return {
    ...shelf,
    offcuts: shelf.offcuts.filter(({ id }) => !ids.includes(id)),
    bookings: [...shelf.bookings, ...gone.map(({ id }) => ({ what: 'out' as const, id, job, on }))],
  };
}

/** Which offcut is tried first. */
export type ShelfOrder = 'oldest' | 'best';

/** An offcut that is not used, and why. */
export interface LeftOnShelf {
  readonly id: string;
  readonly why: string;
}

/** What a job needs of an offcut. */
export interface ShelfNeeds {
  readonly material: string;
  readonly thickness: number;
  /** Area of the job's smallest piece. */
  readonly leastPieceMm2: number;
}

/** Thicknesses nearer than this are one: boards of one kind differ by as much, mm (common practice, no source). */
const SAME_THICKNESS_MM = 0.3;

/**
 * The offcuts that could serve, in the order in which they are tried, and why the others could not.
 * @param order - 'oldest' first; 'best' = the smallest first, so that the large ones wait for large work.
 */
export function offcutsFor(
  shelf: Shelf,
  needs: ShelfNeeds,
  order: ShelfOrder,
): { readonly fit: readonly KeptOffcut[]; readonly left: readonly LeftOnShelf[] } {
  const left: LeftOnShelf[] = [];
  const fit = shelf.offcuts.filter((offcut) => {
    const why = unfitFor(offcut, needs);
    if (why !== null) left.push({ id: offcut.id, why });
    return why === null;
  });
  const sorted = [...fit].sort((a, b) =>
    order === 'oldest'
      ? compare(a.since, b.since) || compare(a.id, b.id)
      : a.areaMm2 - b.areaMm2 || compare(a.id, b.id),
  );
  return { fit: sorted, left };
}

function unfitFor(offcut: KeptOffcut, { material, thickness, leastPieceMm2 }: ShelfNeeds): string | null {
  if (Math.abs(offcut.thickness - thickness) > SAME_THICKNESS_MM)
    return `it is ${offcut.thickness} mm thick, and ${thickness} mm are needed`;
  if (material !== '' && offcut.material !== '' && material.toLowerCase() !== offcut.material.toLowerCase())
    return `it is ${offcut.material}, and ${material} is needed`;
  if (offcut.areaMm2 < leastPieceMm2) return 'not even the smallest piece goes in';
  return null;
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
