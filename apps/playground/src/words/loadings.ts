import type { Area } from './phrase.ts';

/** How boards get under the beam when they are larger than the bed. */
export const LOADING_WORDS = {
  'loading.section': { en: 'How the boards lie on the bed', de: 'Wie die Platten auf dem Bett liegen' },
  'loading.sheet-moved': {
    en: 'Sheet {n} is larger than the bed: it is loaded {count} times and moved in between.',
    de: 'Tafel {n} ist größer als das Bett: sie wird {count}-mal aufgelegt und dazwischen verschoben.',
  },
  'loading.sheet-once': {
    en: 'Sheet {n} is larger than the bed, but one loading reaches all its pieces.',
    de: 'Tafel {n} ist größer als das Bett, aber eine Lage erreicht alle ihre Stücke.',
  },
  'loading.sheet-panels': {
    en: 'Sheet {n} is larger than the bed: it is sawn into {count, plural, one {# panel} other {# panels}} first.',
    de: 'Tafel {n} ist größer als das Bett: sie wird zuerst in {count, plural, one {# Zuschnitt} other {# Zuschnitte}} gesägt.',
  },
  'loading.like': {
    en: '{n, plural, one {# more sheet is} other {# more sheets are}} loaded the same way.',
    de: '{n, plural, one {# weitere Tafel wird} other {# weitere Tafeln werden}} genauso aufgelegt.',
  },
  'loading.reach': {
    en: 'The bed reaches {size} of the board, from {x} to the right and {y} down of its corner; {n, plural, one {# piece} other {# pieces}}.',
    de: 'Das Bett erreicht {size} der Platte, ab {x} nach rechts und {y} nach unten von ihrer Ecke; {n, plural, one {# Stück} other {# Stücke}}.',
  },
  'loading.panel': {
    en: 'Saw out {size}, {x} to the right and {y} down of the corner; {n, plural, one {# piece} other {# pieces}}.',
    de: '{size} heraussägen, {x} nach rechts und {y} nach unten von der Ecke; {n, plural, one {# Stück} other {# Stücke}}.',
  },
  'loading.stops': {
    en: 'Set the stops so that the left edge of the board lies {left} and its upper edge {upper} the corner where the file begins.',
    de: 'Die Anschläge so setzen, dass die linke Kante der Platte {left} und ihre obere Kante {upper} der Ecke liegt, an der die Datei beginnt.',
  },
  'loading.move': { en: 'Then move the board {way}.', de: 'Dann die Platte {way} schieben.' },
  'loading.at-corner': { en: 'at', de: 'an' },
  'loading.left-of': { en: '{length} left of', de: '{length} links' },
  'loading.right-of': { en: '{length} right of', de: '{length} rechts' },
  'loading.above': { en: '{length} above', de: '{length} über' },
  'loading.below': { en: '{length} below', de: '{length} unter' },
  'loading.to-left': { en: '{length} to the left', de: '{length} nach links' },
  'loading.to-right': { en: '{length} to the right', de: '{length} nach rechts' },
  'loading.up': { en: '{length} up', de: '{length} nach oben' },
  'loading.down': { en: '{length} down', de: '{length} nach unten' },
  'loading.turned': {
    en: 'The file is turned by a quarter, clockwise: turn the board likewise.',
    de: 'Die Datei ist um ein Viertel im Uhrzeigersinn gedreht: die Platte ebenso drehen.',
  },
  'loading.show': { en: 'Show loading {n} of sheet {sheet}', de: 'Lage {n} von Tafel {sheet} zeigen' },
  'loading.all': { en: 'Show all pieces again', de: 'Wieder alle Stücke zeigen' },
} as const satisfies Area;
