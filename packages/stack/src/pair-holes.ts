import type { Complaint, DrawnShape } from '@underlap/artwork/drawing';
import { complain } from './draft.ts';
import { type Outline, outlinesOf } from './outline.ts';
import { nestOutlines, type OutlineNode } from './outline-tree.ts';

/** Shapes with their holes in them, and what was decided, told. */
export interface PairedHoles {
  readonly shapes: readonly DrawnShape[];
  readonly complaints: readonly Complaint[];
}

/**
 * Give holes back to their parts in a stack of bare lines, where every outline is a shape of its own (as in DXF, which knows no
 * compound paths): an outline inside another of the same layer and colour is its hole, one inside a hole is a part again.
 * Nothing is paired where fills or compound paths say what is a hole, and nothing where all lines share one layer and colour:
 * there an inner outline may as well be a part lying on the outer one, so it stays a part and the doubt is told.
 * @param shapes - those that are cut.
 * @returns shapes in the given order, at the place of their outer line.
 */
export function pairHoles(shapes: readonly DrawnShape[]): PairedHoles {
  const asDrawn: PairedHoles = { shapes, complaints: [] };
  const outlines = new Map(shapes.map((shape) => [shape, outlinesOf(shape)]));
  const isTold = shapes.some((shape) => shape.fill !== null || outlines.get(shape)!.length > 1);
  if (isTold) return asDrawn;
  const groups = new Map<string, Outline[]>();
  for (const shape of shapes) {
    const key = `${shape.layer} ${shape.stroke}`;
    groups.set(key, [...(groups.get(key) ?? []), ...outlines.get(shape)!]);
  }
  const nodes = [...groups.values()].flatMap(nestOutlines);
  const inner = nodes.filter((node) => node.depth > 0);
  if (inner.length === 0) return asDrawn;
  if (groups.size === 1) return { shapes, complaints: [doubtOf(inner)] };
  const holesOf = new Map(nodes.filter(isPart).map((node) => [node.outline.shape, node.inside]));
  const isHole = new Set(nodes.filter((node) => !isPart(node)).map((node) => node.outline.shape));
  const paired = shapes
    .filter((shape) => !isHole.has(shape))
    .map((shape): DrawnShape => {
      const holes = holesOf.get(shape) ?? [];
      if (holes.length === 0) return shape;
      return {
        ...shape,
        fillRule: 'evenodd',
        contours: [...shape.contours, ...holes.map((hole) => hole.contour)],
      };
    });
  return { shapes: paired, complaints: nodes.filter(isPart).flatMap(noteOf) };
}

function isPart(node: OutlineNode): boolean {
  return node.depth % 2 === 0;
}

function noteOf({ outline, inside }: OutlineNode): Complaint[] {
  if (inside.length === 0) return [];
  const { place, layer } = outline.shape;
  const lines = inside.length === 1 ? 'an outline' : `${inside.length} outlines`;
  const whose = layer === null ? 'of the same colour' : `of the same layer '${layer}'`;
  const message = `${lines} inside ${place.element} and ${whose}: read as holes, since the drawing has no fills`;
  return [complain('paired-holes', 'note', message, place)];
}

function doubtOf(inner: readonly OutlineNode[]): Complaint {
  const { place } = inner[0]!.outline.shape;
  const lines = inner.length === 1 ? 'an outline lies' : `${inner.length} outlines lie`;
  const message = `${lines} inside others of the one layer and colour that the drawing has, and nothing tells holes from parts: read as parts lying on them; draw holes as one path with their part, or give each part a layer or colour of its own`;
  return complain('hole-or-part', 'warning', message, place);
}
