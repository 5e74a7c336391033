import type { Area } from './phrase.ts';

/** Editable places of sentences and what is said when something typed cannot be used. */
export const PLACE_WORDS = {
  'place.in-unit': { en: '{label}, {unit}', de: '{label}, {unit}' },
  'place.not-a-length': {
    en: 'That is not a length. Write one from {least} to {most}.',
    de: 'Das ist keine Länge. Möglich ist {least} bis {most}.',
  },
  'place.length-range': { en: 'This can be {least} to {most}.', de: 'Möglich ist {least} bis {most}.' },
  'place.whole-range': {
    en: 'Write a whole number from {least} to {most}.',
    de: 'Möglich ist eine ganze Zahl von {least} bis {most}.',
  },
  'place.number-range': {
    en: 'Write a number from {least} to {most}.',
    de: 'Möglich ist eine Zahl von {least} bis {most}.',
  },
  'place.or-empty': { en: '{label} (empty: {empty})', de: '{label} (leer: {empty})' },
  'place.count': {
    en: 'Write a whole number, or leave it empty for {empty}.',
    de: 'Möglich ist eine ganze Zahl; leer heißt: {empty}.',
  },
  'place.too-long': { en: 'At most {n} letters.', de: 'Höchstens {n} Zeichen.' },
  'unit.mm': { en: 'mm', de: 'mm' },
  'unit.in': { en: 'in', de: 'Zoll' },
  'unit.name-mm': { en: 'mm', de: 'mm' },
  'unit.name-in': { en: 'inches', de: 'Zoll' },
  'unit.cm2': { en: '{area} cm²', de: '{area} cm²' },
  'unit.minutes': { en: 'minutes', de: 'Minuten' },
  'unit.mm-per-second': { en: 'mm/s', de: 'mm/s' },
  'unit.percent': { en: '%', de: '%' },
  'unit.kilobytes': { en: '{size} kB', de: '{size} kB' },
} as const satisfies Area;
