import type { Area } from './phrase.ts';

/** The shop's file of offcuts. */
export const SHELF_FILE_WORDS = {
  'shelf-file.title': { en: 'Offcut shelf of the shop, as a file', de: 'Restelager der Werkstatt, als Datei' },
  'shelf-file.label': { en: 'Shelf file', de: 'Lagerdatei' },
  'shelf-file.none': {
    en: 'A shelf file tells which offcuts are on hand; booking writes down what this job uses and leaves.',
    de: 'Eine Lagerdatei sagt, welche Reste da sind; Buchen schreibt auf, was dieser Auftrag verbraucht und übrig lässt.',
  },
  'shelf-file.open': {
    en: '{name}: {n, plural, one {# offcut} other {# offcuts}} on hand.',
    de: '{name}: {n, plural, one {# Rest} other {# Reste}} vorhanden.',
  },
  'shelf-file.choose': { en: 'Open a shelf file', de: 'Lagerdatei öffnen' },
  'shelf-file.use': { en: 'Use what saves a board', de: 'Verwenden, was eine Platte spart' },
  'shelf-file.busy': { en: 'Laying out with the shelf ...', de: 'Legt mit dem Lager aus ...' },
  'shelf-file.book': { en: 'Book this job and save the shelf', de: 'Auftrag buchen und Lager sichern' },
  'shelf-file.help': {
    en: '{names} taken: {boards, plural, one {# board} other {# boards}} to buy instead of {before}.',
    de: '{names} verwendet: {boards, plural, one {# Platte} other {# Platten}} zu kaufen statt {before}.',
  },
  'shelf-file.no-help': { en: 'Nothing of it saves a board.', de: 'Nichts davon spart eine Platte.' },
  'shelf-file.stays': { en: '{name} stays: {why}.', de: '{name} bleibt: {why}.' },
  'step.shelf': { en: 'offcuts from the shelf', de: 'Reste aus dem Lager' },
} as const satisfies Area;
