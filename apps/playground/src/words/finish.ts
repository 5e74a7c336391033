import type { Area } from './phrase.ts';

/** The finish line: what the sign brings, what it costs, and the sheets in their order. */
export const FINISH_WORDS = {
  'finish.price': {
    en: '<small>One sign sells at</small> <strong>{sum} {currency}</strong>',
    de: '<small>Ein Schild wird verkauft für</small> <strong>{sum} {currency}</strong>',
  },
  'finish.cost': {
    en: '<small>and costs</small> <strong>{sum} {currency}</strong>',
    de: '<small>und kostet</small> <strong>{sum} {currency}</strong>',
  },
  'finish.no-prices': {
    en: 'What a sign costs is reckoned once boards and hours have a price.',
    de: 'Was ein Schild kostet, wird gerechnet, sobald Platten und Stunden einen Preis haben.',
  },
  'finish.time': {
    en: '<small>The machine runs about</small> <strong>{n, plural, one {# minute} other {# minutes}}</strong>',
    de: '<small>Die Maschine läuft etwa</small> <strong>{n, plural, one {# Minute} other {# Minuten}}</strong>',
  },
  'finish.sheet': { en: 'Sheet {n}', de: 'Tafel {n}' },
  'finish.loading': { en: 'Sheet {n}, loading {loading}', de: 'Tafel {n}, Lage {loading}' },
  'finish.times': { en: '{words} × {times}', de: '{words} × {times}' },
  'finish.sign': { en: 'The finished sign', de: 'Das fertige Schild' },
  'finish.all-files': {
    en: '{n, plural, one {The file} other {All # files}}, one by one',
    de: '{n, plural, one {Die Datei} other {Alle # Dateien}}, einzeln',
  },
  'paper.title': { en: 'To look at and to print', de: 'Zum Ansehen und Drucken' },
  'paper.shop-sheet': { en: 'shop sheet', de: 'Werkblatt' },
  'paper.build-guide': { en: 'build guide', de: 'Bauanleitung' },
  'paper.build-guide-of': { en: '{design} build guide', de: 'Bauanleitung {design}' },
  'paper.look': { en: 'Look at', de: 'Ansehen' },
  'paper.look-at': { en: 'Look at the {paper}', de: '{paper} ansehen' },
  'paper.close-it': { en: 'Close the {paper}', de: '{paper} schließen' },
  'paper.print': { en: 'Print', de: 'Drucken' },
  'paper.print-it': { en: 'Print the {paper}', de: '{paper} drucken' },
  'paper.printing': { en: '{paper}, printing', de: '{paper}, wird gedruckt' },
  'finish.show-sign': { en: 'Show the sign again', de: 'Wieder das Schild zeigen' },
} as const satisfies Area;
