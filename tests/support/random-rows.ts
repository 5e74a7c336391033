import seedrandom from 'seedrandom';
import { dxfText, type Groups, lightPolyline } from '../../packages/artwork/testing/dxf-text.ts';
import type { Spot } from './random-spread.ts';

/** A part that the drawing's maker meant: the outline where it belongs in the finished sign, mm. */
export interface MeantPart {
  readonly kind: string;
  readonly points: readonly Spot[];
  readonly holes: number;
  /** Is its place in the sign shown in the drawing? Else it may lie anywhere. */
  readonly isPlaced: boolean;
}

/** A drawing whose meaning is known from its making. */
export interface RowDrawing {
  readonly name: string;
  readonly data: Uint8Array;
  readonly parts: readonly MeantPart[];
  /** Number of lines and areas that are burnt, guides included, by process. */
  readonly marks: Readonly<Record<'score' | 'engrave', number>>;
  /** What must be told of it whatever is read, by code. */
  readonly mustTell: readonly string[];
  /** What was combined, for a message. */
  readonly traits: readonly string[];
}

/** How guides are told from cut lines. */
const LOOKS = [
  'named layer',
  'named layer, own colour',
  'layer',
  'colour',
  'areas',
  'same',
  'DXF layers',
  'DXF same',
] as const;
/** How a guide is drawn. */
const GUIDES = ['exact', 'inset', 'grown', 'over the edge', 'clipped, closed', 'clipped, open'] as const;
const ENCODINGS = ['utf-8', 'utf-8 with mark', 'utf-16le', 'utf-16be', 'latin-1', 'windows-1252'] as const;

const BLACK = '#000000';
const RED = '#cc2200';
/** The plate: x, y from 20 to the edges. */
const EAST = 320;
const SOUTH = 220;

/**
 * A spread or stacked sign that combines ways in which people draw: looks of guides, guides over the edge or clipped there, page,
 * doubled lines, equal names, script letters, inner outlines, clips, entities, encodings, things that cannot be cut. The same seed
 * gives the same drawing.
 */
export function randomRows(seed: string): RowDrawing {
  const random = seedrandom(`rows-${seed}`);
  return random() < 0.6 ? spreadSign(random) : stackedSign(random);
}

type Random = () => number;

function tools(random: Random) {
  const between = (low: number, high: number): number => low + (high - low) * random();
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!;
  /** A lopsided outline about 0, 0 that fits in one place only. */
  const lopsided = (reach: number): Spot[] => {
    const count = 6 + Math.floor(random() * 3);
    return Array.from({ length: count }, (_, k) => {
      const turn = (2 * Math.PI * (k + between(-0.25, 0.25))) / count;
      const r = reach * (0.78 + (0.22 * ((k * 37) % count)) / count + between(0, 0.1));
      return { x: r * Math.cos(turn), y: r * Math.sin(turn) };
    });
  };
  return { between, pick, lopsided };
}

function put(points: readonly Spot[], x: number, y: number, turn: number): Spot[] {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return points.map((p) => ({ x: x + c * p.x - s * p.y, y: y + s * p.x + c * p.y }));
}

function grown(points: readonly Spot[], by: number): Spot[] {
  const lines = points.map((p, i) => {
    const q = points[(i + 1) % points.length]!;
    const length = Math.hypot(q.x - p.x, q.y - p.y);
    const [nx, ny] = [(q.y - p.y) / length, -(q.x - p.x) / length];
    return { x: p.x + by * nx, y: p.y + by * ny, dx: q.x - p.x, dy: q.y - p.y };
  });
  // Where neighbouring sides meet once they are moved outwards.
  return lines.map((b, i) => {
    const a = lines[(i + lines.length - 1) % lines.length]!;
    const cross = a.dx * b.dy - a.dy * b.dx;
    const u = ((b.x - a.x) * b.dy - (b.y - a.y) * b.dx) / cross;
    return { x: a.x + u * a.dx, y: a.y + u * a.dy };
  });
}

