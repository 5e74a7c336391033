import type { DrawnShape } from '@underlap/artwork/drawing';
import { type Meetings, meetingsOf } from './meetings.ts';
import { Twins } from './twins.ts';

/** Shapes of one colour or layer whose outlines show where parts go. */
export interface GuideGroup {
  readonly shapes: readonly DrawnShape[];
  /** For a sentence: 'on the layer 'guides''. */
  readonly words: string;
  /** What the user would name in a key, and the field of the job that holds it. */
  readonly key: string;
  readonly field: 'layerKey' | 'colourKey';
}

/** At least this share of a group's outlines lies on others, and has an equal that lies alone, for the group to be guides. */
const LYING_SHARE = 0.5;
const TWIN_SHARE = 0.4;

/**
 * Colours and layers that hold guides: most of their outlines lie on outlines of others, and equals of many of them lie alone
 * among the others. In a stacked sign nothing but the backer lies alone, so nothing is taken for a guide there.
 * @param shapes - those that would be cut.
 */
export function guideGroups(shapes: readonly DrawnShape[]): GuideGroup[] {
  const candidates = [...layersOf(shapes), ...coloursOf(shapes)].filter((group) => group.shapes.length < shapes.length);
  if (candidates.length === 0) return [];
  const meetings = meetingsOf(shapes);
  const twins = new Twins(meetings);
  const found: GuideGroup[] = [];
  const taken = new Set<DrawnShape>();
  for (const group of candidates) {
    if (group.shapes.some((shape) => taken.has(shape)) || !areGuides(group, meetings, twins, taken)) continue;
    found.push(group);
    for (const shape of group.shapes) taken.add(shape);
  }
  return found;
}

function areGuides(group: GuideGroup, { outlines }: Meetings, twins: Twins, taken: ReadonlySet<DrawnShape>): boolean {
  const own = new Set(group.shapes);
  const isOther = ({ shape }: { shape: DrawnShape }): boolean => !own.has(shape) && !taken.has(shape);
  const members = [...outlines.keys()].filter((index) => own.has(outlines[index]!.shape));
  const lying = members.filter((index) => twins.lies(index, isOther));
  if (lying.length === 0 || lying.length < LYING_SHARE * members.length) return false;
  const twinned = lying.filter((index) => twins.twinOf(index, isOther) !== null);
  return twinned.length >= Math.max(1, TWIN_SHARE * members.length);
}

function layersOf(shapes: readonly DrawnShape[]): GuideGroup[] {
  return grouped(shapes, ({ layer }) => layer).map(([layer, own]) => ({
    shapes: own,
    words: `on the layer '${layer}'`,
    key: layer,
    field: 'layerKey',
  }));
}

function coloursOf(shapes: readonly DrawnShape[]): GuideGroup[] {
  return grouped(shapes, ({ fill, stroke }) => fill ?? stroke).map(([colour, own]) => ({
    shapes: own,
    words: `in ${colour}`,
    key: colour,
    field: 'colourKey',
  }));
}

function grouped(
  shapes: readonly DrawnShape[],
  by: (shape: DrawnShape) => string | null,
): [string, readonly DrawnShape[]][] {
  const groups = new Map<string, DrawnShape[]>();
  for (const shape of shapes) {
    const name = by(shape);
    if (name === null) continue;
    const group = groups.get(name);
    if (group === undefined) groups.set(name, [shape]);
    else group.push(shape);
  }
  return [...groups];
}
