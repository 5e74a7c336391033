import {
  BASES,
  cutSheet,
  FLAGS,
  FONT,
  GAP,
  grainKept,
  HANGING,
  KNOT,
  MIRRORED,
  OPEN_SIZE,
  PAPER,
  PLANKS,
  PLATE,
  PLATE_SHAPE,
  page,
  paint,
  pier,
  pin,
  plain,
  quay,
  rest,
  stock,
  thin,
  upright,
  WIDE,
} from './job-field-bases.ts';

/** Fields that are allowed for programs that edit job files, and do nothing here. */
export const FOR_EDITORS: readonly string[] = ['$schema'];

/**
 * Fields whose effect is shown elsewhere: the licence stands in the read-me of packs alone (`cli-commands.test.ts`); `tieBreak` decides
 * whether the last board is tidied (`nest-last-board.test.ts`), which finds nothing on signs as small as these.
 */
export const ELSEWHERE: readonly string[] = ['output.licence', 'tieBreak'];

/** A base, what is said beside or instead, and what is said in both jobs that are compared. */
export type Change = readonly [base: keyof typeof BASES, patch: object, common?: object];

const own = (patch: object) => ({ designs: [{ ...pier, ...patch }, quay] });
/** Both designs are a plate alone, which goes on an offcut. */
const plates = { designs: [pier, quay].map((one) => ({ ...one, artwork: { text: page(PLATE), name: one.id } })) };
const ownArt = (patch: object) => own({ artwork: { ...pier.artwork, ...patch } });
const artOf = (text: string, patch: object) => own({ artwork: { text, name: 'pier', ...patch } });
const inStock = (patch: object) => ({ stocks: [{ ...stock, ...patch }, thin] });

