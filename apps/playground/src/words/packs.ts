import type { Area } from './phrase.ts';

/** Packs of files for other beds, for those who sell designs. */
export const PACKS_WORDS = {
  'packs.title': {
    en: 'Packs for other beds, to sell or to give away',
    de: 'Pakete für andere Betten, zum Verkaufen oder Weitergeben',
  },
  'packs.beds': { en: 'The same design for beds of {beds}.', de: 'Derselbe Entwurf für Betten von {beds}.' },
  'packs.beds-label': { en: 'Beds, mm, separated by commas', de: 'Betten, mm, durch Kommas getrennt' },
  'packs.not-beds': {
    en: 'Give one to eight sizes such as 300x200, 12x8in.',
    de: 'Bitte ein bis acht Größen wie 300x200, 12x8in angeben.',
  },
  'packs.licence': { en: 'Whoever has the files may: {licence}', de: 'Wer die Dateien hat, darf: {licence}' },
  'packs.licence-label': { en: 'Licence', de: 'Lizenz' },
  'packs.licence-none': { en: 'not stated', de: 'nicht angegeben' },
  'packs.hold': {
    en: 'A folder a bed: sheets as SVG, DXF and PDF, build guide, shop sheet, read-me with size, pieces, boards, what is hidden and held, and the licence; a picture of the finished sign, and one that compares the beds.',
    de: 'Je Bett ein Ordner: Tafeln als SVG, DXF und PDF, Bauanleitung, Werkblatt, Lies-mich mit Größe, Stücken, Platten, was verdeckt und gehalten ist, und der Lizenz; ein Bild des fertigen Schilds und eines, das die Betten vergleicht.',
  },
  'packs.make': { en: 'Make the packs', de: 'Pakete machen' },
  'packs.busy': { en: 'Bed {n} of {all} ...', de: 'Bett {n} von {all} ...' },
  'step.licence': { en: 'licence', de: 'Lizenz' },
} as const satisfies Area;
