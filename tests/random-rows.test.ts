import type { Sign } from '@underlap/stack/sign';
import { describe, expect, it } from 'vitest';
import { type RowDrawing, randomRows } from './support/random-rows.ts';
import { scoreRows, signOfRows } from './support/score-rows.ts';

/*
 * Drawings that combine the ways in which people draw (common practice, no source), their meaning known from the making and never read
 * from the drawing: each is read as meant, or a warning tells of it. `npm run soak -- random-rows` takes fresh ones.
 */

const drawings = Array.from({ length: 60 }, (_, i) => randomRows(`suite-${i}`));
const read = drawings.map((drawing) => ({ drawing, sign: signOfRows(drawing), score: scoreRows(drawing) }));

it('combined drawings are read as meant or told, never otherwise without a word', () => {
  const silent = read.filter(({ score }) => score.outcome === 'silent');
  expect(silent.map(({ drawing, score }) => [drawing.traits, score.faults])).toEqual([]);
  expect(read.filter(({ score }) => score.outcome === 'right').length).toBeGreaterThan(45);
});

it('all ways of drawing come up', () => {
  const traits = new Set(drawings.flatMap((drawing) => drawing.traits));
  for (const trait of ['same', 'DXF same', 'areas', 'over the edge', 'clipped, open', 'clipped, closed', 'white page'])
    expect(traits).toContain(trait);
  for (const trait of [
    'cut lines over fills',
    'equal names',
    'script',
    'idle inner',
    'clip',
    'entity',
    'text',
    'bitmap',
  ])
    expect(traits).toContain(trait);
});

describe('a misreading is seen (faulty twins)', () => {
  const silentWith = (spoil: (sign: Sign, drawing: RowDrawing) => Sign): number =>
    read.filter(({ drawing, sign }) => scoreRows(drawing, spoil(sign, drawing)).outcome === 'silent').length;
  const right = read.filter(({ score }) => score.outcome === 'right').length;

  it('when nothing is told', () => {
    const told = read.filter(({ drawing, score }) => score.outcome === 'told' || drawing.mustTell.length > 0).length;
    expect(silentWith((sign) => ({ ...sign, complaints: [], repairs: [] }))).toBe(told);
  });

  it('when a part is lost', () => {
    expect(silentWith((sign) => ({ ...sign, parts: sign.parts.slice(0, -1) }))).toBeGreaterThan(right / 2);
  });

  it('when a hole is lost or made up', () => {
    const spoil = (sign: Sign): Sign => {
      const [plate, ...others] = sign.parts;
      const holes = plate!.shape.holes.length === 0 ? [plate!.shape.outer] : [];
      return { ...sign, parts: [{ ...plate!, shape: { ...plate!.shape, holes } }, ...others] };
    };
    expect(silentWith(spoil)).toBeGreaterThan(right / 2);
  });

  it('when a part lies 0.5 mm from its place', () => {
    const spoil = (sign: Sign): Sign => {
      const last = sign.parts.at(-1)!;
      const outer = last.region.outer.map((value) => value + 0.5);
      return { ...sign, parts: [...sign.parts.slice(0, -1), { ...last, region: { ...last.region, outer } }] };
    };
    expect(silentWith(spoil)).toBeGreaterThan(right / 2);
  });

  it('when a guide is cut, burnt as an area, or not burnt', () => {
    const spoil = (sign: Sign): Sign => ({ ...sign, parts: sign.parts.map((part) => ({ ...part, marks: [] })) });
    const marked = read.filter(({ drawing: { marks } }) => marks.score + marks.engrave > 0).length;
    expect(silentWith(spoil)).toBeGreaterThan(marked / 2);
  });
});
