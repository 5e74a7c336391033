import type { Area } from './phrase.ts';

/** The bed, what does not fit on it, and the seams. */
export const SPLIT_WORDS = {
  'split.title': { en: 'Bed and seams', de: 'Bett und Nähte' },
  'split.looking': { en: 'Looking for seams', de: 'Nähte werden gesucht' },
  'split.none-yet': { en: 'No seams yet', de: 'Noch keine Nähte' },
  'split.scene': { en: 'The split sign', de: 'Das geteilte Schild' },
  'split.scene-part': {
    en: 'The split sign, {part} in {n, plural, one {# piece} other {# pieces}}',
    de: 'Das geteilte Schild, {part} in {n, plural, one {# Stück} other {# Stücken}}',
  },
  'split.bed': {
    en: 'I cut on a bed of {width} × {height}; boards {lying}; boards larger than that {larger}.',
    de: 'Ich schneide auf einem Bett von {width} × {height}; Platten {lying}; größere Platten {larger}.',
  },
  'split.bed-width': { en: 'Width of the bed', de: 'Breite des Betts' },
  'split.bed-height': { en: 'Height of the bed', de: 'Höhe des Betts' },
  'split.lying-label': { en: 'How boards lie on the bed', de: 'Wie Platten auf dem Bett liegen' },
  'split.lie': { en: 'lie on the bed', de: 'liegen auf dem Bett' },
  'split.through-width': { en: 'pass through along its width', de: 'laufen entlang der Breite durch' },
  'split.through-height': { en: 'pass through along its height', de: 'laufen entlang der Höhe durch' },
  'split.larger-label': {
    en: 'How boards larger than the bed are cut',
    de: 'Wie Platten geschnitten werden, die größer sind als das Bett',
  },
  'split.move-board': { en: 'are moved, one file a loading', de: 'werden verschoben, eine Datei je Lage' },
  'split.cut-down': { en: 'are cut down to panels first', de: 'werden erst zu kleineren Platten zersägt' },
  'split.so-whole': { en: 'So every part fits whole.', de: 'Also passt jedes Teil im Ganzen.' },
  'split.so-pieces': {
    en: 'So {names} {n, plural, one { has} other { have}} to be cut in pieces.',
    de: 'Also {n, plural, one {muss} other {müssen}} {names} in Stücke geschnitten werden.',
  },
  'split.cut': {
    en: 'The cut removes {kerf} of stock {thickness} thick; edges that meet should {fit}.',
    de: 'Der Schnitt nimmt {kerf} weg, das Material ist {thickness} dick; Kanten, die sich treffen, sollen {fit}.',
  },
  'split.kerf-label': { en: 'Width that a cut removes', de: 'Breite, die ein Schnitt wegnimmt' },
  'split.thickness-label': { en: 'Thickness of the stock', de: 'Dicke des Materials' },
  'split.fit-label': { en: 'How edges that meet should fit', de: 'Wie Kanten passen sollen, die sich treffen' },
  'split.press': { en: 'press together', de: 'pressen' },
  'split.touch': { en: 'touch', de: 'sich berühren' },
  'split.slide': { en: 'slide', de: 'gleiten' },
  'split.own-gap': { en: 'leave a gap of my own', de: 'einen eigenen Spalt lassen' },
  'split.more': { en: 'More about the machine and the fit', de: 'Mehr zu Maschine und Passung' },
  'split.gap': {
    en: 'Edges that meet leave a gap of {gap} (below zero presses).',
    de: 'Kanten, die sich treffen, lassen einen Spalt von {gap} (unter null presst).',
  },
  'split.gap-label': { en: 'Gap between edges that meet', de: 'Spalt zwischen Kanten, die sich treffen' },
  'split.compensate': {
    en: 'Kerf is taken into account {where}.',
    de: 'Die Schnittbreite wird {where} berücksichtigt.',
  },
  'split.compensate-label': {
    en: 'Where kerf is taken into account',
    de: 'Wo die Schnittbreite berücksichtigt wird',
  },
  'split.every-edge': { en: 'on every edge', de: 'an jeder Kante' },
  'split.seams-only': { en: 'on seams only', de: 'nur an Nähten' },
  'split.by-machine': { en: 'by the machine', de: 'von der Maschine' },
  'split.margin': {
    en: 'An edge of {margin} round the bed is not used.',
    de: 'Ein Rand von {margin} rund um das Bett bleibt ungenutzt.',
  },
  'split.margin-label': { en: 'Edge of the bed that is not used', de: 'Rand des Betts, der ungenutzt bleibt' },
  'split.held': { en: 'Glue holds {share} of the seam.', de: 'Leim hält {share} der Naht.' },
  'split.held-with': {
    en: 'Glue holds {share} of the seam; with {n, plural, one {# plate} other {# plates}} {plated} is held.',
    de: 'Leim hält {share} der Naht; mit {n, plural, one {# Lasche} other {# Laschen}} sind {plated} gehalten.',
  },
  'split.held-would': {
    en: 'Glue holds {share} of the seam; it would be {plated} with {n, plural, one {# plate} other {# plates}}.',
    de: 'Leim hält {share} der Naht; mit {n, plural, one {# Lasche} other {# Laschen}} wären es {plated}.',
  },
  'split.knobs': {
    en: 'Its knobs are {knob} and I want {more} {n, plural, one { piece} other { pieces}} more than the fewest.',
    de: 'Die Zapfen sind {knob}, und ich will {more} {n, plural, one {Stück} other {Stücke}} mehr als nötig.',
  },
  'split.knob-label': { en: 'Shape of the knobs', de: 'Form der Zapfen' },
  'split.knob-auto': { en: 'whatever holds best', de: 'so, wie es am besten hält' },
  'split.knob-round': { en: 'round', de: 'rund' },
  'split.knob-dovetail': { en: 'dovetails', de: 'Schwalbenschwänze' },
  'split.knob-step': { en: 'plain steps', de: 'einfache Stufen' },
  'split.more-label': { en: 'Pieces more than the fewest', de: 'Stücke mehr als nötig' },
  'split.lines': { en: 'Seams may follow {lines}.', de: 'Nähte dürfen {lines} folgen.' },
  'split.lines-label': { en: 'Drawn lines that seams follow', de: 'Gezeichnete Linien, denen Nähte folgen' },
  'split.lines-long': { en: 'long straight drawn lines', de: 'langen geraden gezeichneten Linien' },
  'split.lines-all': { en: 'any drawn line', de: 'jeder gezeichneten Linie' },
  'split.lines-none': { en: 'no drawn line', de: 'keiner gezeichneten Linie' },
  'split.plates': {
    en: 'Where no glued part holds a seam, a plate is glued behind it.',
    de: 'Wo kein aufgeleimtes Teil eine Naht hält, wird eine Lasche dahintergeleimt.',
  },
  'split.led': {
    en: 'Seams are led through {n, plural, one {a point} other {# points}}. {free}',
    de: 'Nähte sind durch {n, plural, one {einen Punkt} other {# Punkte}} geführt. {free}',
  },
  'split.kept-out': {
    en: 'Seams are kept out of {zones, plural, one {one zone} other {# zones}}. {free}',
    de: 'Nähte sind aus {zones, plural, one {einem Bereich} other {# Bereichen}} herausgehalten. {free}',
  },
  'split.led-and-kept-out': {
    en: 'Seams are led through {n, plural, one {a point} other {# points}} and kept out of {zones, plural, one {one zone} other {# zones}}. {free}',
    de: 'Nähte sind durch {n, plural, one {einen Punkt} other {# Punkte}} geführt und aus {zones, plural, one {einem Bereich} other {# Bereichen}} herausgehalten. {free}',
  },
  'split.free': { en: 'Let the planner choose', de: 'Den Planer wählen lassen' },
  'split.preview': {
    en: 'There the seam would be {length} long, {hidden} hidden, {held} held; {fits, select, yes {both sides fit the bed} other {a side would not fit the bed}}.',
    de: 'Dort wäre die Naht {length} lang, {hidden} verdeckt, {held} gehalten; {fits, select, yes {beide Seiten passen auf das Bett} other {eine Seite passte nicht auf das Bett}}.',
  },
  'split.settling': {
    en: 'Working out whether a seam can run there',
    de: 'Es wird geprüft, ob dort eine Naht verlaufen kann',
  },
  'split.offer-hidden': {
    en: 'A seam cannot run quite as drawn. The dashed line is what it would be: {n, plural, one {# piece} other {# pieces}}, all hidden, {held} held.',
    de: 'Ganz wie gezeichnet kann keine Naht verlaufen. Die gestrichelte Linie zeigt, was daraus würde: {n, plural, one {# Stück} other {# Stücke}}, ganz verdeckt, {held} gehalten.',
  },
  'split.offer-shows': {
    en: 'A seam cannot run quite as drawn. The dashed line is what it would be: {n, plural, one {# piece} other {# pieces}}, {length} in sight, {held} held.',
    de: 'Ganz wie gezeichnet kann keine Naht verlaufen. Die gestrichelte Linie zeigt, was daraus würde: {n, plural, one {# Stück} other {# Stücke}}, {length} sichtbar, {held} gehalten.',
  },
  'split.take-offer': { en: 'Take it', de: 'Nehmen' },
  'split.leave': { en: 'Leave the seam where it was', de: 'Die Naht lassen, wo sie war' },
  'split.shown-part': {
    en: 'Shown are the seams of {part}; {n, plural, one {# part of this sign needs some} other {# parts of this sign need some}}.',
    de: 'Gezeigt sind die Nähte von {part}; {n, plural, one {# Teil dieses Schilds braucht welche} other {# Teile dieses Schilds brauchen welche}}.',
  },
  'split.shown-label': { en: 'Part whose seams are shown', de: 'Teil, dessen Nähte gezeigt sind' },
  'split.number-name': { en: '{number}, {name}', de: '{number}, {name}' },

  'plan.fewest': { en: 'fewest pieces', de: 'wenigste Stücke' },
  'plan.most-hidden': { en: 'most hidden', de: 'am besten verdeckt' },
  'plan.strongest': { en: 'strongest', de: 'am festesten' },
  'plan.proved': { en: 'Fewer pieces are impossible.', de: 'Weniger Stücke sind unmöglich.' },
  'plan.at-least': {
    en: 'At least {n} are needed; best found, not proven.',
    de: 'Mindestens {n} sind nötig; das Beste, was gefunden wurde, nicht bewiesen.',
  },
  'plan.ways': {
    en: '<strong>{name}</strong> can be cut in {n, plural, one {# way} other {# ways}}. <small>{proof}</small>',
    de: '<strong>{name}</strong> kann auf {n, plural, one {# Art} other {# Arten}} geteilt werden. <small>{proof}</small>',
  },
  'plan.name': { en: 'plan of {part}', de: 'Plan von {part}' },
  'plan.hidden': {
    en: '{n, plural, one {# piece} other {# pieces}}, all hidden, {held} held',
    de: '{n, plural, one {# Stück} other {# Stücke}}, ganz verdeckt, {held} gehalten',
  },
  'plan.shows': {
    en: '{n, plural, one {# piece} other {# pieces}}, {length} in sight, {held} held',
    de: '{n, plural, one {# Stück} other {# Stücke}}, {length} sichtbar, {held} gehalten',
  },
  'plan.knobs': {
    en: '{n, plural, one {# knob} other {# knobs}}',
    de: '{n, plural, one {# Zapfen} other {# Zapfen}}',
  },
  'plan.neck': { en: 'neck {length}', de: 'Hals {length}' },

  'seam.pin': {
    en: 'A point the seam is led through: choose to let it go',
    de: 'Ein Punkt, durch den die Naht geführt ist: wählen, um ihn loszulassen',
  },
  'seam.pin-title': {
    en: 'The seam is led through here; choose to let it go',
    de: 'Hier ist die Naht hindurchgeführt; wählen, um den Punkt loszulassen',
  },
  'seam.handle': {
    en: 'Seam {label}, {n} of {all}: arrow keys take it along, Enter lets it go there, Escape puts it back, f forbids this place',
    de: 'Naht {label}, {n} von {all}: Pfeiltasten nehmen sie mit, Enter lässt sie dort los, Escape legt sie zurück, f verbietet diese Stelle',
  },
  'seam.hidden': { en: 'hidden', de: 'verdeckt' },
  'seam.held': { en: 'held', de: 'gehalten' },
  'seam.too-large': { en: 'a side would not fit the bed', de: 'eine Seite passte nicht auf das Bett' },
  'seam.handle-title': {
    en: 'Drag the seam; press f to forbid this place',
    de: 'Die Naht ziehen; f drücken, um diese Stelle zu verbieten',
  },
} as const satisfies Area;
