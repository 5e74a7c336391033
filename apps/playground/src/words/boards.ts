import type { Area } from './phrase.ts';

/** The layout: boards, batch, rules, search, pieces moved by hand, offcuts. */
export const BOARDS_WORDS = {
  'boards.title': { en: 'Boards', de: 'Platten' },
  'boards.waiting': { en: 'Waiting for the pieces', de: 'Die Stücke fehlen noch' },
  'boards.nothing': { en: 'Nothing is laid out', de: 'Nichts ist ausgelegt' },
  'boards.scene': {
    en: '{boards, plural, one {# board} other {# boards}} with {n, plural, one {# piece} other {# pieces}}',
    de: '{boards, plural, one {# Platte} other {# Platten}} mit {n, plural, one {# Stück} other {# Stücken}}',
  },
  'boards.checked': {
    en: 'Checked on the exact outlines: nothing overlaps; pieces keep at least {gap} apart and {margin} from the edge.',
    de: 'An den genauen Umrissen geprüft: nichts überlappt; zwischen Stücken bleiben mindestens {gap}, zum Rand {margin}.',
  },
  'boards.unplaced': { en: '{piece} has no place: {why}', de: '{piece} hat keinen Platz: {why}' },
  'boards.sheet': { en: 'Sheet {n}  {size}, {share} used', de: 'Tafel {n}  {size}, {share} genutzt' },
  'boards.sheet-times': {
    en: '{times} × sheet {n}  {size}, {share} used',
    de: '{times} × Tafel {n}  {size}, {share} genutzt',
  },
  'boards.look': { en: 'Show the pieces {look}.', de: 'Die Stücke {look} zeigen.' },
  'boards.look-label': { en: 'How the pieces are shown', de: 'Wie die Stücke gezeigt werden' },
  'boards.painted': { en: 'painted', de: 'gestrichen' },
  'boards.raw': { en: 'as raw wood', de: 'als rohes Holz' },
  'boards.pinned': { en: 'pinned', de: 'festgesteckt' },
  'boards.placement': {
    en: '{name} ({number}), sheet {sheet}, sign {sign}, {paint}',
    de: '{name} ({number}), Tafel {sheet}, Schild {sign}, {paint}',
  },
  'boards.placement-layer': {
    en: '{name} ({number}), sheet {sheet}, sign {sign}, layer {layer}, {paint}',
    de: '{name} ({number}), Tafel {sheet}, Schild {sign}, Ebene {layer}, {paint}',
  },
  'boards.first-row': {
    en: 'I have {count} of {width} × {height} boards, each {price}, {grain} {away}',
    de: 'Ich habe {count} von {width} × {height}, jede {price}, {grain} {away}',
  },
  'boards.next-row': {
    en: 'and {count} of {width} × {height} boards, each {price}, {grain} {away}',
    de: 'und {count} von {width} × {height}, jede {price}, {grain} {away}',
  },
  'boards.offcut-row': {
    en: 'and {n, plural, one {the offcut} other {# offcuts}} <strong>{name}</strong> {away}',
    de: 'und {n, plural, one {den Rest} other {# Reste}} <strong>{name}</strong> {away}',
  },
  'boards.away': { en: 'Take it away', de: 'Wegnehmen' },
  'boards.more': { en: 'Another kind of board', de: 'Noch eine Sorte Platten' },
  'boards.any-number': { en: 'any number', de: 'beliebig viele Platten' },
  'boards.count-label': { en: 'Number of boards {nth}', de: 'Anzahl der Platten {nth}' },
  'boards.width-label': { en: 'Width of the board {nth}', de: 'Breite der Platte {nth}' },
  'boards.height-label': { en: 'Height of the board {nth}', de: 'Höhe der Platte {nth}' },
  'boards.price-label': { en: 'Price of the board {nth}', de: 'Preis der Platte {nth}' },
  'boards.grain': { en: 'with grain', de: 'mit Faser' },
  'boards.batch': {
    en: 'Make {batch} {n, plural, one { sign} other { signs}}, pieces at least {spacing} apart and {margin} from the edge.',
    de: 'Mach {batch} {n, plural, one {Schild} other {Schilder}}, zwischen Stücken mindestens {spacing}, zum Rand {margin}.',
  },
  'boards.batch-label': { en: 'Signs in the batch', de: 'Schilder in der Serie' },
  'boards.spacing-label': { en: 'Least distance between pieces', de: 'Kleinster Abstand zwischen Stücken' },
  'boards.margin-label': { en: 'Least distance from the edge', de: 'Kleinster Abstand vom Rand' },
  'boards.turns': {
    en: 'Pieces may be turned {turns}. Search {effort}.',
    de: 'Stücke dürfen {turns} gedreht werden. Gesucht wird {effort}.',
  },
  'boards.turns-label': { en: 'How pieces may be turned', de: 'Wie Stücke gedreht werden dürfen' },
  'boards.effort-label': { en: 'How long to search', de: 'Wie lange gesucht wird' },
  'boards.quick': { en: 'hardly at all', de: 'kaum' },
  'boards.normal': { en: 'for a while', de: 'eine Weile' },
  'boards.thorough': { en: 'thoroughly', de: 'gründlich' },
  'boards.own-steps': {
    en: '{n, plural, one {# step} other {# steps}}',
    de: '{n, plural, one {# Schritt} other {# Schritte}}',
  },
  'boards.more-rules': { en: 'More about the layout', de: 'Mehr zum Auslegen' },
  'boards.aim': { en: 'What counts first is {first}, then {next}.', de: 'Zuerst zählt {first}, dann {next}.' },
  'boards.aim-label': { en: 'What counts first', de: 'Was zuerst zählt' },
  'boards.next-label': { en: 'What counts next', de: 'Was danach zählt' },
  'boards.first-fewest-boards': { en: 'the fewest boards', de: 'die kleinste Zahl von Platten' },
  'boards.first-cheapest': { en: 'the cheapest boards', de: 'der kleinste Preis der Platten' },
  'boards.first-fewest-bought': {
    en: 'the fewest boards to buy, offcuts first',
    de: 'die kleinste Zahl gekaufter Platten, Reste zuerst',
  },
  'boards.next-largest-offcut': { en: 'the largest offcut', de: 'der größte Rest' },
  'boards.next-shortest-cutting': { en: 'the shortest cutting', de: 'der kürzeste Schnitt' },
  'boards.together': {
    en: 'All pieces of one sign stay on one sheet.',
    de: 'Alle Stücke eines Schilds bleiben auf einer Tafel.',
  },
  'boards.seed': {
    en: 'The search starts from seed {seed}: the same seed gives the same layout.',
    de: 'Die Suche beginnt mit der Startzahl {seed}: dieselbe Zahl ergibt dieselbe Anordnung.',
  },
  'boards.seed-label': { en: 'Seed of the search', de: 'Startzahl der Suche' },

  'turn.fixed': { en: 'not at all', de: 'gar nicht' },
  'turn.half': { en: 'by half turns', de: 'um halbe Drehungen' },
  'turn.quarter': { en: 'by quarter turns', de: 'um Vierteldrehungen' },
  'turn.any': { en: 'by any angle', de: 'um jeden Winkel' },
  'turn.like': { en: 'like the others', de: 'wie die anderen' },
  'turned.fixed': { en: 'not turned', de: 'nicht gedreht' },
  'turned.half': { en: 'half turns', de: 'halbe Drehungen' },
  'turned.quarter': { en: 'quarter turns', de: 'Vierteldrehungen' },
  'turned.any': { en: 'any turn', de: 'jede Drehung' },
  'turned.steps': { en: 'steps of {degrees}°', de: 'Schritte von {degrees}°' },

  'rules.choose': {
    en: 'Choose a piece to give its part rules of its own.',
    de: 'Ein Stück wählen, um seinem Teil eigene Regeln zu geben.',
  },
  'rules.part': {
    en: '<strong>{name}</strong> may be turned {turns}. {grain} {back}',
    de: '<strong>{name}</strong> darf {turns} gedreht werden. {grain} {back}',
  },
  'rules.turns-label': { en: 'How {name} may be turned', de: 'Wie {name} gedreht werden darf' },
  'rules.grain': { en: 'It keeps its grain.', de: 'Es behält seine Faserrichtung.' },
  'rules.back': { en: 'It may be cut from the back.', de: 'Es darf von hinten geschnitten werden.' },

  'search.laying-out': { en: 'Laying out', de: 'Auslegen' },
  'search.none-yet': {
    en: 'Looking for a better layout, {share}. There is no layout yet.',
    de: 'Eine bessere Anordnung wird gesucht, {share}. Noch gibt es keine.',
  },
  'search.best': {
    en: 'Looking for a better layout, {share}. Best so far: {n, plural, one {# board} other {# boards}}, {used} used.',
    de: 'Eine bessere Anordnung wird gesucht, {share}. Bisher am besten: {n, plural, one {# Platte} other {# Platten}}, {used} genutzt.',
  },
  'search.stop-keep': { en: 'Stop and keep this', de: 'Anhalten und das behalten' },
  'search.stop-back': { en: 'Stop and go back', de: 'Anhalten und zurück' },
  'search.stop-all': { en: 'Stop all work', de: 'Alles anhalten' },
  'search.on': { en: 'Search on', de: 'Weitersuchen' },
  'search.gained': {
    en: 'Searching on has saved {n, plural, one {# board} other {# boards}}: {from} in the first layout, {to} now.',
    de: 'Das Weitersuchen hat {n, plural, one {# Platte} other {# Platten}} gespart: {from} in der ersten Anordnung, {to} jetzt.',
  },
  'search.gained-none': {
    en: 'Searching on has found no layout with fewer boards than the first one.',
    de: 'Das Weitersuchen hat keine Anordnung mit weniger Platten gefunden als die erste.',
  },
  'search.curve': {
    en: 'Yield during the search: from {from} to {to} in {n} seconds',
    de: 'Ausnutzung während der Suche: von {from} auf {to} in {n} Sekunden',
  },

  'hand.choose': {
    en: 'Choose a piece to pin, turn or move it; the chosen one can be dragged.',
    de: 'Ein Stück wählen, um es festzustecken, zu drehen oder zu verlegen; das gewählte lässt sich ziehen.',
  },
  'hand.piece': {
    en: '<strong>{name}</strong> ({number}) of sign {sign}, on sheet {sheet}.',
    de: '<strong>{name}</strong> ({number}) von Schild {sign}, auf Tafel {sheet}.',
  },
  'hand.piece-pinned': {
    en: '<strong>{name}</strong> ({number}) of sign {sign}, on sheet {sheet}, pinned.',
    de: '<strong>{name}</strong> ({number}) von Schild {sign}, auf Tafel {sheet}, festgesteckt.',
  },
  'hand.pin': { en: 'Pin it here', de: 'Hier feststecken' },
  'hand.let-go': { en: 'Let it go', de: 'Loslassen' },
  'hand.left': { en: 'Turn left {degrees}°', de: 'Nach links drehen, {degrees}°' },
  'hand.right': { en: 'Turn right {degrees}°', de: 'Nach rechts drehen, {degrees}°' },
  'hand.how': {
    en: 'Drag it, or press m on the drawing, move it with the arrow keys, and Enter.',
    de: 'Ziehen, oder auf der Zeichnung m drücken, mit den Pfeiltasten bewegen, dann Enter.',
  },
  'hand.free': { en: 'Free here.', de: 'Hier ist frei.' },
  'hand.blocked': { en: '{why} No free place near.', de: '{why} Kein freier Platz in der Nähe.' },
  'hand.nearest': {
    en: '{why} It would go to the nearest free place.',
    de: '{why} Es käme auf den nächsten freien Platz.',
  },
  'hand.why-no-sheet': { en: 'There is no such sheet.', de: 'Diese Tafel gibt es nicht.' },
  'hand.why-off-board': {
    en: 'It would reach over the edge of the board.',
    de: 'Es würde über den Rand der Platte ragen.',
  },
  'hand.why-forbidden': {
    en: 'A place where nothing may lie is in the way.',
    de: 'Eine Stelle, an der nichts liegen darf, ist im Weg.',
  },
  'hand.why-piece': { en: '{piece} is in the way.', de: '{piece} ist im Weg.' },
  'hand.around-again': { en: 'Nest the rest around again', de: 'Den Rest neu darum herum legen' },
  'hand.around': {
    en: 'Nest the rest around the {n, plural, one {# pinned piece} other {# pinned pieces}}',
    de: 'Den Rest um {n, plural, one {das # festgesteckte Stück} other {die # festgesteckten Stücke}} herum legen',
  },
  'hand.no-pins': { en: 'Take out all pins', de: 'Alle Nadeln herausziehen' },

  'offcut.left': {
    en: 'Sheet {n} leaves {area} in one piece.',
    de: 'Tafel {n} lässt {area} in einem Stück übrig.',
  },
  'offcut.keep': { en: 'Keep it for the next job', de: 'Für den nächsten Auftrag aufheben' },
  'offcut.name': { en: '{area} from {job}', de: '{area} von {job}' },
  'offcut.a-sign': { en: 'a sign', de: 'einem Schild' },
  'offcut.on-hand': { en: 'On hand: {name}.', de: 'Vorhanden: {name}.' },
  'offcut.use': { en: 'Use it here', de: 'Hier verwenden' },
  'offcut.gone': { en: 'It is gone', de: 'Gibt es nicht mehr' },
} as const satisfies Area;
