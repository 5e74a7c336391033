import type { Area } from './phrase.ts';

/** What a newcomer is told. */
export const WELCOME_WORDS = {
  'welcome.section': { en: 'First steps', de: 'Erste Schritte' },
  'welcome.what': {
    en: 'Underlap takes the drawing of a layered wooden sign to the files your laser cuts, and splits what is too large for its bed along seams that the upper layers hide.',
    de: 'Underlap macht aus der Zeichnung eines Holzschilds in Schichten die Dateien, die dein Laser schneidet, und teilt, was zu groß für sein Bett ist, an Nähten, die obere Schichten verdecken.',
  },
  'welcome.sample': {
    en: 'What you see is a sample: change anything, nothing can break.',
    de: 'Was hier liegt, ist ein Beispiel: alles darf geändert werden, nichts geht kaputt.',
  },
  'welcome.step-drawing': {
    en: '<strong>Drop your drawing</strong> here or choose it: SVG or DXF, parts as filled shapes or as outlines.',
    de: '<strong>Die eigene Zeichnung</strong> hier loslassen oder auswählen: SVG oder DXF, Teile als gefüllte Formen oder als Umrisse.',
  },
  'welcome.step-bed': {
    en: '<strong>Say what you have</strong>: the bed in Split, the boards and how many signs in Boards.',
    de: '<strong>Sagen, was da ist</strong>: das Bett unter Teilung, die Platten und wie viele Schilder unter Platten.',
  },
  'welcome.step-files': {
    en: '<strong>Take the files</strong> in Files, once everything is checked.',
    de: '<strong>Die Dateien mitnehmen</strong> unter Dateien, sobald alles geprüft ist.',
  },
  'welcome.drop': { en: 'Drop a drawing here', de: 'Zeichnung hier loslassen' },
  'welcome.choose': { en: 'or choose a file', de: 'oder Datei auswählen' },
  'welcome.hide': { en: 'Hide this', de: 'Ausblenden' },
  'welcome.is-sample': { en: 'a sample', de: 'ein Beispiel' },
} as const satisfies Area;
