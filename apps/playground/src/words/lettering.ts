import type { Area } from './phrase.ts';

/** Texts of the drawing, fonts, names, and the lists of designs and stocks. */
export const LETTERING_WORDS = {
  'design.shown': {
    en: 'Shown is {design}, one of {n} designs of this job.',
    de: 'Gezeigt wird {design}, einer von {n} Entwürfen dieses Auftrags.',
  },
  'design.shown-label': { en: 'Design that is shown', de: 'Gezeigter Entwurf' },
  'lettering.more': { en: 'Texts, fonts and names', de: 'Texte, Schriften und Namen' },
  'lettering.no-font': {
    en: 'Texts of the drawing become letters to cut with the file of their font.',
    de: 'Texte der Zeichnung werden mit der Datei ihrer Schrift zu Buchstaben, die geschnitten werden.',
  },
  'lettering.fonts': { en: 'Letters come from {files}.', de: 'Die Buchstaben kommen aus {files}.' },
  'lettering.add': { en: 'Choose or drop a font file', de: 'Schriftdatei wählen oder hierher ziehen' },
  'lettering.forget': { en: 'Leave the fonts out', de: 'Schriften weglassen' },
  'lettering.caution': {
    en: 'Fonts have licences: see that yours allows letters to be cut and sold. The file stays on this device.',
    de: 'Schriften haben Lizenzen: Sieh nach, ob deine erlaubt, Buchstaben zu schneiden und zu verkaufen. Die Datei bleibt auf diesem Gerät.',
  },
  'lettering.joined': {
    en: 'The letters of a word are one part where they overlap.',
    de: 'Die Buchstaben eines Wortes sind ein Teil, wo sie sich überdecken.',
  },
  'lettering.names': {
    en: 'A table of names, one sign a row; the first line names the texts of the drawing',
    de: 'Eine Tabelle mit Namen, ein Schild je Zeile; die erste Zeile nennt die Texte der Zeichnung',
  },
  'lettering.use-names': { en: 'Make these signs', de: 'Diese Schilder machen' },
  'lettering.signs': {
    en: '{n, plural, one {# sign} other {# signs}} to make:',
    de: '{n, plural, one {# Schild} other {# Schilder}} zu machen:',
  },
  'lettering.sign': { en: '{n} x {name}', de: '{n} x {name}' },
  'lettering.sign-for': { en: '{n} x {name} for {order}', de: '{n} x {name} für {order}' },
  'lettering.stock': {
    en: '{name}: {thickness} thick, {n, plural, one {# kind of board} other {# kinds of boards}}.',
    de: '{name}: {thickness} dick, {n, plural, one {# Plattenmaß} other {# Plattenmaße}}.',
  },
  'step.font': { en: 'Font', de: 'Schrift' },
  'step.joined': { en: 'Letters of a word', de: 'Buchstaben eines Wortes' },
  'step.names': { en: 'Table of names', de: 'Tabelle der Namen' },
} as const satisfies Area;
