import type { Area } from './phrase.ts';

/** What wants to be looked at, told in every stage that comes after it. */
export const MATTER_WORDS = {
  'matter.before': { en: 'To look at before this', de: 'Vorher anzusehen' },
  'matter.in-stage': { en: '{stage}: {words}', de: '{stage}: {words}' },
  'matter.times': { en: '{n} × {words}', de: '{n} × {words}' },
  'matter.show': { en: 'Show it', de: 'Zeigen' },
  'matter.more': {
    en: '{n, plural, one {And # more} other {And # more}}',
    de: '{n, plural, one {Und noch # Stelle} other {Und noch # Stellen}}',
  },
  'matter.size': { en: 'The size of the drawing is not known.', de: 'Die Größe der Zeichnung ist nicht bekannt.' },
  'matter.cannot': { en: '{part} cannot be made to fit: {why}', de: '{part} passt nicht: {why}' },
  'matter.seam-shows': {
    en: '{length} of the seam in {part} stay in sight.',
    de: '{length} der Naht in {part} bleiben sichtbar.',
  },
  'matter.no-sheet': {
    en: 'There is no sheet: nothing would be cut.',
    de: 'Es gibt keine Tafel: nichts würde geschnitten.',
  },
  'matter.too-large': {
    en: '{file} is larger than the bed.',
    de: '{file} ist größer als das Bett.',
  },
  'matter.place': { en: 'Show the place', de: 'Die Stelle zeigen' },
  'thing.piece': { en: '{name} ({number})', de: '{name} ({number})' },
} as const satisfies Area;
