import { describe, expect, it } from 'vitest';
import { Layout } from '../search/layout.ts';
import { Model } from '../search/model.ts';
import { seededRandom } from '../search/random.ts';
import { Separator } from '../search/separator.ts';
import { RoughSeparator } from './rough-separator.ts';

const SPACING = 1;
const TOLERANCE = 1e-3;
const never = () => false;

/** Stars of many corners, all different, scattered over two boards that they fill by a third. */
function scattered(): Layout {
  const random = seededRandom('rough');
  const forms = Array.from({ length: 24 }, () => {
    const n = 40;
    const points = Array.from({ length: n }, (_, v) => {
      const angle = (2 * Math.PI * v) / n;
      const radius = 6 + 2 * Math.cos(5 * angle) + random();
      return [radius * Math.cos(angle), radius * Math.sin(angle)];
    });
    return { outer: Float64Array.from(points.flat()), holes: [] };
  });
  const items = forms.map((_, form) => ({ poses: [0, 90, 180, 270].map((turnDeg) => ({ form, turnDeg })) }));
  const model = new Model({ forms, items, spacing: SPACING, tolerance: TOLERANCE }, []);
  const board = { minX: 0, minY: 0, maxX: 90, maxY: 75, obstacles: [], price: 1 };
  const layout = new Layout(model, [board, board], []);
  items.forEach((_, i) => {
    layout.put(i, i % 4 === 0 ? 1 : 0, model.itemPoses[i]![0]!, 9 + 70 * random(), 9 + 55 * random());
  });
  return layout;
}

describe('separation without no-fit polygons', () => {
  it('all but solves a scattered layout before one is made, moves pieces across boards, and the exact search finishes it', () => {
    const layout = scattered();
    const random = seededRandom('separate');
    expect(new RoughSeparator(layout, random, never).separate(() => [0, 1])).toBe(0);
    expect(layout.model.fieldEdgesMade).toBe(0);
    expect(layout.members[1]!.length).not.toBe(6);
    layout.refreshAll();
    expect(layout.total(TOLERANCE)).toBeLessThan(2);
    const exact = new Separator(layout, TOLERANCE, random, never);
    expect(exact.separate(() => [0, 1], { stalledPasses: 25, strikes: 1 })).toBe(true);
    // neighbours alone: 24 kinds in four turns are 2,304 pairs and turns of some 300 edges
    expect(layout.model.fieldEdgesMade).toBeLessThan(0.25 * 2304 * 300);
    // pieces keep to the turns of their lists
    for (let i = 0; i < layout.items; i++) expect(layout.model.poses[layout.pose[i]!]!.isFree).toBe(false);
  });

  it('leaves pieces on the boards that they may be on', () => {
    const layout = scattered();
    const before = [...layout.board];
    new RoughSeparator(layout, seededRandom('stay'), never).separate((item) => [before[item]!]);
    expect([...layout.board]).toEqual(before);
  });
});
