import type { Desk } from '../state/desk.ts';

const KEY = 'underlap-last-words';

/** The desk as it was when this tab was left, written at once: the database may be too slow for a page that goes. */
export interface LastWords {
  readonly jobId: string;
  readonly at: number;
  /** Without its artwork's text where the database has the same. */
  readonly desk: Desk;
  readonly isTextLeftOut: boolean;
}

type Shelf = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

/**
 * Write the desk down before the page goes.
 * @param kept - the desk that the database has for this job, null when it has none.
 */
export function writeLastWords(shelf: Shelf, jobId: string, desk: Desk, kept: Desk | null, at: number): void {
  const isTextLeftOut = kept !== null && kept.job.artwork.text === desk.job.artwork.text;
  const { artwork } = desk.job;
  const job = isTextLeftOut ? { ...desk.job, artwork: { ...artwork, text: null } } : desk.job;
  const words: LastWords = { jobId, at, desk: { ...desk, job }, isTextLeftOut };
  try {
    shelf.setItem(KEY, JSON.stringify(words));
  } catch {
    // too large for this shelf, or refused: what the database has must do
  }
}

/** What was written when the tab was left, once; null when there is nothing for this job, or nothing newer than `keptAt`. */
export function readLastWords(shelf: Shelf, jobId: string, keptAt: number): LastWords | null {
  try {
    const text = shelf.getItem(KEY);
    shelf.removeItem(KEY);
    if (text === null) return null;
    const words = JSON.parse(text) as LastWords;
    return words.jobId === jobId && words.at >= keptAt && typeof words.desk === 'object' ? words : null;
  } catch {
    return null;
  }
}

/** The desk with the artwork's text put back; null where it is needed and not there. */
export function deskOf({ desk, isTextLeftOut }: LastWords, kept: Desk | null): Desk | null {
  if (!isTextLeftOut) return desk;
  const text = kept?.job.artwork.text ?? null;
  if (text === null) return null;
  return { ...desk, job: { ...desk.job, artwork: { ...desk.job.artwork, text } } };
}
