import type { Area } from './phrase.ts';

/** The sign put together: peeling, pulling apart, glue, guides, numbers. */
export const STACK_WORDS = {
  'stack.title': { en: 'Stack', de: 'Aufbau' },
  'stack.putting': { en: 'Putting the sign together', de: 'Das Schild wird zusammengesetzt' },
  'stack.cannot': {
    en: 'The sign cannot be put together yet',
    de: 'Das Schild lässt sich noch nicht zusammensetzen',
  },
  'stack.scene': { en: 'The sign, put together', de: 'Das Schild, zusammengesetzt' },
  'stack.peel': { en: 'Peel off', de: 'Abheben' },
  'stack.peel-none': { en: 'nothing', de: 'nichts' },
  'stack.peeled': { en: '{n} of {all} parts', de: '{n} von {all} Teilen' },
  'stack.apart': { en: 'Pull apart', de: 'Auseinanderziehen' },
  'stack.section': { en: 'Cut through', de: 'Schnitt' },
  'stack.section-at': { en: 'at {y}, drawn below to scale', de: 'bei {y}, darunter maßstäblich' },
  'stack.together': { en: 'put together', de: 'zusammengesetzt' },
  'stack.guides-tick': {
    en: 'Guides are burnt where upper parts go.',
    de: 'Anlegelinien werden gebrannt, wo obere Teile hinkommen.',
  },
  'stack.guides-on': {
    en: '{tick} They lie {inset} inside the edge of the upper part.',
    de: '{tick} Sie liegen {inset} innerhalb des Rands des oberen Teils.',
  },
  'stack.guides-off': { en: '{tick}', de: '{tick}' },
  'stack.inset-label': {
    en: 'How far guides lie inside the upper part',
    de: 'Wie weit Anlegelinien innerhalb des oberen Teils liegen',
  },
  'stack.numbers': { en: 'Piece numbers are burnt {where}.', de: 'Stücknummern werden {where} gebrannt.' },
  'stack.numbers-label': { en: 'Where piece numbers are burnt', de: 'Wo Stücknummern gebrannt werden' },
  'stack.numbers-hidden': { en: 'where another part hides them', de: 'dort, wo ein anderes Teil sie verdeckt,' },
  'stack.numbers-all': { en: 'on every piece', de: 'auf jedes Stück' },
  'stack.numbers-off': { en: 'nowhere', de: 'nirgends' },
  'stack.choose': {
    en: 'Choose a part to see what it carries and what it lies on.',
    de: 'Ein Teil wählen, um zu sehen, was es trägt und worauf es liegt.',
  },
  'stack.bottom-bare': {
    en: '<strong>{name}</strong> lies at the bottom and carries nothing.',
    de: '<strong>{name}</strong> liegt zuunterst und trägt nichts.',
  },
  'stack.bottom-carries': {
    en: '<strong>{name}</strong> lies at the bottom and carries {carried}.',
    de: '<strong>{name}</strong> liegt zuunterst und trägt {carried}.',
  },
  'stack.glued-bare': {
    en: '<strong>{name}</strong> is glued on {below} ({area} cm² of glue) and carries nothing.',
    de: '<strong>{name}</strong> ist auf {below} geleimt ({area} cm² Leimfläche) und trägt nichts.',
  },
  'stack.glued-carries': {
    en: '<strong>{name}</strong> is glued on {below} ({area} cm² of glue) and carries {carried}.',
    de: '<strong>{name}</strong> ist auf {below} geleimt ({area} cm² Leimfläche) und trägt {carried}.',
  },
  'stack.only-hide': {
    en: '{names} {n, plural, one { lies} other { lie}} above it without touching it.',
    de: '{names} {n, plural, one {liegt} other {liegen}} darüber, ohne es zu berühren.',
  },
  'stack.hidden-share': { en: '{share} of its face is hidden.', de: '{share} seiner Fläche sind verdeckt.' },
  'stack.rests-badly': { en: '{part} rests badly.', de: '{part} liegt schlecht auf.' },
  'stack.filler': { en: 'Put a filler below it', de: 'Einen Unterleger darunterlegen' },
  'stack.fillers-all': {
    en: 'Fillers are cut for every part that hangs in the air. {out}',
    de: 'Unterleger werden für jedes Teil geschnitten, das in der Luft hängt. {out}',
  },
  'stack.fillers-some': {
    en: 'Fillers are cut for {names}. {out}',
    de: 'Unterleger werden geschnitten für {names}. {out}',
  },
  'stack.fillers-out': { en: 'Take them out', de: 'Weglassen' },
} as const satisfies Area;
