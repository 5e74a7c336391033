import type { Area } from './phrase.ts';

/** The frame of the page: header, strip, notices, cautions. */
export const PAGE_WORDS = {
  'page.skip': { en: 'Skip to the drawing', de: 'Zur Zeichnung springen' },
  'page.drop': {
    en: 'Let go to open the drawing or the job',
    de: 'Loslassen, um die Zeichnung oder den Auftrag zu öffnen',
  },
  'page.look-here': { en: 'Look here:', de: 'Bitte ansehen:' },
  'page.close': { en: 'Close', de: 'Schließen' },
  'page.stage': { en: 'Stage: {stage}', de: 'Schritt: {stage}' },
  'page.stages': { en: 'Stages of the job', de: 'Schritte des Auftrags' },
  'page.working-on': { en: 'Working on the {stage}.', de: 'In Arbeit: {stage}.' },
  'page.up-to-date': { en: 'Everything is up to date.', de: 'Alles ist auf dem neuesten Stand.' },
  'page.go-on': { en: 'Go on', de: 'Weiter' },
  'page.go-on-without': { en: 'Go on without it', de: 'Ohne das weitermachen' },
  'page.at-place': { en: '{message} ({place})', de: '{message} ({place})' },

  'header.job-name': { en: 'Name of the job', de: 'Name des Auftrags' },
  'header.sign': { en: 'Sign', de: 'Schild' },
  'header.undo': { en: 'Undo', de: 'Zurück' },
  'header.redo': { en: 'Redo', de: 'Wieder vor' },
  'header.open': { en: 'Open a file', de: 'Datei öffnen' },
  'header.file': {
    en: 'File to open: artwork (SVG, DXF) or a saved job',
    de: 'Datei zum Öffnen: Zeichnung (SVG, DXF) oder gesicherter Auftrag',
  },
  'header.save': { en: 'Save the job', de: 'Auftrag sichern' },
  'header.jobs': { en: 'Jobs', de: 'Aufträge' },
  'header.samples': { en: 'Samples', de: 'Beispiele' },
  'header.kept-jobs': { en: 'Kept in this browser', de: 'In diesem Browser aufgehoben' },
  'header.forget': { en: 'Forget', de: 'Vergessen' },
  'header.forget-job': { en: 'Forget {name}', de: '{name} vergessen' },
  'header.unit': { en: 'Lengths in', de: 'Längen in' },
  'header.look': { en: 'Look of the page', de: 'Aussehen der Seite' },
  'header.look-system': { en: 'system look', de: 'wie das System' },
  'header.look-light': { en: 'light', de: 'hell' },
  'header.look-dark': { en: 'dark', de: 'dunkel' },
  'header.language': { en: 'Language', de: 'Sprache' },
  'header.language-en': { en: 'English', de: 'English' },
  'header.language-de': { en: 'Deutsch', de: 'Deutsch' },
  'header.kept': { en: 'kept in this browser', de: 'in diesem Browser aufgehoben' },
  'header.saving': { en: 'saving', de: 'wird gesichert' },
  'header.not-kept': { en: 'not kept: {why}', de: 'nicht aufgehoben: {why}' },

  'sample.harbour': { en: 'Harbour sign', de: 'Hafenschild' },
  'sample.round': { en: 'Round sign', de: 'Rundes Schild' },
  'sample.wide': { en: 'Wide sign', de: 'Breites Schild' },

  'stage.artwork': { en: 'Artwork', de: 'Zeichnung' },
  'stage.stack': { en: 'Stack', de: 'Aufbau' },
  'stage.split': { en: 'Split', de: 'Teilung' },
  'stage.boards': { en: 'Boards', de: 'Platten' },
  'stage.files': { en: 'Files', de: 'Dateien' },

  'line.stopped': { en: 'stopped', de: 'angehalten' },
  'line.cannot': { en: 'cannot be done yet', de: 'geht noch nicht' },
  'line.at-work': { en: 'at work', de: 'in Arbeit' },
  'line.waits': { en: 'waits for the step before', de: 'wartet auf den Schritt davor' },
  'line.being-redone': { en: 'being redone', de: 'wird neu gemacht' },
  'line.at-work-on': { en: 'at work: {what}', de: 'in Arbeit: {what}' },
  'line.to-be-redone': { en: 'to be redone', de: 'ist neu zu machen' },
  'line.size-not-known': {
    en: '{n, plural, one {# part} other {# parts}}, size not known',
    de: '{n, plural, one {# Teil} other {# Teile}}, Größe nicht bekannt',
  },
  'line.artwork': {
    en: '{n, plural, one {# part} other {# parts}}, {size}',
    de: '{n, plural, one {# Teil} other {# Teile}}, {size}',
  },
  'line.nothing-covered': { en: 'nothing lies on anything', de: 'nichts liegt aufeinander' },
  'line.carry': {
    en: '{n, plural, one {# part carries others} other {# parts carry others}}',
    de: '{n, plural, one {# Teil trägt andere} other {# Teile tragen andere}}',
  },
  'line.fits-whole': { en: 'everything fits whole', de: 'alles passt im Ganzen' },
  'line.cannot-fit': {
    en: '{n, plural, one {# part cannot be made to fit} other {# parts cannot be made to fit}}',
    de: '{n, plural, one {# Teil passt nicht} other {# Teile passen nicht}}',
  },
  'line.part-hidden': {
    en: '{part} in {n, plural, one {# piece} other {# pieces}}, {seams, plural, one {seam hidden} other {seams hidden}}',
    de: '{part} in {n, plural, one {# Stück} other {# Stücken}}, {seams, plural, one {Naht verdeckt} other {Nähte verdeckt}}',
  },
  'line.part-shows': {
    en: '{part} in {n, plural, one {# piece} other {# pieces}}, {length} of seam in sight',
    de: '{part} in {n, plural, one {# Stück} other {# Stücken}}, {length} Naht sichtbar',
  },
  'line.parts-hidden': { en: '{n} parts split, seams hidden', de: '{n} Teile geteilt, Nähte verdeckt' },
  'line.parts-show': {
    en: '{n} parts split, {length} of seam in sight',
    de: '{n} Teile geteilt, {length} Naht sichtbar',
  },
  'line.boards-proved': {
    en: '{n, plural, one {# board} other {# boards}}, proved fewest, {share} used',
    de: '{n, plural, one {# Platte} other {# Platten}}, weniger geht nachweislich nicht, {share} genutzt',
  },
  'line.boards': {
    en: '{n, plural, one {# board} other {# boards}}, at least {least} needed, {share} used',
    de: '{n, plural, one {# Platte} other {# Platten}}, mindestens {least} nötig, {share} genutzt',
  },
  'line.files-checked': {
    en: '{n, plural, one {# file} other {# files}}, checked',
    de: '{n, plural, one {# Datei} other {# Dateien}}, geprüft',
  },
  'line.files-none': { en: 'nothing to cut yet', de: 'noch nichts zu schneiden' },
  'line.files-refused': {
    en: '{n, plural, one {# file} other {# files}}, refused',
    de: '{n, plural, one {# Datei} other {# Dateien}}, abgelehnt',
  },
  'line.to-look-at': { en: '{n} to look at', de: '{n} anzusehen' },

  'caution.title': { en: 'Before you cut', de: 'Vor dem Schneiden' },
  'caution.watch': {
    en: 'Never leave a running laser; keep a fire extinguisher at hand.',
    de: 'Einen laufenden Laser nie allein lassen; einen Feuerlöscher griffbereit halten.',
  },
  'caution.fumes': {
    en: 'Extract fumes outdoors or through a proper filter: wood-fibre boards release formaldehyde and fine particles.',
    de: 'Rauch ins Freie oder durch einen geeigneten Filter absaugen: Holzfaserplatten setzen Formaldehyd und Feinstaub frei.',
  },
  'caution.plastics': {
    en: 'Never cut PVC, vinyl or other chlorinated plastics, or a material you cannot identify.',
    de: 'Nie PVC, Vinyl oder andere chlorhaltige Kunststoffe schneiden, und kein Material, das nicht sicher bekannt ist.',
  },
  'caution.interlocks': {
    en: 'Keep the enclosure’s interlocks in force (laser classes: IEC 60825-1; use: ANSI Z136.1).',
    de: 'Die Sicherheitsschalter des Gehäuses nie überbrücken (Laserklassen: IEC 60825-1; Gebrauch: ANSI Z136.1).',
  },
  'caution.glue': {
    en: 'Fast glues bond skin and give off vapour.',
    de: 'Sekundenkleber klebt auf der Haut und dampft aus.',
  },
  'caution.scrap': {
    en: 'Try settings on scrap; follow the machine’s manual, local rules and the advice of qualified people. Speeds and powers are your own: speeds serve time estimates only, and no power is recommended.',
    de: 'Einstellungen an Resten ausprobieren; die Anleitung der Maschine, örtliche Vorschriften und den Rat von Fachleuten befolgen. Geschwindigkeit und Leistung bestimmt, wer schneidet: Geschwindigkeiten dienen hier nur der Zeitschätzung, eine Leistung wird nicht empfohlen.',
  },
  'caution.private': {
    en: 'Everything is worked out in your browser. Nothing leaves this computer.',
    de: 'Alles wird in diesem Browser berechnet. Nichts verlässt diesen Rechner.',
  },
} as const satisfies Area;
