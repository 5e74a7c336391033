import { describe, expect, it } from 'vitest';
import { Layout } from '../search/layout.ts';
import { Model } from '../search/model.ts';
import { type Random, seededRandom } from '../search/random.ts';
import { ContactRows } from './contact-rows.ts';
import { Contacts } from './turn-contacts.ts';
import { TurnForms } from './turn-forms.ts';
import { TurnState } from './turn-state.ts';

const SPACING = 0.6;

/** Stars with sharp tips and notches. */
function star(random: Random): Float64Array {
  const n = 4 + Math.floor(random() * 5);
  return Float64Array.from(
    Array.from({ length: 2 * n }, (_, v) => {
      const angle = (Math.PI * (v + 0.5 * random())) / n;
      const radius = v % 2 === 0 ? 8 + 4 * random() : 2 + 5 * random();
      return [radius * Math.cos(angle), radius * Math.sin(angle)];
    }).flat(),
  );
}

describe('overlap at any turn', () => {
  it('is told as by no-fit polygons at the same turns', () => {
    const random = seededRandom('stars');
    const forms = Array.from({ length: 6 }, () => ({ outer: star(random), holes: [] }));
    const items = forms.map((_, form) => ({ poses: [{ form, turnDeg: 0 }], isFreeToTurn: true }));
    const model = new Model({ forms, items, spacing: SPACING, tolerance: 1e-3 }, []);
    const board = { minX: 0, minY: 0, maxX: 100, maxY: 100, obstacles: [], price: 1 };
    const layout = new Layout(model, [board], []);
    const state = new TurnState(layout, new TurnForms(model));
    const rows = new ContactRows();
    const contacts = new Contacts(state, rows);
    let deep = 0;
    let apart = 0;
    for (let round = 0; round < 30; round++) {
      for (let i = 0; i < items.length; i++) {
        layout.put(i, 0, model.freePose(i, 360 * random()), 20 + 40 * random(), 20 + 40 * random());
      }
      layout.refreshAll();
      state.load();
      for (let i = 0; i < items.length; i++) {
        for (let j = i + 1; j < items.length; j++) {
          const exact = layout.depth[i * layout.bodies + j]!;
          rows.clear();
          const byEdges = contacts.between(i, j, 1);
          const byGrid = state.depthAt(i, state.x[i]!, state.y[i]!, state.cos[i]!, state.sin[i]!, j);
          // never more than pieces would have to move, and none only where there is none
          expect(byEdges).toBeLessThanOrEqual(exact + 1e-6);
          expect(byGrid).toBeLessThanOrEqual(exact + 0.3);
          if (exact > 1e-6) expect(byEdges).toBeGreaterThan(0);
          if (exact > 1) expect(byGrid).toBeGreaterThan(0);
          if (exact > 1) deep++;
          if (exact === 0) apart++;
        }
      }
    }
    expect(deep).toBeGreaterThan(40);
    expect(apart).toBeGreaterThan(40);
  });

  it('of two alike that lie on each other is as deep as their largest circle', () => {
    const forms = [{ outer: Float64Array.of(0, 0, 10, 0, 10, 6, 0, 6), holes: [] }];
    const items = [0, 1].map(() => ({ poses: [{ form: 0, turnDeg: 0 }], isFreeToTurn: true }));
    const model = new Model({ forms, items, spacing: 0, tolerance: 1e-3 }, []);
    const layout = new Layout(model, [{ minX: 0, minY: 0, maxX: 50, maxY: 50, obstacles: [], price: 1 }], []);
    for (let i = 0; i < 2; i++) layout.put(i, 0, layout.pose[i]!, 20, 20);
    const state = new TurnState(layout, new TurnForms(model));
    state.load();
    state.refreshAll();
    expect(state.total(0)).toBeGreaterThan(5);
  });
});