/** What of an outline lies west of the plate's east edge; closed along that edge, or as open lines. */
function clipped(points: readonly Spot[], isClosed: boolean): { points: Spot[]; closed: boolean }[] {
  const kept: { spot: Spot; isCut: boolean }[] = [];
  points.forEach((p, i) => {
    const q = points[(i + 1) % points.length]!;
    if (p.x <= EAST) kept.push({ spot: p, isCut: false });
    if (p.x <= EAST !== q.x <= EAST)
      kept.push({ spot: { x: EAST, y: p.y + ((q.y - p.y) * (EAST - p.x)) / (q.x - p.x) }, isCut: true });
  });
  if (isClosed) return [{ points: kept.map(({ spot }) => spot), closed: true }];
  const start = kept.findIndex(({ isCut }, i) => isCut && kept[(i + 1) % kept.length]!.isCut);
  const turned = [...kept.slice(start + 1), ...kept.slice(0, start + 1)];
  return [{ points: turned.map(({ spot }) => spot), closed: false }];
}

const text = ({ x, y }: Spot): string => `${x.toFixed(4)} ${y.toFixed(4)}`;
const data = (points: readonly Spot[], closed = true): string => `M${points.map(text).join('L')}${closed ? 'Z' : ''}`;
const box = (x: number, y: number, w: number, h: number): Spot[] => [
  { x, y },
  { x: x + w, y },
  { x: x + w, y: y + h },
  { x, y: y + h },
];
const PLATE = box(20, 20, EAST - 20, SOUTH - 20);

function spreadSign(random: Random): RowDrawing {
  const { between, pick, lopsided } = tools(random);
  const look = pick(LOOKS);
  const traits = ['spread', look];
  const parts: MeantPart[] = [{ kind: 'plate', points: PLATE, holes: 0, isPlaced: true }];
  const cuts: { name: string; points: Spot[] }[] = [{ name: 'plate', points: PLATE }];
  const guides: { points: Spot[]; closed: boolean }[] = [];
  const slots: readonly Spot[] = [
    { x: 75, y: 75 },
    { x: 160, y: 75 },
    { x: 75, y: 165 },
    { x: 165, y: 165 },
  ];
  const inner = 1 + Math.floor(random() * 4);
  for (let k = 0; k < inner; k++) {
    const outline = lopsided(between(22, 34));
    const at = put(outline, slots[k]!.x, slots[k]!.y, between(0, 6.28));
    const kind = pick(['exact', 'inset', 'grown'] as const);
    traits.push(kind);
    guides.push({ points: kind === 'exact' ? at : grown(at, kind === 'inset' ? -0.6 : 0.4), closed: true });
    addPart(`motif-${k}`, outline, at);
  }
  if (random() < 0.6) {
    const outline = lopsided(between(26, 36));
    const turned = put(outline, 0, 0, between(0, 6.28));
    const reach = Math.max(...turned.map(({ x }) => x));
    const at = put(turned, EAST + 10 - reach, between(80, 160), 0);
    const kind = pick(GUIDES.slice(3));
    traits.push(kind);
    guides.push(
      ...(kind === 'over the edge' ? [{ points: at, closed: true }] : clipped(at, kind === 'clipped, closed')),
    );
    addPart('banner', outline, at);
  }
  function addPart(name: string, outline: Spot[], at: Spot[]): void {
    const k = cuts.length - 1;
    cuts.push({ name, points: put(outline, 420 + 90 * (k % 3), 70 + 90 * Math.floor(k / 3), between(0, 6.28)) });
    parts.push({ kind: name, points: at, holes: 0, isPlaced: true });
  }
  const marks = { score: guides.length, engrave: 0 };
  if (look.startsWith('DXF')) {
    const layerOf = (isGuide: boolean): string => (look === 'DXF same' ? 'LINES' : isGuide ? 'SCORE' : 'CUT');
    const flat = (points: readonly Spot[]): number[][] =>
      points.map(({ x, y }) => [Number(x.toFixed(4)), Number((-y).toFixed(4))]);
    const entities: Groups = [
      ...cuts.flatMap(({ points }) => lightPolyline(flat(points), true, layerOf(false))),
      ...guides.flatMap(({ points, closed }) => lightPolyline(flat(points), closed, layerOf(true))),
    ];
    const bytes = new TextEncoder().encode(dxfText({ header: { $INSUNITS: 4 }, entities }));
    return { name: 'rows.dxf', data: bytes, parts, marks, mustTell: [], traits };
  }
  const colour = ['named layer, own colour', 'colour'].includes(look) ? RED : BLACK;
  const paint = look === 'areas' ? `fill="${RED}"` : `fill="none" stroke="${colour}"`;
  const cutLines = cuts.map(
    ({ name, points }) => `<path id="${name}" fill="none" stroke="${BLACK}" d="${data(points)}"/>`,
  );
  const guideLines = guides.map(({ points, closed }) => `<path ${paint} d="${data(points, closed)}"/>`).join('');
  const layer = look.startsWith('named') ? 'score' : look === 'layer' ? 'where they go' : null;
  const mustTell: string[] = [];
  const extras: string[] = [];
  if (random() < 0.3) {
    // An area that is to be engraved, of a colour of its own.
    extras.push(`<path id="wave" fill="#113355" d="${data(box(215, 60, 30, 12))}"/>`);
    marks.engrave++;
    mustTell.push('fill-in-cut');
    traits.push('engraved area');
  }
  lostThings(random, extras, mustTell, traits);
  const group = layer === null ? guideLines : `<g id="${layer}">${guideLines}</g>`;
  const body = `<g id="parts">${cutLines.join('')}</g>${group}${extras.join('')}`;
  return { name: 'rows.svg', data: encoded(random, body, '', traits), parts, marks, mustTell, traits };
}

