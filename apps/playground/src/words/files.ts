import type { Area } from './phrase.ts';

/** What is written, what it costs, what is reckoned. */
export const FILES_WORDS = {
  'files.title': { en: 'Files', de: 'Dateien' },
  'files.none-yet': { en: 'No files yet', de: 'Noch keine Dateien' },
  'files.when': {
    en: 'The files come once every piece lies on a board and the check has found no fault.',
    de: 'Die Dateien kommen, sobald jedes Stück auf einer Platte liegt und die Prüfung keinen Fehler gefunden hat.',
  },
  'files.checked': {
    en: 'Checked: {n, plural, one {# sheet file} other {# sheet files}} read back and found as meant; least gap {gap}.',
    de: 'Geprüft: {n, plural, one {# Tafeldatei} other {# Tafeldateien}} zurückgelesen und wie gemeint befunden; kleinster Abstand {gap}.',
  },
  'files.take-all': { en: 'Take everything in one archive', de: 'Alles in einem Archiv mitnehmen' },
  'files.sheets': { en: 'Sheets', de: 'Tafeln' },
  'files.report': { en: 'Report and job', de: 'Bericht und Auftrag' },
  'files.pictures': { en: 'The finished sign', de: 'Das fertige Schild' },
  'files.to-know': {
    en: '{n, plural, one {# thing} other {# things}} to know',
    de: '{n, plural, one {# Hinweis} other {# Hinweise}}',
  },
  'files.show': { en: 'Show it', de: 'Zeigen' },
  'files.save': { en: 'Save', de: 'Sichern' },
  'files.save-file': { en: 'Save {name}', de: '{name} sichern' },
  'files.times': { en: 'cut {n} times', de: '{n}-mal schneiden' },
  'files.formats': {
    en: 'Sheets are written as {formats}',
    de: 'Tafeln werden geschrieben als {formats}',
  },

  'cost.from': { en: 'What this is reckoned from', de: 'Woraus das gerechnet ist' },
  'cost.hours': {
    en: 'A machine hour costs {machine}, an hour of hand work {hand} {currency}.',
    de: 'Eine Maschinenstunde kostet {machine}, eine Arbeitsstunde {hand} {currency}.',
  },
  'cost.machine-label': { en: 'Cost of a machine hour', de: 'Kosten einer Maschinenstunde' },
  'cost.hand-label': { en: 'Cost of an hour of hand work', de: 'Kosten einer Arbeitsstunde' },
  'cost.currency-label': { en: 'Currency', de: 'Währung' },
  'cost.minutes': {
    en: 'Painting and gluing one sign takes {sign}, loading a sheet {sheet}.',
    de: 'Ein Schild zu streichen und zu leimen dauert {sign}, eine Tafel aufzulegen {sheet}.',
  },
  'cost.sign-label': { en: 'Minutes of hand work for one sign', de: 'Minuten Handarbeit für ein Schild' },
  'cost.sheet-label': { en: 'Minutes of hand work for one sheet', de: 'Minuten Handarbeit für eine Tafel' },
  'cost.extras': {
    en: 'Paint, glue and packing cost {extras} a sign, rent and power {overhead}; profit is {profit}.',
    de: 'Farbe, Leim und Verpackung kosten {extras} je Schild, Miete und Strom {overhead}; der Gewinn ist {profit}.',
  },
  'cost.extras-label': { en: 'Paint, glue and packing for one sign', de: 'Farbe, Leim und Verpackung für ein Schild' },
  'cost.overhead-label': { en: 'Rent and power for one sign', de: 'Miete und Strom für ein Schild' },
  'cost.profit-label': { en: 'Profit in percent', de: 'Gewinn in Prozent' },
  'cost.speeds': {
    en: 'The beam cuts {cut} and scores {score}. This serves the estimate of time only.',
    de: 'Der Strahl schneidet {cut} und ritzt {score}. Das dient nur der Zeitschätzung.',
  },
  'cost.cut-label': { en: 'Cutting speed in mm per second', de: 'Schneidgeschwindigkeit in mm je Sekunde' },
  'cost.score-label': { en: 'Scoring speed in mm per second', de: 'Ritzgeschwindigkeit in mm je Sekunde' },
} as const satisfies Area;