/** Wishes for seams, in general, for a part, for a design. */
const SEAMS: Readonly<Record<string, unknown>> = {
  alongLines: 'none',
  prefer: 'most-hidden',
  plan: 'no such plan',
  morePieces: 1,
  'pins[].x': [{ x: 90, y: 50 }],
  'pins[].y': [{ x: 125, y: 80 }],
  'forbidden[]': ['M110 0H150V160H110Z'],
  knob: 'dovetail',
  plates: true,
};
const DRAWN: Readonly<Record<string, string>> = { prefer: FLAGS, alongLines: PLANKS };
const seamChanges = (above: string, wrap: (seams: object, text: string) => Change): [string, Change][] =>
  Object.entries(SEAMS).map(([field, value]) => [
    `${above}.${field}`,
    wrap({ [field.replace(/\[.*/, '')]: value }, DRAWN[field] ?? WIDE),
  ]);
const wideDay = (more: object, text: string): object => ({
  artwork: { text: null, name: null },
  designs: [{ id: 'quay', artwork: { text, name: 'quay' }, ...more }],
});
const wideDesign = (more: object, text = WIDE): Change => ['split', wideDay(more, text), wideDay({}, text)];

const SPEEDS = {
  cut: 5,
  score: 20,
  'deep-score': 3,
  engrave: 9,
  travel: 30,
  acceleration: 50,
  cornerTolerance: 0,
  pierceSeconds: 2,
  engraveStep: 0.4,
};
/** The wave burnt in another way, so that the speed of that way counts. */
const burnt = (process: string): object =>
  ['deep-score', 'engrave'].includes(process)
    ? { artwork: { colourKey: { '#cc2200': process } } }
    : process === 'engraveStep'
      ? { artwork: { colourKey: { '#eeeecc': 'engrave' } } }
      : {};

const MARKS: Readonly<Record<string, unknown>> = {
  guides: false,
  guideInset: 3,
  numbers: 'off',
  wasteNumbers: false,
  textHeight: 8,
  before: 'Q',
};
const TURNS: readonly (readonly [string, object])[] = [
  ['default.stepDeg', { default: { stepDeg: 60 } }],
  ['parts{}.stepDeg', { parts: { gull: { stepDeg: 30 }, lamp: { stepDeg: 30 }, plate: { stepDeg: 60 } } }],
];

const LETTERS: Readonly<Record<string, readonly [patch: object, common?: object]>> = {
  letters: [{ letters: 'joined' }],
  weld: [{ weld: 1 }, { letters: 'joined' }],
  'score[]': [{ score: ['family'] }],
  'words{}': [{ words: { family: 'Il' } }],
  'rooms{}.width': [{ rooms: { family: { width: 20 } } }],
  'rooms{}.height': [{ rooms: { family: { width: 100, height: 12 } } }],
  'names.file': [{ names: { file: 'names.csv' } }],
  'names.text': [{ names: { text: 'family\nIl\n' } }],
  'names.rows[]{}': [{ names: { rows: [{ family: 'Il' }] } }],
  'names[]{}': [{ names: [{ family: 'Il' }] }],
};
const plaqueWith = (lettering: object) => ({
  designs: [{ ...BASES.letteredDay.designs[0]!, lettering: { rooms: { family: 100 }, ...lettering } }],
});

export const CHANGES: Readonly<Record<string, Change>> = Object.fromEntries<Change>([
  ['version', ['small', { version: 3 }]],
  ['name', ['small', { name: 'breakwater' }]],
  ['artwork.file', ['small', { artwork: { file: 'pier.svg' } }]],
  ['artwork.text', ['small', { artwork: { text: PAPER } }]],
  ['artwork.name', ['small', { artwork: { name: 'breakwater' } }]],
  ['artwork.width', ['wide', { artwork: { width: 250 } }]],
  ['artwork.perInch', ['open', { artwork: { perInch: 26 } }]],
  ['artwork.mode', ['small', { artwork: { mode: 'spread' } }]],
  ['artwork.colourKey{}', ['small', { artwork: { colourKey: { '#cc2200': 'engrave' } } }]],
  ['artwork.layerKey{}', ['small', { artwork: { layerKey: { waves: 'ignore' } } }]],
  ['artwork.keepBackground', ['paper', { artwork: { keepBackground: true } }]],
  ['artwork.mirroredMatches', ['mirrored', { artwork: { mirroredMatches: true } }]],
  ['artwork.acceptFaults', ['lost', { artwork: { acceptFaults: true } }]],
  ['artwork.repair', ['gap', { artwork: { repair: false } }]],
  ['artwork.closeGap', ['gap', { artwork: { closeGap: 0.01 } }]],
  ['artwork.fillers[]', ['hanging', { artwork: { fillers: ['deck'] } }]],
  ['bed.width', ['small', { bed: { width: 150 } }, { bed: { width: 320, height: 220 } }]],
  ['bed.height', ['small', { bed: { height: 80 } }, { bed: { width: 320, height: 220 } }]],
  ['bed.margin', ['small', { bed: { margin: 60 } }, { bed: { width: 320, height: 220 } }]],
  ['bed.passThrough', ['split', { bed: { passThrough: 'width' } }, { bed: { width: 180, height: 180 } }]],
  [
    'bed.passLength',
    ['small', { bed: { passLength: 200 } }, { bed: { width: 150, height: 220, passThrough: 'width' } }],
  ],
  ['boards[].id', ['small', { boards: [{ ...plain, id: 'birch' }] }]],
  ['boards[].width', ['small', { boards: [{ ...plain, width: 310 }] }]],
  ['boards[].height', ['small', { boards: [{ ...plain, height: 210 }] }]],
  ['boards[].count', ['small', { boards: [{ ...plain, count: 1 }] }, { batch: 6 }]],
  ['boards[].price', ['small', { boards: [{ ...plain, price: 7 }] }]],
  ['boards[].grain', ['small', { boards: [{ ...upright, grain: true }] }, { boards: [upright], ...grainKept }]],
  ...(['x', 'y', 'width', 'height'] as const).map((side): [string, Change] => [
    `boards[].forbidden[].${side}`,
    ['knots', { boards: [{ ...plain, forbidden: [{ ...KNOT, [side]: 120 }] }] }],
  ]),
  ['offcuts[].id', ['offcuts', { offcuts: [{ ...rest, id: 'scrap' }] }]],
  ['offcuts[].outline', ['offcuts', { offcuts: [{ ...rest, outline: 'M0 0H60V60H0Z' }] }]],
  ['offcuts[].count', ['offcuts', { offcuts: [{ ...rest, count: 1 }] }]],
  ['offcuts[].grain', ['offcuts', { offcuts: [{ ...rest, grain: true }] }]],
  ['loading.way', ['split', { loading: { way: 'cut-down' } }]],
  ['loading.sawKerf', ['cutDown', { loading: { sawKerf: 8 } }]],
  ['material', ['small', { material: 'birch plywood' }]],
  ['thickness', ['small', { thickness: 9 }]],
  ['kerf', ['small', { kerf: 0.4 }]],
  ['fit', ['split', { fit: 0.1 }]],
  ['compensate', ['small', { compensate: 'none' }]],
  ['spacing', ['small', { spacing: 12 }]],
  ['margin', ['small', { margin: 15 }]],
  ['batch', ['small', { batch: 2 }]],
  ['landing', ['split', { landing: 12 }]],
  ['together[][]', ['small', { together: [['lamp', 'gull', 'nobody']] }]],
  ...TURNS.map(([field, turns]): [string, Change] => [`turns.${field}`, ['small', { turns }]]),
  ['turns.mirror[]', ['pinned', { turns: { mirror: [] } }, { pinned: [{ ...pin, mirrored: true }] }]],
  ['turns.keepGrain[]', ['small', grainKept, { boards: [{ ...upright, grain: true }] }]],
  ...seamChanges('seams', (seams, text) => ['split', { seams }, { artwork: { text } }]),
  ...seamChanges('seams.parts{}', (wish, text) => [
    'split',
    { seams: { parts: { plate: wish } } },
    { artwork: { text } },
  ]),
  ...Object.entries(MARKS).map(([field, value]): [string, Change] => [
    `marks.${field}`,
    ['small', { marks: { [field]: value } }],
  ]),
  ['marks.seamLabels', ['split', { marks: { seamLabels: false } }]],
  ['designs[].id', ['day', own({ id: 'wharf' })]],
  ['designs[].order', ['day', own({ order: 'chandler' })]],
  ['designs[].count', ['day', own({ count: 2 })]],
  ['designs[].mark', ['day', own({ mark: 'P' })]],
  ['designs[].artwork.file', ['day', ownArt({ file: 'pier.svg' })]],
  ['designs[].artwork.text', ['day', ownArt({ text: PAPER })]],
  ['designs[].artwork.name', ['day', ownArt({ name: 'breakwater' })]],
  ['designs[].artwork.width', ['day', artOf(OPEN_SIZE, { width: 250 }), artOf(OPEN_SIZE, { width: 260 })]],
  ['designs[].artwork.perInch', ['day', artOf(OPEN_SIZE, { perInch: 26 }), artOf(OPEN_SIZE, { perInch: 25.4 })]],
  ['designs[].artwork.mode', ['day', ownArt({ mode: 'spread' })]],
  ['designs[].artwork.colourKey{}', ['day', ownArt({ colourKey: { '#cc2200': 'engrave' } })]],
  ['designs[].artwork.layerKey{}', ['day', ownArt({ layerKey: { waves: 'ignore' } })]],
  ['designs[].artwork.keepBackground', ['day', artOf(PAPER, { keepBackground: true }), artOf(PAPER, {})]],
  ['designs[].artwork.mirroredMatches', ['day', artOf(MIRRORED, { mirroredMatches: true }), artOf(MIRRORED, {})]],
  [
    'designs[].artwork.acceptFaults',
    ['day', artOf(BASES.lost.artwork.text, { acceptFaults: true }), artOf(BASES.lost.artwork.text, {})],
  ],
  ['designs[].artwork.repair', ['day', artOf(GAP, { repair: false }), artOf(GAP, {})]],
  ['designs[].artwork.closeGap', ['day', artOf(GAP, { closeGap: 0.01 }), artOf(GAP, {})]],
  ['designs[].artwork.fillers[]', ['day', artOf(HANGING, { fillers: ['deck'] }), artOf(HANGING, {})]],
  ...TURNS.map(([field, turns]): [string, Change] => [`designs[].turns.${field}`, ['day', own({ turns })]]),
  [
    'designs[].turns.mirror[]',
    [
      'day',
      own({ turns: { mirror: [] } }),
      {
        ...own({ turns: { mirror: ['lamp'] } }),
        pinned: [{ ...pin, piece: 'pier/lamp#1', stock: '300x200', mirrored: true }],
      },
    ],
  ],
  [
    'designs[].turns.keepGrain[]',
    ['day', own(grainKept), inStock({ boards: [{ ...upright, grain: true }], offcuts: [] })],
  ],
  ['designs[].together[][]', ['day', own({ together: [['lamp', 'gull', 'nobody']] })]],
  ['designs[].landing', wideDesign({ landing: 12 })],
  ...seamChanges('designs[].seams', (seams, text) => wideDesign({ seams }, text)),
  ...seamChanges('designs[].seams.parts{}', (wish, text) => wideDesign({ seams: { parts: { plate: wish } } }, text)),
  ...Object.entries(MARKS).map(([field, value]): [string, Change] => [
    `designs[].marks.${field}`,
    ['day', own({ marks: { [field]: value } })],
  ]),
  ['designs[].marks.seamLabels', wideDesign({ marks: { seamLabels: false } })],
  ['designs[].stockOf.rest', ['day', own({ stockOf: { rest: 'white-3' } })]],
  ['designs[].stockOf.layers{}', ['day', own({ stockOf: { layers: { lights: 'white-3' } } })]],
  ['designs[].stockOf.paints{}', ['day', own({ stockOf: { paints: { '#ffcc00': 'white-3' } } })]],
  ['designs[].stockOf.parts{}', ['day', own({ stockOf: { parts: { gull: 'white-3' } } })]],
  ['stocks[].id', ['day', inStock({ id: 'ply-6' })]],
  ['stocks[].material', ['day', inStock({ material: 'birch plywood' })]],
  ['stocks[].thickness', ['day', inStock({ thickness: 9 })]],
  ['stocks[].measured', ['day', inStock({ measured: 5.7 })]],
  ['stocks[].colour', ['day', inStock({ colour: '#224466' })]],
  ['stocks[].kerf', ['day', inStock({ kerf: 0.4 })]],
  ['stocks[].fit', ['split', { stocks: [{ id: 'ply-6', fit: 0.1 }] }, { stocks: [{ id: 'ply-6' }] }]],
  [
    'stocks[].grain',
    [
      'day',
      inStock({ boards: [upright], offcuts: [], grain: true }),
      { ...inStock({ boards: [upright], offcuts: [] }), ...grainKept },
    ],
  ],
  ['stocks[].density', ['day', inStock({ density: 400 })]],
  ...Object.entries(SPEEDS).map(([field, value]): [string, Change] => [
    `stocks[].speeds.${field}`,
    ['day', inStock({ speeds: { [field]: value } }), { ...inStock({ speeds: {} }), ...burntDay(field) }],
  ]),
  ['stocks[].boards[].id', ['day', inStock({ boards: [{ ...plain, id: 'birch' }] })]],
  ['stocks[].boards[].width', ['day', inStock({ boards: [{ ...plain, width: 310 }] })]],
  ['stocks[].boards[].height', ['day', inStock({ boards: [{ ...plain, height: 210 }] })]],
  ['stocks[].boards[].count', ['day', inStock({ boards: [{ ...plain, count: 1 }] }), { batch: 8 }]],
  ['stocks[].boards[].price', ['day', inStock({ boards: [{ ...plain, price: 7 }] })]],
  [
    'stocks[].boards[].grain',
    [
      'day',
      inStock({ boards: [{ ...upright, grain: true }], offcuts: [] }),
      { ...inStock({ boards: [upright], offcuts: [] }), ...grainKept },
    ],
  ],
  ...(['x', 'y', 'width', 'height'] as const).map((side): [string, Change] => [
    `stocks[].boards[].forbidden[].${side}`,
    [
      'day',
      inStock({ boards: [{ ...plain, forbidden: [{ ...KNOT, [side]: 120 }] }] }),
      inStock({ boards: [{ ...plain, forbidden: [KNOT] }] }),
    ],
  ]),
  ...Object.entries({ id: 'scrap', outline: 'M0 0H60V60H0Z', count: 0, grain: true }).map(
    ([field, value]): [string, Change] => [
      `stocks[].offcuts[].${field}`,
      ['day', inStock({ offcuts: [{ ...rest, [field]: value }] }), { aim: 'fewest-bought', ...grainKept, ...plates }],
    ],
  ),
  ['stockOf.rest', ['day', { stockOf: { rest: 'white-3' } }]],
  ['stockOf.layers{}', ['day', { stockOf: { layers: { lights: 'white-3' } } }]],
  ['stockOf.paints{}', ['day', { stockOf: { paints: { '#ffcc00': 'white-3' } } }]],
  ['stockOf.parts{}', ['day', { stockOf: { parts: { gull: 'white-3' } } }]],
  ['done[].sheet', ['done', { done: [{ ...cutSheet, sheet: 'was-2' }] }]],
  ['done[].stock', ['done', { done: [{ ...cutSheet, stock: 'white-3' }] }]],
  [
    'done[].board',
    [
      'done',
      { done: [{ ...cutSheet, board: 'rest' }] },
      { aim: 'fewest-bought', ...inStock({ offcuts: [{ ...rest, count: 1 }] }) },
    ],
  ],
  ['done[].number', ['done', { done: [{ ...cutSheet, number: 4 }] }]],
  [
    'done[].pieces[].piece',
    ['done', { done: [{ ...cutSheet, pieces: [{ piece: 'pier/lamp', copy: 1, shape: PLATE_SHAPE }] }] }],
  ],
  [
    'done[].pieces[].copy',
    ['done', { done: [{ ...cutSheet, pieces: [{ piece: 'pier/plate', copy: 2, shape: PLATE_SHAPE }] }] }],
  ],
  [
    'done[].pieces[].shape',
    ['done', { done: [{ ...cutSheet, pieces: [{ piece: 'pier/plate', copy: 1, shape: 'y' }] }] }],
  ],
  [
    'done[].pieces[].number',
    ['done', { done: [{ ...cutSheet, pieces: [{ piece: 'pier/plate', copy: 1, shape: PLATE_SHAPE, number: '99' }] }] }],
  ],
  ['lettering.fonts[].file', ['lettered', { lettering: { fonts: [{ ...FONT, file: 'other.ttf' }] } }]],
  ['lettering.fonts[].data', ['lettered', { lettering: { fonts: [{ ...FONT, data: 'AAAA' }] } }]],
  ...Object.entries(LETTERS).flatMap(([field, [patch, common = {}]]): [string, Change][] => [
    [`lettering.${field}`, ['lettered', { lettering: patch }, { lettering: common }]],
    [`designs[].lettering.${field}`, ['letteredDay', plaqueWith({ ...common, ...patch }), plaqueWith(common)]],
  ]),
  ['output.formats[]', ['small', { output: { formats: ['svg', 'dxf'] } }]],
  ['output.layers{}.colour', ['small', { output: { layers: { 'cut-outer': { colour: '#112233' } } } }]],
  ['output.layers{}.layer', ['small', { output: { layers: { 'cut-outer': { layer: 'outlines' } } } }]],
  [
    'output.rounds',
    [
      'small',
      { output: { rounds: 'by-process' } },
      {
        artwork: {
          text: page(
            '<path id="ring" fill="#224466" fill-rule="evenodd" d="M10 10H170V100H10ZM30 25H150V85H30Z"/><rect id="lamp" x="60" y="120" width="30" height="20" fill="#ffcc00"/>',
          ),
        },
        boards: ['175x105'],
      },
    ],
  ],
  ['bridges.number', ['small', { bridges: { number: 2 } }]],
  ['bridges.width', ['small', { bridges: { width: 1 } }, { bridges: { number: 2 } }]],
  ['output.masks', ['small', { output: { masks: 'stencil' } }]],
  ['output.pictures', ['small', { output: { pictures: true } }]],
  ['costs.currency', ['money', { costs: { currency: 'DKK' } }]],
  ['costs.machineHour', ['money', { costs: { machineHour: 60 } }]],
  ...['cut', 'score', 'deep-score', 'engrave'].map((process): [string, Change] => [
    `costs.machineHourByProcess.${process}`,
    ['money', { costs: { machineHourByProcess: { [process]: 99 } } }, burnt(process)],
  ]),
  ...['overheadPerSign', 'extrasPerSign', 'packingPerSign', 'feePerSign', 'labourHour'].map(
    (field): [string, Change] => [`costs.${field}`, ['money', { costs: { [field]: 45 } }]],
  ),
  ...['Sign', 'Piece', 'Layer', 'Colour', 'Sheet', 'Batch'].map((what): [string, Change] => [
    `costs.handMinutesPer${what}`,
    ['money', { costs: { [`handMinutesPer${what}`]: 9 } }],
  ]),
  ['costs.handMinutesPerReset', ['split', { costs: { handMinutesPerReset: 9 } }, { costs: { labourHour: 20 } }]],
  ['costs.boards', ['money', { costs: { boards: 'used' } }, { boards: [{ ...plain, price: 9 }] }]],
  ['costs.offcutSquareMetre', ['offcuts', { costs: { offcutSquareMetre: 50 } }]],
  ['costs.markUp', ['money', { costs: { markUp: 2 } }]],
  ['costs.margin', ['money', { costs: { margin: 0.4 } }]],
  ['costs.price', ['money', { costs: { price: 99 } }]],
  ['costs.feeShare', ['money', { costs: { feeShare: 0.2 } }]],
  ...Object.entries(SPEEDS).map(([field, value]): [string, Change] => [
    `costs.speeds.${field}`,
    ['money', { costs: { speeds: { [field]: value } } }, burnt(field)],
  ]),
  ['shop.paints[].name', ['money', { shop: { paints: [{ ...paint, name: 'night' }] } }]],
  ['shop.paints[].colours[]', ['money', { shop: { paints: [{ ...paint, colours: ['#ffcc00'] }] } }]],
  ['shop.paints[].coats', ['money', { shop: { paints: [{ ...paint, coats: 3 }] } }]],
  ['shop.paints[].squareMetresPerLitre', ['money', { shop: { paints: [{ ...paint, squareMetresPerLitre: 4 }] } }]],
  ['shop.paints[].pricePerLitre', ['money', { shop: { paints: [{ ...paint, pricePerLitre: 40 }] } }]],
  ['shop.coats', ['money', { shop: { coats: 3 } }]],
  ['shop.squareMetresPerLitre', ['money', { shop: { squareMetresPerLitre: 4 } }]],
  ['shop.paintLoss', ['money', { shop: { paintLoss: 0.5 } }]],
  ['shop.paintEdges', ['money', { shop: { paintEdges: false } }]],
  ['shop.paintBacks', ['money', { shop: { paintBacks: true } }]],
  ['shop.painted', ['money', { shop: { painted: 'after' } }]],
  ['shop.bareInset', ['money', { shop: { bareInset: 4 } }]],
  ['shop.glue.name', ['money', { shop: { glue: { name: 'hide glue' } } }]],
  ['shop.glue.mlPerSquareMetre', ['money', { shop: { glue: { mlPerSquareMetre: 300 } } }]],
  ['shop.glue.pricePerLitre', ['money', { shop: { glue: { pricePerLitre: 18 } } }]],
  ['shop.glue.opensSeconds', ['money', { shop: { glue: { opensSeconds: 30 } } }, { marks: { guides: false } }]],
  ['shop.restSide', ['money', { shop: { restSide: 190 } }]],
  ...Object.entries({ slots: 1, kind: 'keyhole', width: 12, height: 9, clear: 20 }).map(
    ([field, value]): [string, Change] => [
      `shop.hanging.${field}`,
      ['hung', { shop: { hanging: { [field]: value } } }],
    ],
  ),
  ...['x', 'y'].map((side): [string, Change] => [
    `shop.hanging.at[].${side}`,
    [
      'hung',
      { shop: { hanging: { at: [{ x: 70, y: 30, [side]: 45 }] } } },
      { shop: { hanging: { at: [{ x: 70, y: 30 }] } } },
    ],
  ]),
  ['shop.densityKgM3', ['money', { shop: { densityKgM3: 900 } }]],
  [
    'aim',
    [
      'small',
      { aim: 'cheapest' },
      {
        batch: 6,
        boards: [
          { id: 'large', width: 600, height: 300, price: 90 },
          { id: 'low', ...plain, price: 2 },
        ],
        bed: '620x320',
      },
    ],
  ],
  ['effort', ['small', { effort: 1 }, { batch: 3 }]],
  ['seed', ['small', { seed: 7 }, { batch: 3 }]],
  ['pinned[].piece', ['pinned', { pinned: [{ ...pin, piece: 'gull#1' }] }]],
  ['pinned[].sheet', ['pinned', { pinned: [{ ...pin, sheet: 1 }] }]],
  ['pinned[].stock', ['pinned', { pinned: [{ ...pin, stock: 'oak' }] }]],
  ['pinned[].x', ['pinned', { pinned: [{ ...pin, x: 205 }] }]],
  ['pinned[].y', ['pinned', { pinned: [{ ...pin, y: 65 }] }]],
  ['pinned[].turnDeg', ['pinned', { pinned: [{ ...pin, turnDeg: 90 }] }]],
  ['pinned[].mirrored', ['pinned', { pinned: [{ ...pin, mirrored: true }] }]],
]);

function burntDay(process: string): object {
  const { artwork } = burnt(process) as { artwork?: object };
  return artwork === undefined ? {} : ownArt(artwork);
}
