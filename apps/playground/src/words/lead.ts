import type { Area } from './phrase.ts';

/** The one large sentence that a stage begins with: what came out. */
export const LEAD_WORDS = {
  'lead.at-work': { en: 'At work on it.', de: 'Ist in Arbeit.' },
  'lead.waits': { en: 'Waits for the step before.', de: 'Wartet auf den Schritt davor.' },
  'lead.stopped': { en: 'Stopped.', de: 'Angehalten.' },
  'lead.failed': { en: 'This cannot be done yet.', de: 'Das geht noch nicht.' },
  'lead.size-open': { en: 'Read, but how large is it?', de: 'Gelesen, aber wie groß ist es?' },
  'lead.artwork': {
    en: '{n, plural, one {# part} other {# parts}}, {size}: read without a fault.',
    de: '{n, plural, one {# Teil} other {# Teile}}, {size}: ohne Fehler gelesen.',
  },
  'lead.artwork-look': {
    en: '{n, plural, one {# part} other {# parts}}, {size}; {look, plural, one {# thing wants} other {# things want}} to be looked at.',
    de: '{n, plural, one {# Teil} other {# Teile}}, {size}; {look, plural, one {# Stelle ist} other {# Stellen sind}} anzusehen.',
  },
  'lead.stack': {
    en: '{n, plural, one {# part} other {# parts}} in {layers, plural, one {# layer} other {# layers}}, {height} thick: everything is carried.',
    de: '{n, plural, one {# Teil} other {# Teile}} in {layers, plural, one {# Lage} other {# Lagen}}, {height} dick: alles wird getragen.',
  },
  'lead.stack-look': {
    en: '{n, plural, one {# part rests badly or hangs in the air.} other {# parts rest badly or hang in the air.}}',
    de: '{n, plural, one {# Teil liegt schlecht auf oder hängt in der Luft.} other {# Teile liegen schlecht auf oder hängen in der Luft.}}',
  },
  'lead.fits-whole': { en: 'Every part fits the bed whole.', de: 'Jedes Teil passt im Ganzen auf das Bett.' },
  'lead.cannot-fit': {
    en: '{n, plural, one {# part cannot be made to fit the bed.} other {# parts cannot be made to fit the bed.}}',
    de: '{n, plural, one {# Teil lässt sich nicht auf das Bett bringen.} other {# Teile lassen sich nicht auf das Bett bringen.}}',
  },
  'lead.split-hidden': {
    en: '{names} {parts, plural, one { is} other { are}} cut in {n} pieces, and no seam shows.',
    de: '{names} {parts, plural, one {wird} other {werden}} in {n} Stücke geteilt, und keine Naht ist zu sehen.',
  },
  'lead.split-shows': {
    en: '{names} {parts, plural, one { is} other { are}} cut in {n} pieces; {length} of seam stays in sight.',
    de: '{names} {parts, plural, one {wird} other {werden}} in {n} Stücke geteilt; {length} Naht bleiben sichtbar.',
  },
  'lead.boards-proved': {
    en: '{n, plural, one {# board} other {# boards}} for {signs, plural, one {# sign} other {# signs}}, {share} used: fewer are impossible.',
    de: '{n, plural, one {# Platte} other {# Platten}} für {signs, plural, one {# Schild} other {# Schilder}}, {share} genutzt: weniger ist unmöglich.',
  },
  'lead.boards': {
    en: '{n, plural, one {# board} other {# boards}} for {signs, plural, one {# sign} other {# signs}}, {share} used; at least {least} needed.',
    de: '{n, plural, one {# Platte} other {# Platten}} für {signs, plural, one {# Schild} other {# Schilder}}, {share} genutzt; mindestens {least} nötig.',
  },
  'lead.unplaced': {
    en: '{n, plural, one {# piece has} other {# pieces have}} no place on the boards.',
    de: '{n, plural, one {# Stück hat} other {# Stücke haben}} keinen Platz auf den Platten.',
  },
  'lead.files': {
    en: '{n, plural, one {# sheet is} other {# sheets are}} ready to be cut, read back and checked.',
    de: '{n, plural, one {# Tafel ist} other {# Tafeln sind}} fertig zum Schneiden, zurückgelesen und geprüft.',
  },
  'lead.files-unplaced': {
    en: 'No sheet is written: {n, plural, one {# piece has} other {# pieces have}} no place on the boards.',
    de: 'Keine Tafel ist geschrieben: {n, plural, one {# Stück hat} other {# Stücke haben}} keinen Platz auf den Platten.',
  },
  'lead.files-refused': { en: 'The check refused these sheets.', de: 'Die Prüfung hat diese Tafeln abgelehnt.' },
  'lead.files-look': {
    en: '{n, plural, one {# sheet is} other {# sheets are}} written; {look, plural, one {# thing wants} other {# things want}} to be looked at first.',
    de: '{n, plural, one {# Tafel ist} other {# Tafeln sind}} geschrieben; vorher {look, plural, one {ist # Stelle} other {sind # Stellen}} anzusehen.',
  },
} as const satisfies Area;
