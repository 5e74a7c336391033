import { offsetRegions } from '@underlap/geometry/offset';
import { orientedRing, ringArea } from '@underlap/geometry/ring';
import seedrandom from 'seedrandom';

/** How the outlines of the parts are drawn on the parts below. */
export type SeatKind = 'exact' | 'noisy' | 'inset';

/** Where a part belongs: any of the seats of its kind, since equal parts may be exchanged. */
export interface SpreadTruth {
  /** Kind of outline of every part, by id; parts of one kind are equal. */
  readonly kindOf: ReadonlyMap<string, string>;
  /** Points of the outline in the finished sign, and the part that carries it, for every seat. */
  readonly seats: readonly { readonly kind: string; readonly on: string; readonly points: readonly Spot[] }[];
}

export interface RandomSpread {
  readonly svg: string;
  readonly truth: SpreadTruth;
}

export interface Spot {
  readonly x: number;
  readonly y: number;
}

interface Pose extends Spot {
  /** Degrees. */
  readonly turn: number;
}

/** An outline about its own origin: as path data with true curves, and as points along it. */
interface Outline {
  readonly data: string;
  readonly points: readonly Spot[];
}

const CUT = '#b5179e';
const SCORE = '#3a7d44';
/** Points along an outline, dense enough for a tenth of a millimetre. */
const POINTS = 240;

/**
 * A drawing with its parts spread out by random turns and moves, and with an outline of every upper part on the part below: a
 * backer, a banner on it, letters on the banner, motifs on the backer, some of them several times, and a few that belong nowhere.
 * @param kind - 'exact': the part's own path; 'noisy': another number of points from another start, each moved by up to 0.2 mm;
 * 'inset': points 0.6 mm inside the part.
 */
