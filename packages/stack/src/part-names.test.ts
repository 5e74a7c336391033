import { expect, test } from 'vitest';
import { drawn, rectangle } from '../testing/fixtures.ts';
import { partNames } from './part-names.ts';

const shape = (name: string | null, layer: string | null) => drawn('x', [rectangle(0, 0, 1, 1)], { name, layer });

test('a part is named by its own name, else by its layer, numbered where the layer holds several', () => {
  const sources = [shape('Gull', 'Birds'), shape(null, 'Hull'), shape(null, 'Waves'), shape(null, 'Waves')];
  expect(partNames(sources)).toEqual(['Gull', 'Hull', 'Waves 1', 'Waves 2']);
});

test('layers that say nothing lend no name', () => {
  expect(partNames([null, '0', 'Layer 1', 'layer_2', 'g12'].map((layer) => shape(null, layer)))).toEqual(
    Array.from({ length: 5 }, () => null),
  );
});