/** Things that cannot be cut, which nobody may lose without a word. */
function lostThings(random: Random, body: string[], mustTell: string[], traits: string[]): void {
  const lost: readonly (readonly [string, string])[] = [
    ['text', '<text x="40" y="200" font-size="9">Pier</text>'],
    ['bitmap', '<image href="data:image/png;base64,iVBORw0=" x="280" y="40" width="20" height="20"/>'],
    ['language', `<g systemLanguage="tlh"><path fill="none" stroke="${BLACK}" d="${data(box(700, 20, 20, 20))}"/></g>`],
    ['hidden', `<g style="display:none"><path stroke="${BLACK}" d="${data(box(700, 60, 20, 20))}"/></g>`],
  ];
  for (const [code, drawn] of lost) {
    if (random() >= 0.15) continue;
    body.push(drawn);
    mustTell.push(code);
    traits.push(code);
  }
}

function stackedSign(random: Random): RowDrawing {
  const { between, pick, lopsided } = tools(random);
  const traits = ['stacked'];
  const mustTell: string[] = [];
  const parts: MeantPart[] = [];
  const body: string[] = [];
  let defs = '';
  const isLined = random() < 0.3;
  if (isLined) traits.push('cut lines over fills');
  const add = (name: string, fill: string, points: readonly Spot[], more = '', d = data(points)): void => {
    body.push(`<path id="${name}" fill="${fill}"${more} d="${d}"/>`);
    if (isLined) body.push(`<path fill="none" stroke="${BLACK}" stroke-width="0.2" d="${data(points)}"/>`);
  };
  if (random() < 0.3) {
    body.push('<rect width="800" height="300" fill="#ffffff"/>');
    mustTell.push('background');
    traits.push('white page');
  }
  const hole = random() < 0.3 ? data(box(230, 170, 20, 15)) : '';
  const evenOdd = ' fill-rule="evenodd"';
  add('plate', '#224466', PLATE, hole === '' ? '' : evenOdd, data(PLATE) + hole);
  if (hole !== '') traits.push('hole');
  if (hole !== '' && isLined) body.push(`<path fill="none" stroke="${BLACK}" d="${hole}"/>`);
  parts.push({ kind: 'plate', points: PLATE, holes: hole === '' ? 0 : 1, isPlaced: true });
  const slots: readonly Spot[] = [
    { x: 70, y: 75 },
    { x: 150, y: 75 },
    { x: 70, y: 165 },
    { x: 150, y: 165 },
    { x: 230, y: 75 },
  ];
  for (const { x, y } of slots) {
    const at = put(lopsided(between(20, 32)), x, y, between(0, 6.28));
    const trait = pick([
      'plain',
      'plain',
      'none',
      'equal names',
      'script',
      'idle inner',
      'clip',
      'entity',
      'turned',
      'wide line',
      'shade',
    ]);
    if (trait === 'none') continue;
    traits.push(trait);
    const id = `motif-${body.length}`;
    const fill = pick(['#ffcc00', '#cc8844', '#eeeecc']);
    const part = { kind: id, points: at, holes: 0, isPlaced: true };
    if (trait === 'plain') add(id, fill, at);
    if (trait === 'equal names') {
      const below = y > 100 ? 250 : 232;
      // The second area of 'oval' would be called as the next one is.
      add('oval', fill, at, '', data(at) + data(box(x - 10, below, 12, 9)));
      if (isLined) body.push(`<path fill="none" stroke="${BLACK}" d="${data(box(x - 10, below, 12, 9))}"/>`);
      body.push(`<path id="oval-2" fill="${fill}" d="${data(box(x + 10, below, 12, 9))}"/>`);
      parts.push({ ...part, points: box(x - 10, below, 12, 9) }, { ...part, points: box(x + 10, below, 12, 9) });
    }
    if (trait === 'script') {
      const strokes = [box(x - 30, y - 6, 25, 12), box(x - 10, y - 10, 25, 12), box(x + 10, y - 6, 20, 12)];
      body.push(`<path id="${id}" fill="${fill}" d="${strokes.map((points) => data(points)).join('')}"/>`);
      mustTell.push('crossing-outline');
      parts.push({ ...part, points: [strokes[0]![0]!, strokes[0]![3]!, strokes[2]![1]!, strokes[2]![2]!] });
      continue;
    }
    if (trait === 'idle inner') {
      const around = box(x - 25, y - 20, 50, 40);
      body.push(`<path id="${id}" fill="${fill}" d="${data(around)}${data(box(x - 8, y - 8, 16, 16))}"/>`);
      if (isLined) body.push(`<path fill="none" stroke="${BLACK}" d="${data(around)}"/>`);
      mustTell.push('inner-outline-idle');
      parts.push({ ...part, points: around });
      continue;
    }
    if (trait === 'clip') {
      defs += `<clipPath id="c-${id}"><rect x="${x - 12}" y="${y - 12}" width="24" height="24"/></clipPath>`;
      body.push(`<path id="${id}" clip-path="url(#c-${id})" fill="${fill}" d="${data(box(x - 30, y - 30, 60, 60))}"/>`);
      parts.push({ ...part, points: box(x - 12, y - 12, 24, 24) });
      continue;
    }
    if (trait === 'entity') {
      defs += `<!ENTITY ${id} "<path id='${id}' fill='${fill}' d='${data(at)}'/>">`;
      body.push(`&${id};`);
    }
    if (trait === 'turned') {
      const back = put(at, 0, 0, -Math.PI / 6);
      body.push(`<path id="${id}" style="rotate:30deg" fill="${fill}" d="${data(back)}"/>`);
    }
    if (trait === 'wide line') {
      add(id, fill, at, ' stroke="#332211" stroke-width="6"');
      mustTell.push('wide-line');
    }
    if (trait === 'shade') {
      add(id, fill, at, ' fill-opacity="0.4"');
      mustTell.push('paint-replaced');
    }
    parts.push(part);
  }
  const drawn = isLined ? body.filter((line) => !/stroke-width="6"/.test(line)) : body;
  if (drawn.length < body.length) return stackedSign(random);
  lostThings(random, body, mustTell, traits);
  const file = encoded(random, body.join(''), defs, traits);
  return { name: 'rows.svg', data: file, parts, marks: { score: 0, engrave: 0 }, mustTell, traits };
}

