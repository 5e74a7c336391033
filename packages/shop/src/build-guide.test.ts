import { buildPlaces } from '@underlap/stack/levels';
import { recogniseParts } from '@underlap/stack/recognise';
import { describe, expect, it } from 'vitest';
import { drawingOf, drawn, rectangle } from '../../stack/testing/fixtures.ts';
import { buildGuide } from './build-guide.ts';
import type { GuideInput } from './guide-step.ts';
import { clampWords } from './join-step.ts';
import { paintPlan } from './paint-plan.ts';

const BLUE = '#7fb2c8';
const sign = recogniseParts(
  drawingOf([
    drawn('backer', [rectangle(0, 0, 300, 100)], { fill: BLUE }),
    drawn('banner', [rectangle(50, 20, 200, 60)], { fill: '#23395b' }),
    drawn('gull-1', [rectangle(60, 30, 10, 10)], { fill: '#ffffff' }),
    drawn('moon', [rectangle(100, 30, 30, 30)], { fill: '#ffffff' }),
    drawn('gull-2', [rectangle(200, 30, 10, 10)], { fill: '#ffffff' }),
  ]),
  { mode: 'stacked' },
);
const thicknessOf = () => 6;
const places = buildPlaces(sign, thicknessOf);
const ids = sign.parts.map(({ id }) => id);
const half = (x: number): GuideInput['pieces'] extends ReadonlyMap<string, readonly (infer P)[]> ? P : never => ({
  number: x === 0 ? '1a' : '1b',
  region: { outer: Float64Array.of(x, 0, x + 150, 0, x + 150, 100, x, 100), holes: [] },
  centre: { x: x + 75, y: 50 },
});

function guide(over: Partial<GuideInput> = {}) {
  const pieces = new Map(
    sign.parts.map((part, at) => [part.id, [{ number: String(at + 1), region: part.region, centre: { x: 0, y: 0 } }]]),
  );
  pieces.set(ids[0]!, [half(0), half(150)]);
  return buildGuide({
    places,
    pieces,
    seams: new Map([
      [
        ids[0]!,
        [
          {
            label: 'AA',
            numbers: ['1a', '1b'],
            from: { x: 150, y: 0 },
            to: { x: 150, y: 100 },
            lengthMm: 110,
            visibleMm: 0,
            knobs: [{ of: '1b', centre: { x: 145, y: 50 }, isUndercut: true }],
          },
        ],
      ],
    ]),
    plates: new Map(),
    guided: new Set(ids.slice(1)),
    equals: new Map([[ids[4]!, ids[2]!]]),
    thicknessOf,
    glue: { name: 'wood glue', mlPerSquareMetre: 150, pricePerLitre: 0, opensSeconds: 300 },
    painted: 'before',
    masks: 'none',
    paint: paintPlan(
      { sign, places, thicknessOf },
      {
        paints: [],
        coats: 2,
        squareMetresPerLitre: 10,
        paintLoss: 0,
        paintEdges: false,
        paintBacks: false,
        bareInset: 1,
      },
    ),
    ...over,
  });
}

describe('the build guide', () => {
  it('joins the halves, paints, then lays from the backer up, equal parts in one step', () => {
    const steps = guide();
    expect(steps.map(({ kind, numbers }) => `${kind} ${numbers.join(' ')}`)).toEqual([
      'join 1a 1b',
      'paint 1a 1b 2 3 4 5',
      'lay 1a 1b',
      'lay 2',
      'lay 3 5',
      'lay 4',
    ]);
    expect(steps.at(-1)!.down).toEqual([ids[0], ids[1], ids[2], ids[4]]);
  });

  it('paints the finished sign last where the shop does so', () => {
    const steps = guide({ painted: 'after' });
    expect(steps.at(-1)!.kind).toBe('paint');
    expect(steps.flatMap(({ words }) => words).join(' ')).not.toContain('mask');
  });

  it('says how much glue: area x ml a square metre', () => {
    const [join, , , banner, gulls] = guide();
    // Edges: 110 x 6 mm2.
    expect(join!.glueMl).toBeCloseTo((660 / 1e6) * 150, 9);
    expect(banner!.glueMl).toBeCloseTo((12_000 / 1e6) * 150, 9);
    expect(gulls!.glueMl).toBeCloseTo((200 / 1e6) * 150, 9);
    expect(banner!.words.join(' ')).toContain('about 1.8 ml (36 drops)');
  });

  it('tells how knobs go in, where to clamp, and what a plate does', () => {
    const [join] = guide();
    expect(join!.words.join(' ')).toContain(
      'the 1 knob of 1b goes into 1a, straight down from above, they do not slide in from the side. Clamp from the left and the right',
    );
    const plate = { ...half(0), number: '6' };
    const [plated] = guide({ plates: new Map([[ids[0]!, [plate]]]) });
    expect(plated!.words[0]).toContain('face down');
    expect(plated!.words.join(' ')).toContain('Glue plate 6 over the seam on the back');
    expect(plated!.glueMm2).toBeCloseTo(660 + 15_000, 6);
  });

  it('clamps across the seam, whichever way it runs', () => {
    const to = (x: number, y: number) => clampWords({ from: { x: 0, y: 0 }, to: { x, y } });
    expect([to(10, 1), to(-10, 1), to(0, -5), to(5, 5), to(-5, 5)]).toEqual([
      'from above and below',
      'from above and below',
      'from the left and the right',
      'from the upper right and the lower left',
      'from the upper left and the lower right',
    ]);
  });

  it('marks what has to be aligned when the glue is fast, and only that', () => {
    const fast = { name: 'fast glue', mlPerSquareMetre: 50, pricePerLitre: 0, opensSeconds: 25 };
    const hasty = (guided: readonly string[]) =>
      guide({ glue: fast, guided: new Set(guided) })
        .filter(({ isHasty }) => isHasty)
        .map(({ numbers }) => numbers.join(' '));
    expect(hasty(ids.slice(1))).toEqual(['1a 1b']);
    expect(hasty(ids.slice(2))).toEqual(['1a 1b', '2']);
    expect(guide().some(({ isHasty }) => isHasty)).toBe(false);
  });

  it('has masks taken off before glue comes on', () => {
    const [, paint, , banner] = guide();
    expect(paint!.words.join(' ')).toContain(
      'Mask first what stays bare so that glue holds, pale in the picture, on backer (1a, 1b) and banner (2)',
    );
    expect(banner!.words.join(' ')).toContain('First take the mask off backer (1a, 1b)');
    const told = guide().flatMap(({ words }) => words.filter((one) => one.startsWith('First take the mask off')));
    expect(told.length).toBe(2);
  });
});
