import type { Job } from '@underlap/job/document';
import type { Pipeline } from '@underlap/job/pipeline';
import type { Report } from '@underlap/job/report-schema';
import { parseShelf, type Shelf } from '@underlap/job/shelf';
import { bookReport } from '@underlap/job/shelf-report';
import { withShelf } from '@underlap/job/with-shelf';
import type { FileContent, ShelfHelp } from '../workers/api.ts';

/** A shelf file that a person opens; null = a new, empty one. @throws JobError when it is none. */
export function openShelf(text: string | null, name: string): Shelf {
  return text === null ? { version: 1, offcuts: [], bookings: [] } : parseShelf(text, name);
}

/** What of the shelf saves a job a board. @throws JobError as planning does. */
export async function helpOfShelf(job: Job, shelf: Shelf, pipeline: Pipeline, signal: AbortSignal): Promise<ShelfHelp> {
  const {
    job: helped,
    used,
    left,
    boardsWith,
    boardsWithout,
  } = await withShelf(job, shelf, 'oldest', pipeline, {
    signal,
  });
  const { offcuts, stocks, aim } = helped;
  return { take: used.length === 0 ? null : { offcuts, stocks, aim }, used, left, boardsWith, boardsWithout };
}

/** The shelf once a job is cut: what it used is gone, what it left has come. */
export function bookedShelf(shelf: Shelf, report: Report, name: string): { shelf: Shelf; file: FileContent } {
  const booked = bookReport(shelf, report, new Date().toISOString().slice(0, 10));
  const bytes = new TextEncoder().encode(`${JSON.stringify(booked, null, 2)}\n`);
  return { shelf: booked, file: { name, mime: 'application/json', bytes } };
}
