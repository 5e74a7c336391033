import type { Drawing } from '@underlap/artwork/drawing';
import { type LetterFont, openFont } from '@underlap/lettering/font';
import { letterDrawing } from '@underlap/lettering/letter-drawing';
import { contentKey } from './content-key.ts';
import type { Job } from './document.ts';
import { Memo } from './memo.ts';
import { jobForPart } from './stock-of.ts';

/** Opened fonts, by their bytes: a day opens each once. */
const opened = new Memo<LetterFont>(20);

/**
 * The drawing with its texts as letters, as the job says; one without texts, or of open size, is returned as it is.
 * @throws LetteringError for a file that is no font, for words without a font, a place that is not there, or too little room.
 */
export async function letteredDrawing(drawing: Drawing, job: Job): Promise<Drawing> {
  const { fonts, letters, weld, score, words, rooms } = job.lettering;
  const hasWords = Object.keys(words).length > 0;
  if (drawing.size.kind === 'open' || (drawing.texts.length === 0 && !hasWords)) return drawing;
  const own = drawing.texts.length === 0 ? [] : fonts;
  return letterDrawing(drawing, {
    fonts: await Promise.all(own.map(({ data, file }, at) => fontOf(data ?? '', file ?? `font ${at + 1}`))),
    letters,
    weldMm: weld,
    score,
    leastStrokeMm: ({ id, fill, layer }) => jobForPart(job, { id, paint: fill, layer }).thickness,
    words,
    rooms: Object.fromEntries(
      Object.entries(rooms).map(([place, { width, height }]) => [place, { width, height: height ?? undefined }]),
    ),
  });
}

function fontOf(data: string, file: string): Promise<LetterFont> {
  return opened.of(contentKey(data), () => openFont(bytesOf(data), file));
}

function bytesOf(base64: string): Uint8Array {
  const text = atob(base64);
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
  return bytes;
}

/** What the letters of a job depend on, for a key; fonts by their content. */
export function letteringKey(job: Job, keyOfText: (text: string) => string): unknown {
  const { fonts, names: _, ...rest } = job.lettering;
  return [fonts.map(({ data, file }) => keyOfText(data ?? file ?? '')), rest, job.thickness, job.stockOf, job.stocks];
}
