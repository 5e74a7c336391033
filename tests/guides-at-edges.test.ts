import { readArtwork } from '@underlap/artwork/read-artwork';
import { jobFrom } from '@underlap/job/parse-job';
import { signStage } from '@underlap/job/sign-stage';
import { coverOf } from '@underlap/stack/cover';
import type { Sign } from '@underlap/stack/sign';
import { describe, expect, it } from 'vitest';

/*
 * Guides that run over the edge of the part they lie on, and guides that are clipped there (common practice, no source): a banner
 * wider than its plate. Where the parts belong is known from the drawing's making.
 */

const page = (body: string): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="600mm" height="300mm" viewBox="0 0 600 300">${body}</svg>`;
const BLACK = 'fill="none" stroke="#000000"';
const RED = 'fill="none" stroke="#cc2200"';
const PLATE = 'M10 10H230V170H10Z';

type Spot = readonly [number, number];
/** A lopsided buoy; placed by a turn and a move. */
const BUOY: readonly Spot[] = [
  [-22, -30],
  [18, -26],
  [31, 4],
  [12, 27],
  [-15, 24],
  [-28, -3],
];
const put = (points: readonly Spot[], x: number, y: number, turn = 0): Spot[] => {
  const [c, s] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
  return points.map(([px, py]) => [x + c * px - s * py, y + s * px + c * py]);
};
const polygon = (points: readonly Spot[]): string =>
  `M${points.map(([x, y]) => `${x.toFixed(4)} ${y.toFixed(4)}`).join('L')}Z`;

/** The convex outline as far as x <= 230; with or without the stretch along that edge. */
function clippedAt230(points: readonly Spot[], isClosed: boolean): string {
  const kept: Spot[] = [];
  points.forEach(([x, y], i) => {
    const [u, v] = points[(i + 1) % points.length]!;
    if (x <= 230) kept.push([x, y]);
    if (x <= 230 !== u <= 230) kept.push([230, y + ((v - y) * (230 - x)) / (u - x)]);
  });
  if (isClosed) return polygon(kept);
  const leaves = kept.findIndex(([x], i) => x === 230 && kept[(i + 1) % kept.length]![0] === 230);
  const open = [...kept.slice(leaves + 1), ...kept.slice(0, leaves + 1)];
  return polygon(open).replace('Z', '');
}

const parts = `<path id="plate" ${BLACK} d="${PLATE}"/><path id="buoy" ${BLACK} d="${polygon(put(BUOY, 330, 80, 115))}"/>`;
const gull = `<path id="gull" ${BLACK} d="${polygon(put(BUOY, 450, 80).map(([x, y]) => [x * 0.5 + 220, y * 0.6] as const))}"/>`;
const gullSeat = polygon(put(BUOY, 80, 80).map(([x, y]) => [x * 0.5 + 20, y * 0.6] as const));
/** Where the buoy belongs: 10 mm of it over the plate's right edge. */
const AT = put(BUOY, 209, 90);

function signOf(text: string, artwork: object = {}): Sign {
  return signStage(
    readArtwork(text, { name: 'pier.svg' }),
    jobFrom({ bed: '900x900', boards: ['900x900'], artwork }, 'a.json'),
  );
}
const codes = (sign: Sign): string[] => sign.complaints.map(({ code }) => code);

/** How far the part's corners lie from where the drawing's maker meant them. */
function misplacement(sign: Sign, id: string, meant: readonly Spot[]): number {
  const { outer } = sign.parts.find((part) => part.id === id)!.region;
  return Math.max(
    ...meant.map(([x, y]) => {
      let least = Infinity;
      for (let i = 0; i < outer.length; i += 2) least = Math.min(least, Math.hypot(outer[i]! - x, outer[i + 1]! - y));
      return least;
    }),
  );
}

describe.each([
  ['runs 10 mm over the edge', polygon(AT)],
  ['is clipped at the edge, closed', clippedAt230(AT, true)],
  ['is clipped at the edge, open', clippedAt230(AT, false)],
  ['is clipped by a clip path', null],
])('a guide that %s', (_, outline) => {
  const line = (look: string): string =>
    outline === null
      ? `<clipPath id="c"><path d="${PLATE}"/></clipPath><g clip-path="url(#c)"><path ${look} d="${polygon(AT)}"/></g>`
      : `<path ${look} d="${outline}"/>`;
  it.each([
    ['a layer called score', `${parts}<g id="score">${line(BLACK)}</g>`],
    ['a colour of its own', `${parts + gull + line(RED)}<path ${RED} d="${gullSeat}"/>`],
    ['the look of what is cut', `${parts + gull + line(BLACK)}<path ${BLACK} d="${gullSeat}"/>`],
  ])('in %s lays its part where it belongs', (look, body) => {
    const sign = signOf(page(body));
    expect(sign.mode).toBe('spread');
    expect(sign.parts.find(({ id }) => id === 'plate')!.shape.holes).toHaveLength(0);
    expect(sign.matches.find(({ partId }) => partId === 'buoy')?.onPartId).toBe('plate');
    expect(misplacement(sign, 'buoy', AT)).toBeLessThan(0.02);
    expect(coverOf(sign, 'plate').length).toBeGreaterThan(0);
    expect(codes(sign)).not.toContain('unplaced-part');
    if (look.startsWith('the look')) expect(codes(sign)).toContain('twin-guides');
  });
});

const SCORE = (d: string): string => `<g id="score"><path ${BLACK} d="${d}"/></g>`;

it('a banner that is clipped on both sides is found from its two long edges, drawn as two lines', () => {
  const banner: Spot[] = [
    [-20, 60],
    [90, 70],
    [260, 52],
    [255, 100],
    [120, 112],
    [-14, 98],
  ];
  const at = (y0: number, y1: number, x0: number, x1: number, x: number): number =>
    y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);
  const upper = `M10 ${at(60, 70, -20, 90, 10)}L90 70L230 ${at(70, 52, 90, 260, 230)}`;
  const lower = `M230 ${at(100, 112, 255, 120, 230)}L120 112L10 ${at(112, 98, 120, -14, 10)}`;
  const drawn = `<path id="plate" ${BLACK} d="${PLATE}"/><path id="banner" ${BLACK} d="${polygon(banner.map(([x, y]) => [x + 250, y + 150]))}"/>`;
  const sign = signOf(page(`${drawn}<g id="score"><path ${BLACK} d="${upper}"/><path ${BLACK} d="${lower}"/></g>`));
  expect(misplacement(sign, 'banner', banner)).toBeLessThan(0.02);
  expect(codes(sign)).toContain('clipped-guide');
});

it('a plain strip clipped on both sides could slide: it is told by name, not laid somewhere', () => {
  const drawn = `<path id="plate" ${BLACK} d="${PLATE}"/><path id="strip" ${BLACK} d="M250 200H550V230H250Z"/>`;
  const sign = signOf(page(drawn + SCORE('M10 60H230M230 90H10')));
  expect(sign.matches).toEqual([]);
  const told = sign.complaints.find(({ code }) => code === 'unplaced-part')!;
  expect(told.message).toMatch(/'strip' leave open where along them it lies/);
});

it.each([
  ['a wave that is only drawn on the plate', SCORE('M10 90Q60 60 110 90T230 90')],
  [
    'lines of a part that reaches further in than they do',
    SCORE(clippedAt230(put(BUOY, 209, 90), false).replace(/(?:L[^L]*){2}$/, '')),
  ],
  [
    'the outline of another part',
    SCORE(
      clippedAt230(
        put(
          BUOY.map(([x, y]) => [x * 1.1, y] as const),
          209,
          90,
        ),
        false,
      ),
    ),
  ],
])('no place is made up from %s (faulty twin)', (_, guide) => {
  const sign = signOf(page(parts + guide));
  expect(sign.matches).toEqual([]);
  expect(codes(sign)).toContain('unplaced-part');
});

it('outlines that cross in a drawing called stacked are parts', () => {
  const body = `${parts}<path ${BLACK} d="${polygon(AT)}"/>`;
  expect(signOf(page(body)).parts).toHaveLength(2);
  expect(signOf(page(body), { mode: 'stacked' }).parts).toHaveLength(3);
});

it('a drawing of one part needs no guide, whatever is burnt on it', () => {
  const sign = signOf(page(`<path id="plate" ${BLACK} d="${PLATE}"/>${SCORE(gullSeat)}`));
  expect(codes(sign)).not.toContain('unplaced-part');
});
