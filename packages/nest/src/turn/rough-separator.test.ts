import { describe, expect, it } from 'vitest';
import { Layout } from '../search/layout.ts';
import { Model } from '../search/model.ts';
import { seededRandom } from '../search/random.ts';
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
  it('spreads a scattered layout out exactly, moves pieces across boards, and makes not one', () => {
    const layout = scattered();
    const random = seededRandom('separate');
    const rough = new RoughSeparator(layout, TOLERANCE, random, never);
    expect(rough.isApart()).toBe(false);
    expect(rough.separate(() => [0, 1])).toBe(0);
    expect(layout.model.fieldEdgesMade).toBe(0);
    expect(layout.members[1]!.length).not.toBe(6);
    expect(rough.isApart()).toBe(true);
    // no-fit polygons, made here for the first time, say the same
    layout.refreshAll();
    expect(layout.total(TOLERANCE)).toBe(0);
    expect(layout.allFit()).toBe(true);
    // one piece moved by more than its play is seen
    const [item, other] = layout.members[0]!;
    layout.put(item!, 0, layout.pose[item!]!, layout.x[other!]! + 4, layout.y[other!]!);
    expect(rough.isApart()).toBe(false);
    // pieces keep to the turns of their lists
    for (let i = 0; i < layout.items; i++) expect(layout.model.poses[layout.pose[i]!]!.isFree).toBe(false);
  });

  it('leaves pieces on the boards that they may be on', () => {
    const layout = scattered();
    const before = [...layout.board];
    new RoughSeparator(layout, TOLERANCE, seededRandom('stay'), never).separate((item) => [before[item]!]);
    expect([...layout.board]).toEqual(before);
  });
});