export function randomSpread(seed: string, kind: SeatKind): RandomSpread {
  const random = seedrandom(`spread-${seed}`);
  const between = (low: number, high: number): number => low + (high - low) * random();
  const pick = <T>(items: readonly T[]): T => items[Math.floor(random() * items.length)]!;
  const cuts: string[] = [];
  const scores: string[] = [];
  const kindOf = new Map<string, string>();
  const seats: SpreadTruth['seats'][number][] = [];
  /** Where the finished sign's frame lies in the drawing: at the backer, at the banner. */
  let parked = 0;
  const park = (): Pose => ({
    x: 700 + (parked % 6) * 230,
    y: 120 + Math.floor(parked++ / 6) * 230,
    turn: between(0, 360),
  });

  const backer = rectangle(460, 260, 30);
  cuts.push(path('backer', CUT, backer.data, { x: 250, y: 150, turn: 0 }));
  kindOf.set('backer', 'backer');

  const bannerOutline = blob(150, 34, 9);
  const bannerAt: Pose = { x: 250, y: 215, turn: between(-4, 4) };
  const bannerDrawn: Pose = { x: 250, y: 420, turn: between(0, 360) };
  const seat = (of: string, outline: Outline, inSign: Pose, inDrawing: Pose, on: string): void => {
    seats.push({ kind: of, on, points: outline.points.map((point) => put(point, inSign)) });
    const id = `seat-${scores.length}`;
    if (kind === 'exact') scores.push(path(id, SCORE, outline.data, inDrawing));
    else scores.push(path(id, SCORE, polygon(retraced(outline.points)), inDrawing));
  };
  /** Another start, other points, noise or inset. */
  const retraced = (points: readonly Spot[]): Spot[] => {
    const first = Math.floor(random() * points.length);
    const step = pick([1, 2]);
    const kept = points.map((_, i) => points[(i + first) % points.length]!).filter((_, i) => i % step === 0);
    if (kind === 'inset') return inset(kept, 0.6);
    return kept.map(({ x, y }) => {
      const angle = between(0, 2 * Math.PI);
      const reach = between(0, 0.2);
      return { x: x + reach * Math.cos(angle), y: y + reach * Math.sin(angle) };
    });
  };

  kindOf.set('banner', 'banner');
  cuts.push(path('banner', CUT, bannerOutline.data, bannerDrawn));
  seat('banner', bannerOutline, bannerAt, { ...bannerAt }, 'backer');

  const letters = 3 + Math.floor(random() * 3);
  for (let k = 0; k < letters; k++) {
    const of = `letter-${k}`;
    const outline = pick([
      () => star(5, between(8, 11)),
      () => blob(9, 7, 5),
      () => rectangle(between(9, 14), between(16, 22), 2),
    ])();
    const local: Pose = { x: -90 + (180 * k) / (letters - 1), y: 0, turn: between(-20, 20) };
    kindOf.set(of, of);
    cuts.push(path(of, CUT, outline.data, park()));
    seat(of, outline, compose(bannerAt, local), compose(bannerDrawn, local), 'banner');
  }
  const motifs = 3 + Math.floor(random() * 3);
  for (let k = 0; k < motifs; k++) {
    const of = `motif-${k}`;
    const outline = pick([
      () => blob(between(14, 26), between(12, 22), 7),
      () => star(3 + Math.floor(random() * 5), between(16, 26)),
      () => oval(between(14, 26), between(10, 20)),
      () => rectangle(between(20, 40), between(18, 40), pick([0, 4])),
    ])();
    const copies = random() < 0.3 ? 2 : 1;
    for (let copy = 0; copy < copies; copy++) {
      const id = `${of}-${copy}`;
      kindOf.set(id, of);
      cuts.push(path(id, CUT, outline.data, park()));
      const at: Pose = { x: 80 + (340 * k) / (motifs - 1), y: copy === 0 ? 70 : 128, turn: between(0, 360) };
      seat(of, outline, at, at, 'backer');
    }
  }
  for (const [id, outline] of [
    ['spare-blob', blob(20, 17, 7)],
    ['spare-star', star(5, 9.4)],
  ] as const) {
    kindOf.set(id, id);
    cuts.push(path(id, CUT, outline.data, park()));
  }
  const body = `<g id="cuts">${cuts.join('\n')}</g>\n<g id="scores">${scores.join('\n')}</g>`;
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="2200mm" height="1400mm" viewBox="0 0 2200 1400" fill="none">\n${body}\n</svg>\n`;
  return { svg, truth: { kindOf, seats } };

  /** A smooth closed curve through points at random reach. */
  function blob(rx: number, ry: number, lobes: number): Outline {
    const corners = Array.from({ length: lobes }, (_, k) => {
      const turn = (2 * Math.PI * k) / lobes;
      const reach = between(0.72, 1);
      return { x: rx * reach * Math.cos(turn), y: ry * reach * Math.sin(turn) };
    });
    const at = (k: number): Spot => corners[((k % lobes) + lobes) % lobes]!;
    const curves = corners.map((_, k) => {
      const [p, q, r, s] = [at(k - 1), at(k), at(k + 1), at(k + 2)];
      const c1 = { x: q.x + (r.x - p.x) / 6, y: q.y + (r.y - p.y) / 6 };
      const c2 = { x: r.x - (s.x - q.x) / 6, y: r.y - (s.y - q.y) / 6 };
      return { q, c1, c2, r };
    });
    const data = `M${text(at(0))}${curves.map(({ c1, c2, r }) => `C${text(c1)} ${text(c2)} ${text(r)}`).join('')}Z`;
    const dense = curves.flatMap(({ q, c1, c2, r }) =>
      Array.from({ length: 64 }, (_, i): Spot => {
        const u = i / 64;
        const [a, b, c, d] = [(1 - u) ** 3, 3 * u * (1 - u) ** 2, 3 * u * u * (1 - u), u ** 3];
        return { x: a * q.x + b * c1.x + c * c2.x + d * r.x, y: a * q.y + b * c1.y + c * c2.y + d * r.y };
      }),
    );
    return { data, points: evenly(dense) };
  }
  function star(spikes: number, radius: number): Outline {
    const corners = Array.from({ length: 2 * spikes }, (_, k) => {
      const reach = k % 2 === 0 ? radius : radius * 0.55;
      const turn = (Math.PI * k) / spikes;
      return { x: reach * Math.cos(turn), y: reach * Math.sin(turn) };
    });
    return { data: polygon(corners), points: evenly(corners) };
  }
  function oval(rx: number, ry: number): Outline {
    const data = `M${-rx} 0A${rx} ${ry} 0 0 1 ${rx} 0A${rx} ${ry} 0 0 1 ${-rx} 0Z`;
    const dense = Array.from({ length: 720 }, (_, k) => ({
      x: rx * Math.cos((Math.PI * k) / 360),
      y: ry * Math.sin((Math.PI * k) / 360),
    }));
    return { data, points: evenly(dense) };
  }
  function rectangle(width: number, height: number, r: number): Outline {
    const [w, h] = [width / 2, height / 2];
    const arc = (x: number, y: number): string => (r === 0 ? '' : `A${r} ${r} 0 0 1 ${x} ${y}`);
    const data =
      `M${-w + r} ${-h}H${w - r}${arc(w, -h + r)}V${h - r}${arc(w - r, h)}` +
      `H${-w + r}${arc(-w, h - r)}V${-h + r}${arc(-w + r, -h)}Z`;
    const dense = [
      [w - r, -h + r, -90],
      [w - r, h - r, 0],
      [-w + r, h - r, 90],
      [-w + r, -h + r, 180],
    ].flatMap(([x, y, from]) =>
      Array.from({ length: r === 0 ? 1 : 17 }, (_, k) => {
        const turn = ((from! + (90 * k) / 16) * Math.PI) / 180;
        return { x: x! + r * Math.cos(turn), y: y! + r * Math.sin(turn) };
      }),
    );
    return { data, points: evenly(dense) };
  }
}

function text({ x, y }: Spot): string {
  return `${x.toFixed(5)} ${y.toFixed(5)}`;
}

function polygon(points: readonly Spot[]): string {
  return `M${points.map(text).join('L')}Z`;
}

function path(id: string, stroke: string, data: string, { x, y, turn }: Pose): string {
  return `<path id="${id}" stroke="${stroke}" transform="translate(${x.toFixed(6)} ${y.toFixed(6)}) rotate(${turn.toFixed(6)})" d="${data}"/>`;
}

function put({ x, y }: Spot, pose: Pose): Spot {
  const [cos, sin] = [Math.cos((pose.turn * Math.PI) / 180), Math.sin((pose.turn * Math.PI) / 180)];
  return { x: pose.x + cos * x - sin * y, y: pose.y + sin * x + cos * y };
}

function compose(outer: Pose, inner: Pose): Pose {
  return { ...put(inner, outer), turn: outer.turn + inner.turn };
}

/** Points at equal steps along a closed polyline, its corners not among them. */
function evenly(ring: readonly Spot[]): Spot[] {
  const lengths = ring.map((p, i) => {
    const q = ring[(i + 1) % ring.length]!;
    return Math.hypot(q.x - p.x, q.y - p.y);
  });
  const total = lengths.reduce((sum, length) => sum + length, 0);
  const out: Spot[] = [];
  let walked = 0;
  ring.forEach((p, i) => {
    const q = ring[(i + 1) % ring.length]!;
    const length = lengths[i]!;
    // The corner itself, so that nothing is cut off, and the even points after it.
    out.push(p);
    const step = total / POINTS;
    for (let at = Math.ceil((walked + 1e-9) / step) * step; at < walked + length - step / 4; at += step) {
      const u = (at - walked) / length;
      if (u > 0.02) out.push({ x: p.x + u * (q.x - p.x), y: p.y + u * (q.y - p.y) });
    }
    walked += length;
  });
  return out;
}

/** The outline drawn in; the largest piece where it falls apart. */
function inset(points: readonly Spot[], by: number): Spot[] {
  const outer = orientedRing(Float64Array.from(points.flatMap(({ x, y }) => [x, y])), 1);
  const pieces = offsetRegions([{ outer, holes: [] }], -by).map((region) => region.outer);
  const ring = pieces.sort((a, b) => ringArea(b) - ringArea(a))[0]!;
  return Array.from({ length: ring.length / 2 }, (_, i) => ({ x: ring[2 * i]!, y: ring[2 * i + 1]! }));
}
