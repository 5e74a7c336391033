import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

export const page = (body: string, width = 260): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="160mm" viewBox="0 0 ${width} 160">${body}</svg>`;
export const PLATE = '<rect id="plate" x="10" y="10" width="160" height="90" fill="#224466"/>';
const LAMPS =
  '<g id="lights"><rect id="lamp" x="30" y="60" width="24" height="18" fill="#ffcc00"/><path id="gull" d="M70 60L110 58L96 82L74 78Z" fill="#eeeecc"/></g>';
const WAVE = '<g id="waves"><path d="M120 30h30" fill="none" stroke="#cc2200"/></g>';
const SIGN = page(PLATE + LAMPS + WAVE);
/** Wider than the bed of `split`, with a banner that hides a seam. */
const WIDE_PLATE = '<rect id="plate" x="5" y="5" width="240" height="90" fill="#224466"/>';
export const WIDE = page(`${WIDE_PLATE}<rect id="banner" x="40" y="15" width="170" height="60" fill="#7fb2c8"/>`);
/** Two pieces show their seam, three hide theirs. */
export const FLAGS = page(
  `${WIDE_PLATE}<rect id="banner" x="10" y="10" width="55" height="80" fill="#7fb2c8"/><rect id="flag" x="185" y="10" width="55" height="80" fill="#7fb2c8"/>`,
);
export const PLANKS = page(`${WIDE_PLATE}<path d="M130 5V95" fill="none" stroke="#cc2200"/>`);
/** The lamp stands apart on a pier of two boards: something hangs. */
export const HANGING = page(
  '<rect id="plate" x="5" y="5" width="200" height="100" fill="#224466"/><rect id="plank" x="20" y="20" width="90" height="60" fill="#7fb2c8"/><rect id="deck" x="30" y="30" width="150" height="40" fill="#ffcc00"/>',
);
export const GAP = page('<path id="plate" fill="none" stroke="#000000" d="M10 10H170V100H10V10.05"/>');
export const PAPER = page(`<rect width="260" height="160" fill="#ffffff"/>${PLATE}${LAMPS}`);
export const OPEN_SIZE = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 260 160">${PLATE}${LAMPS}</svg>`;
export const MIRRORED = page(
  '<path id="plate" fill="none" stroke="#000000" d="M5 5H165V105H5Z"/><path id="gull" fill="none" stroke="#000000" d="M190 60L235 55L218 90L196 80Z"/><g id="score"><path fill="none" stroke="#000000" d="M80 60L35 55L52 90L74 80Z"/></g>',
);

const quick = { bed: '320x220', effort: 'quick', thickness: 6 };
export const small = { ...quick, artwork: { text: SIGN, name: 'pier' }, boards: ['300x200'] };
export const split = {
  ...quick,
  bed: '180x180',
  artwork: { text: WIDE, name: 'quay' },
  boards: [{ id: 'ply', width: 400, height: 300 }],
};
export const KNOT = { x: 5, y: 5, width: 90, height: 60 };
export const knots = { ...small, boards: [{ width: 300, height: 200, forbidden: [KNOT] }] };
/** Upright, so that the plate has to turn for it. */
export const rest = { id: 'rest', outline: 'M0 0H110V185H0Z', count: 2 };
export const offcuts = {
  ...small,
  artwork: { text: page(PLATE), name: 'pier' },
  offcuts: [rest],
  boards: [{ width: 300, height: 200, grain: true }],
  batch: 2,
  aim: 'fewest-bought',
  turns: { keepGrain: ['plate'] },
};
export const plain = { width: 300, height: 200 };
/** The plate has to turn for it. */
export const upright = { width: 110, height: 190 };
export const grainKept = { turns: { keepGrain: ['plate'] } };
export const stock = { id: 'board-6', thickness: 6, kerf: 0.2, boards: [plain], offcuts: [rest] };
export const thin = { id: 'white-3', thickness: 3, boards: ['200x200'] };
export const pier = { id: 'pier', order: 'cafe', artwork: { text: SIGN, name: 'pier' }, count: 1 };
export const quay = {
  id: 'quay',
  order: 'office',
  artwork: { text: page(PLATE + LAMPS, 250), name: 'quay' },
  count: 1,
};
export const day = { ...quick, name: 'harbour day', designs: [pier, quay], stocks: [stock, thin] };
export const paint = { name: 'navy', colours: ['#224466'], pricePerLitre: 20 };
export const money = {
  ...small,
  batch: 2,
  costs: { machineHour: 30, labourHour: 20, handMinutesPerSign: 5 },
  shop: { paints: [paint], glue: { pricePerLitre: 9 } },
};
export const pin = { piece: 'lamp#1', sheet: 0, stock: 'ply', x: 200, y: 60, turnDeg: 0, mirrored: false };
export const pinned = {
  ...small,
  boards: [{ id: 'ply', width: 300, height: 200 }],
  turns: { mirror: ['lamp'] },
  pinned: [pin],
};
/** Stands for the key that the report tells of the plate. */
export const PLATE_SHAPE = 'shape of the plate';
export const cutSheet = {
  sheet: 'was-1',
  stock: 'board-6',
  board: '300x200',
  number: 1,
  pieces: [{ piece: 'pier/plate', copy: 1, shape: PLATE_SHAPE }],
};

const bold = readFileSync(createRequire(import.meta.url).resolve('dejavu-fonts-ttf/ttf/DejaVuSans-Bold.ttf'));
export const FONT = { file: 'bold.ttf', data: bold.toString('base64') };
const NAMED = page(
  `${PLATE}<text id="family" x="90" y="70" font-size="34" text-anchor="middle" fill="#ffffff">El</text>`,
);
const LETTERING = { fonts: [FONT], rooms: { family: 100 } };
export const lettered = { ...small, artwork: { text: NAMED, name: 'plaque' }, lettering: LETTERING };
const HANGING_SLOTS = { slots: 2, kind: 'slot', width: 20, height: 6, clear: 8, at: [] };

/** Jobs that the changes start from. */
export const BASES = {
  small,
  split,
  cutDown: { ...split, loading: { way: 'cut-down' } },
  knots,
  offcuts,
  day,
  money,
  pinned,
  done: { ...day, done: [cutSheet] },
  lettered,
  letteredDay: {
    ...quick,
    boards: ['300x200'],
    designs: [{ id: 'plaque', artwork: { text: NAMED, name: 'plaque' }, lettering: { rooms: { family: 100 } } }],
    lettering: { fonts: [FONT] },
  },
  hung: { ...small, shop: { hanging: HANGING_SLOTS } },
  hanging: { ...small, artwork: { text: HANGING } },
  gap: { ...small, artwork: { text: GAP } },
  paper: { ...small, artwork: { text: PAPER } },
  open: { ...small, artwork: { text: OPEN_SIZE, perInch: 25.4 } },
  wide: { ...small, artwork: { text: OPEN_SIZE, width: 260 } },
  mirrored: { ...small, artwork: { text: MIRRORED } },
  lost: { ...small, artwork: { text: page(`${PLATE}${LAMPS}<text x="20" y="90">Pier</text>`) } },
} as const;
