import type { Area } from './phrase.ts';

/** What the machine and the workshop want to know: marks, colours of processes, flaws of boards, offcuts, the coupon. */
export const SHOP_WORDS = {
  'marks.height': {
    en: 'Numbers and letters are {height} high.',
    de: 'Nummern und Buchstaben sind {height} hoch.',
  },
  'marks.height-label': { en: 'Height of numbers and letters', de: 'Höhe von Nummern und Buchstaben' },
  'marks.letters': { en: 'Letters tell which edges meet.', de: 'Buchstaben sagen, welche Kanten zusammengehören.' },
  'step.text-height': { en: 'height of numbers and letters', de: 'Höhe von Nummern und Buchstaben' },
  'step.letters': { en: 'seam letters', de: 'Nahtbuchstaben' },
  'step.no-letters': { en: 'no seam letters', de: 'keine Nahtbuchstaben' },

  'process.title': { en: 'Colours and layers in the sheets', de: 'Farben und Ebenen in den Tafeln' },
  'process.row': { en: '{process}: colour {colour}, layer {layer}', de: '{process}: Farbe {colour}, Ebene {layer}' },
  'process.engrave': { en: 'Engraved', de: 'Graviert' },
  'process.score': { en: 'Scored', de: 'Geritzt' },
  'process.deep-score': { en: 'Scored deep', de: 'Tief geritzt' },
  'process.cut-inner': { en: 'Cut within', de: 'Innen geschnitten' },
  'process.cut-outer': { en: 'Cut round', de: 'Außen geschnitten' },
  'process.numbers': { en: 'Numbers', de: 'Nummern' },
  'process.colour-label': { en: 'Colour, {process}', de: 'Farbe, {process}' },
  'process.layer-label': { en: 'Layer, {process}', de: 'Ebene, {process}' },
  'process.reset': { en: 'The usual colours and layers', de: 'Die üblichen Farben und Ebenen' },
  'step.process': { en: 'colours and layers in the sheets', de: 'Farben und Ebenen in den Tafeln' },

  'flaw.title': {
    en: '{n, plural, =0 {Flawed places, clamps} one {# flawed place} other {# flawed places}}',
    de: '{n, plural, =0 {Fehlerhafte Stellen, Klemmen} one {# fehlerhafte Stelle} other {# fehlerhafte Stellen}}',
  },
  'flaw.row': {
    en: 'Nothing may lie on {width} × {height}, {x} from the left and {y} from above. {away}',
    de: 'Nichts darf liegen auf {width} × {height}, {x} von links und {y} von oben. {away}',
  },
  'flaw.width-label': { en: 'Width of the flawed place {n}', de: 'Breite der Stelle {n}' },
  'flaw.height-label': { en: 'Height of the flawed place {n}', de: 'Höhe der Stelle {n}' },
  'flaw.x-label': { en: 'Flawed place {n} from the left', de: 'Stelle {n} von links' },
  'flaw.y-label': { en: 'Flawed place {n} from above', de: 'Stelle {n} von oben' },
  'flaw.add': { en: 'Add a flawed place', de: 'Eine Stelle hinzufügen' },
  'step.flaw': { en: 'flawed places of a board', de: 'fehlerhafte Stellen einer Platte' },

  'own-offcut.title': { en: 'Use an offcut of my own', de: 'Einen eigenen Rest verwenden' },
  'own-offcut.sentence': {
    en: 'It is called {name}, and its outline is {outline}.',
    de: 'Er heißt {name}, und sein Umriss ist {outline}.',
  },
  'own-offcut.hint': {
    en: 'The outline is a size such as 300 x 200, or path data of SVG in mm; further closed paths in it are holes.',
    de: 'Der Umriss ist eine Größe wie 300 x 200 oder SVG-Pfaddaten in mm; weitere geschlossene Pfade darin sind Löcher.',
  },
  'own-offcut.name-label': { en: 'Name of the offcut', de: 'Name des Rests' },
  'own-offcut.outline-label': { en: 'Outline of the offcut', de: 'Umriss des Rests' },
  'own-offcut.default-name': { en: 'Offcut {n}', de: 'Rest {n}' },
  'own-offcut.add': { en: 'Lay pieces on it', de: 'Stücke darauf legen' },
  'own-offcut.refused': {
    en: 'That is neither a size nor the data of a closed path.',
    de: 'Das sind weder eine Größe noch die Daten eines geschlossenen Pfads.',
  },

  'bridges.sentence': {
    en: '{number} uncut bridges round each piece keep it in its board, each {width} wide.',
    de: '{number} ungeschnittene Stege um jedes Stück halten es in seiner Platte, jeder {width} breit.',
  },
  'bridges.number-label': { en: 'Bridges round each piece', de: 'Stege um jedes Stück' },
  'bridges.width-label': { en: 'Width of a bridge', de: 'Breite eines Stegs' },
  'step.bridges': { en: 'bridges', de: 'Stege' },
  'masks.sentence': {
    en: 'Faces that stay bare for glue: {masks}.',
    de: 'Flächen, die für den Leim roh bleiben: {masks}.',
  },
  'masks.label': { en: 'Masks', de: 'Masken' },
  'masks.none': { en: 'no files', de: 'keine Dateien' },
  'masks.score': { en: 'lines to score through film on the piece', de: 'Linien zum Ritzen durch Folie auf dem Stück' },
  'masks.stencil': { en: 'masks to cut from film or paper', de: 'Masken zum Schneiden aus Folie oder Papier' },
  'step.masks': { en: 'masks', de: 'Masken' },

  'coupon.sentence': {
    en: 'Not sure of kerf and fit? {take} and measure what the machine really removes.',
    de: 'Schnittbreite und Passung unsicher? {take} und messen, was die Maschine wirklich wegnimmt.',
  },
  'coupon.take': { en: 'Cut a test coupon', de: 'Ein Probestück schneiden' },
} as const satisfies Area;
