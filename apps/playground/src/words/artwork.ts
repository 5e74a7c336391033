import type { Area } from './phrase.ts';

/** The drawing as it was read: size, colours, layers, complaints, parts. */
export const ARTWORK_WORDS = {
  'artwork.title': { en: 'Artwork', de: 'Zeichnung' },
  'artwork.reading': { en: 'Reading the drawing', de: 'Die Zeichnung wird gelesen' },
  'artwork.unreadable': {
    en: 'Nothing could be read from this file',
    de: 'Aus dieser Datei war nichts zu lesen',
  },
  'artwork.scene': {
    en: 'The drawing, {n, plural, one {# part} other {# parts}}',
    de: 'Die Zeichnung, {n, plural, one {# Teil} other {# Teile}}',
  },
  'artwork.mode': {
    en: 'Its shapes {mode}.',
    de: 'Ihre Formen {mode}.',
  },
  'artwork.mode-label': { en: 'How the shapes lie', de: 'Wie die Formen liegen' },
  'artwork.seems-stacked': { en: 'lie on one another, it seems', de: 'liegen aufeinander, wie es scheint' },
  'artwork.seems-spread': { en: 'lie side by side, it seems', de: 'liegen nebeneinander, wie es scheint' },
  'artwork.stacked': { en: 'lie on one another', de: 'liegen aufeinander' },
  'artwork.spread': { en: 'lie side by side', de: 'liegen nebeneinander' },
  'artwork.matches': {
    en: '{n, plural, one {# part} other {# parts}} found their place by a scored outline.',
    de: '{n, plural, one {# Teil fand seinen} other {# Teile fanden ihren}} Platz durch einen geritzten Umriss.',
  },
  'artwork.more': { en: 'More about reading', de: 'Mehr zum Lesen' },
  'artwork.repair': {
    en: 'Small faults are mended, and each is told.',
    de: 'Kleine Fehler werden behoben, und jeder wird gemeldet.',
  },
  'artwork.keep-page': {
    en: 'A white rectangle as large as the page is a part.',
    de: 'Ein weißes Rechteck so groß wie die Seite ist ein Teil.',
  },
  'artwork.close-gap': { en: 'Gaps up to {gap} are closed.', de: 'Lücken bis {gap} werden geschlossen.' },
  'artwork.close-gap-label': { en: 'Largest gap that is closed', de: 'Größte Lücke, die geschlossen wird' },
  'artwork.how-large': {
    en: '<strong>How large is it?</strong> The file does not say.',
    de: '<strong>Wie groß ist es?</strong> Die Datei sagt es nicht.',
  },
  'artwork.choice': {
    en: '{width} wide <small>({n} to the inch)</small>',
    de: '{width} breit <small>({n} auf den Zoll)</small>',
  },
  'artwork.or-wide': { en: 'or it is {width} wide.', de: 'oder es ist {width} breit.' },
  'artwork.width-label': { en: 'Width of the drawing', de: 'Breite der Zeichnung' },
  'artwork.size-by-file': {
    en: 'The drawing is {width} wide and {height} high, as the file says.',
    de: 'Die Zeichnung ist {width} breit und {height} hoch, wie die Datei sagt.',
  },
  'artwork.size-by-user': {
    en: 'The drawing is {width} wide and {height} high, as you said.',
    de: 'Die Zeichnung ist {width} breit und {height} hoch, wie gesagt.',
  },
  'artwork.ask-again': { en: 'Ask again', de: 'Noch einmal fragen' },

  'use.paint': { en: 'paint of its part', de: 'Farbe ihres Teils' },
  'use.cut': { en: 'cut', de: 'geschnitten' },
  'use.score': { en: 'scored', de: 'geritzt' },
  'use.deep-score': { en: 'scored deep', de: 'tief geritzt' },
  'use.engrave': { en: 'engraved', de: 'graviert' },
  'use.ignore': { en: 'left out', de: 'weggelassen' },
  'use.mixed': { en: 'several things', de: 'mehreres' },
  'use.all-paint': {
    en: 'Every shape is cut out; its colour is its paint.',
    de: 'Jede Form wird ausgeschnitten; ihre Farbe ist ihr Anstrich.',
  },
  'use.fold-all': {
    en: 'What {kinds} {n, plural, one { is} other { are}} taken for',
    de: 'Wofür {kinds} {n, plural, one {genommen wird} other {genommen werden}}',
  },
  'use.fold-others': {
    en: 'What the other {kinds} {n, plural, one { is} other { are}} taken for',
    de: 'Wofür weitere {kinds} {n, plural, one {genommen wird} other {genommen werden}}',
  },
  'use.colours': {
    en: '{n, plural, one {# colour} other {# colours}}',
    de: '{n, plural, one {# Farbe} other {# Farben}}',
  },
  'use.layers': {
    en: '{n, plural, one {# layer} other {# layers}}',
    de: '{n, plural, one {# Ebene} other {# Ebenen}}',
  },
  'use.shapes': {
    en: '{n, plural, one {# shape} other {# shapes}}',
    de: '{n, plural, one {# Form} other {# Formen}}',
  },
  'use.areas': {
    en: '{n, plural, one {# area} other {# areas}}',
    de: '{n, plural, one {# Fläche} other {# Flächen}}',
  },
  'use.lines': {
    en: '{n, plural, one {# line} other {# lines}}',
    de: '{n, plural, one {# Linie} other {# Linien}}',
  },
  'use.head': { en: 'Colour or layer', de: 'Farbe oder Ebene' },
  'use.head-taken': { en: 'Taken for', de: 'Genommen für' },
  'use.layer-row': {
    en: '<small>layer</small> {name} <small>({amount})</small>',
    de: '<small>Ebene</small> {name} <small>({amount})</small>',
  },
  'use.colour-row': { en: '{name} <small>({amount})</small>', de: '{name} <small>({amount})</small>' },
  'use.layer-label': { en: 'What the layer {name} is taken for', de: 'Wofür die Ebene {name} genommen wird' },
  'use.colour-label': { en: 'What {name} is taken for', de: 'Wofür {name} genommen wird' },
  'use.as-drawn': { en: 'As the drawing says', de: 'Wie die Zeichnung sagt' },

  'complaint.mended': { en: 'Mended: {message}', de: 'Behoben: {message}' },
  'complaint.look': { en: 'Look here: {message}', de: 'Bitte ansehen: {message}' },
  'complaint.repairs': {
    en: '{n, plural, one {# repair} other {# repairs}}',
    de: '{n, plural, one {# Reparatur} other {# Reparaturen}}',
  },
  'complaint.notes': {
    en: '{n, plural, one {# note} other {# notes}}',
    de: '{n, plural, one {# Hinweis} other {# Hinweise}}',
  },

  'parts.title': {
    en: '{n, plural, one {The only part} other {The # parts, bottom first}}',
    de: '{n, plural, one {Das einzige Teil} other {Die # Teile, das unterste zuerst}}',
  },
  'parts.size-holes': {
    en: '{size}, {n, plural, one {# hole} other {# holes}}',
    de: '{size}, {n, plural, one {# Loch} other {# Löcher}}',
  },
  'thing.paint': { en: 'paint {paint}', de: 'Anstrich {paint}' },
  'thing.bare': { en: 'bare wood', de: 'rohes Holz' },
  'thing.part': { en: '{name}, {paint}', de: '{name}, {paint}' },
  'thing.part-layer': { en: '{name}, layer {layer}, {paint}', de: '{name}, Ebene {layer}, {paint}' },
} as const satisfies Area;