function encoded(random: Random, body: string, defs: string, traits: string[]): Uint8Array {
  const encoding = ENCODINGS[Math.floor(random() * ENCODINGS.length)]!;
  traits.push(encoding);
  const entities = [...defs.matchAll(/<!ENTITY [^>]*?"<path[\s\S]*?\/>">/g)].map(([entity]) => entity).join('');
  const doctype = entities === '' ? '' : `<!DOCTYPE svg [${entities}]>`;
  const clips = defs.replaceAll(/<!ENTITY [^>]*?"<path[\s\S]*?\/>">/g, '');
  const declared = encoding === 'latin-1' ? 'ISO-8859-1' : encoding === 'windows-1252' ? encoding : null;
  const head = declared === null ? '' : `<?xml version="1.0" encoding="${declared}"?>`;
  const svg = `${head}${doctype}<svg xmlns="http://www.w3.org/2000/svg" width="800mm" height="300mm" viewBox="0 0 800 300"><title>M\u00f6we</title>${clips}${body}</svg>`;
  if (encoding === 'utf-8') return new TextEncoder().encode(svg);
  if (encoding === 'utf-8 with mark') return new TextEncoder().encode(`\ufeff${svg}`);
  if (declared !== null) return Uint8Array.from(svg, (letter) => letter.charCodeAt(0));
  const view = new DataView(new ArrayBuffer(2 * svg.length + 2));
  const marked = `\ufeff${svg}`;
  for (let i = 0; i < marked.length; i++) view.setUint16(2 * i, marked.charCodeAt(i), encoding === 'utf-16le');
  return new Uint8Array(view.buffer);
}
