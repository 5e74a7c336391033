import { type ColourKey, type ColourUse, colourUses, type LayerKey } from '@underlap/artwork/colour-key';
import type { Complaint, Drawing, DrawnShape, Process } from '@underlap/artwork/drawing';
import { complain } from './draft.ts';
import { guideGroups } from './guide-groups.ts';
import { processByName } from './layer-words.ts';
import { outlinesOf } from './outline.ts';
import { overlapsAny } from './overlaps.ts';
import { sameLookGuides } from './same-look-guides.ts';

/** What the user said of colours and of layers; a layer's word stands above a colour's, since a layer is put there by hand. */
export interface ProcessKey {
  readonly colours: ColourKey;
  readonly layers: LayerKey;
}

/** What a shape is there for, who says so, and why. `paint`: a part, whose paint the fill is. */
export interface Meaning {
  readonly process: Process | 'ignore' | 'paint';
  readonly toldBy: 'user' | 'layer' | 'geometry';
  readonly reason: string;
}

/** The meaning of every shape, and what a person should know of the way it was found. */
export interface Meanings {
  readonly of: ReadonlyMap<DrawnShape, Meaning>;
  readonly complaints: readonly Complaint[];
}

/**
 * What every shape of a drawing is there for. Evidence in order: the user's word; the name of its layer; the colours (which of
 * them bound parts); outlines that lie on other parts while their equals lie alone, which show where parts go.
 * @param mayBeSpread - false when the user calls the drawing stacked: then nothing lies apart from its place.
 * @remarks O(n^2) box tests in the outlines and at most a few thousand comparisons of outlines.
 */
export function meaningsOf(drawing: Pick<Drawing, 'shapes'>, key: ProcessKey, mayBeSpread = true): Meanings {
  const { shapes } = drawing;
  const complaints: Complaint[] = [...unusedKeys(shapes, key)];
  const of = new Map<DrawnShape, Meaning>();
  for (const shape of shapes) {
    const told = toldOf(shape, key);
    if (told !== null) of.set(shape, told);
  }
  const named = namedMeanings(shapes.filter((shape) => !of.has(shape)));
  complaints.push(...named.complaints);
  const isBoundBy = [...of].some(([shape, { process }]) => isCut(process) && hasOutline(shape));
  if (named.leavesParts || isBoundBy) for (const [shape, meaning] of named.of) of.set(shape, meaning);
  else complaints.push(...namesWithoutParts(named.of));

  const isCuttable = (shape: DrawnShape): boolean => {
    const meaning = of.get(shape);
    return meaning === undefined || isCut(meaning.process);
  };
  const open = shapes.filter((shape) => !of.has(shape));
  const byColour = coloursOf(shapes.filter(isCuttable), open);
  for (const [shape, meaning] of byColour.of) of.set(shape, meaning);
  complaints.push(...byColour.complaints);

  const undecided = new Set(open);
  for (const group of guideGroups(shapes.filter((shape) => isCut(of.get(shape)!.process)))) {
    const members = group.shapes.filter((shape) => undecided.has(shape));
    const [first] = members;
    if (first === undefined) continue;
    const reason = 'its outlines lie on parts, and equal ones lie alone';
    for (const shape of members) of.set(shape, { process: 'score', toldBy: 'geometry', reason });
    const message = `${count(members.length, 'outline')} ${group.words} lie on parts and equal others that lie alone, so they are read as guides and scored: if they are cut, say so with --key "${group.key}=cut" (artwork.${group.field} in the job)`;
    complaints.push(complain('twin-guides', 'warning', message, first.place));
  }
  if (mayBeSpread) {
    const same = sameLookGuides(shapes.filter((shape) => isCut(of.get(shape)!.process))).filter((shape) =>
      undecided.has(shape),
    );
    const reason = 'its outlines lie on parts over or along their edges, and equal ones lie alone';
    for (const shape of same) of.set(shape, { process: 'score', toldBy: 'geometry', reason });
    complaints.push(...sameLookComplaint(same));
  }
  return { of, complaints };
}

function sameLookComplaint([first, ...more]: readonly DrawnShape[]): Complaint[] {
  if (first === undefined) return [];
  const message = `${count(more.length + 1, 'outline')} in the colour and on the layer of the cut lines lie on parts, some over or along an edge as no hole does, and equal others lie alone, so they are read as guides and scored: give guides a colour or layer of their own; if the drawing shows the parts lying on one another, say so with --mode stacked`;
  return [complain('twin-guides', 'warning', message, first.place)];
}

/** What is said of a shape outright: by the user, or by the name of its layer; null when it is left to the geometry. */
export function spokenMeaning(shape: DrawnShape, key: ProcessKey): Meaning['process'] | null {
  return toldOf(shape, key)?.process ?? processByName(shape.layer);
}

/** Is it cut out: as a part, a hole, or a part whose paint is known? */
export function isCut(process: Meaning['process']): boolean {
  return process === 'cut' || process === 'paint';
}

function toldOf(shape: DrawnShape, { colours, layers }: ProcessKey): Meaning | null {
  const byLayer = shape.layer === null ? undefined : lookUp(layers, shape.layer);
  if (byLayer !== undefined) return { process: byLayer, toldBy: 'user', reason: `told for the layer '${shape.layer}'` };
  for (const colour of [shape.fill, shape.stroke]) {
    const word = colour === null ? undefined : colours[colour];
    if (word !== undefined) return { process: word, toldBy: 'user', reason: `told for the colour ${colour}` };
  }
  return null;
}

/** Names of layers are compared without regard to case and outer spaces. */
function lookUp(layers: LayerKey, layer: string): LayerKey[string] | undefined {
  const wanted = plainName(layer);
  return Object.entries(layers).find(([name]) => plainName(name) === wanted)?.[1];
}

function plainName(name: string): string {
  return name.trim().toLowerCase();
}

/** A key may speak of more than one drawing has (it belongs to the shop), but a layer that is nowhere is often misspelt. */
function unusedKeys(shapes: readonly DrawnShape[], { layers }: ProcessKey): Complaint[] {
  const present = new Map(shapes.flatMap(({ layer }) => (layer === null ? [] : [[plainName(layer), layer] as const])));
  const missing = Object.keys(layers).filter((name) => !present.has(plainName(name)));
  if (missing.length === 0) return [];
  const found = present.size === 0 ? 'it has no layers' : `it has ${listed([...present.values()])}`;
  const message = `the key names ${missing.length === 1 ? 'the layer' : 'the layers'} ${listed(missing)}, which the drawing has not: ${found}; colours are written #rrggbb`;
  return [complain('key-unused', 'warning', message, { element: 'drawing', at: null })];
}

interface Named {
  readonly of: ReadonlyMap<DrawnShape, Meaning>;
  readonly complaints: readonly Complaint[];
  /** Is anything with an outline left to be cut? */
  readonly leavesParts: boolean;
}

function namedMeanings(shapes: readonly DrawnShape[]): Named {
  const of = new Map<DrawnShape, Meaning>();
  const counts = new Map<string, { process: Process; shapes: DrawnShape[] }>();
  for (const shape of shapes) {
    const process = processByName(shape.layer);
    if (process === null) continue;
    // A filled shape on a layer for cuts is a part, and its fill is its paint.
    const cut = process === 'cut' && shape.fill !== null ? 'paint' : process;
    of.set(shape, { process: cut, toldBy: 'layer', reason: `its layer is called '${shape.layer}'` });
    const group = counts.get(shape.layer!) ?? { process, shapes: [] };
    group.shapes.push(shape);
    counts.set(shape.layer!, group);
  }
  const complaints = [...counts]
    .filter(([, { process }]) => process !== 'cut')
    .map(
      ([
        layer,
        {
          process,
          shapes: [first, ...more],
        },
      ]) => {
        const message = `${count(more.length + 1, 'shape')} on the layer '${layer}' ${more.length === 0 ? 'is' : 'are'} read as ${PAST[process]}, as its name says: if not, say so with --key "${layer}=cut" (artwork.layerKey in the job)`;
        return complain('layer-name', 'note', message, first!.place);
      },
    );
  const leavesParts = shapes.some((shape) => isCut(of.get(shape)?.process ?? 'cut') && hasOutline(shape));
  return { of, complaints: leavesParts ? complaints : [], leavesParts };
}

export const PAST: Readonly<Record<Process, string>> = {
  cut: 'cut',
  score: 'scored',
  'deep-score': 'scored deep',
  engrave: 'engraved',
};

function namesWithoutParts(of: ReadonlyMap<DrawnShape, Meaning>): Complaint[] {
  const marks = [...of].filter(([, { process }]) => !isCut(process));
  const [first] = marks;
  if (first === undefined) return [];
  const layers = [...new Set(marks.map(([{ layer }]) => layer!))];
  const message = `by the ${layers.length === 1 ? 'name of its layer' : 'names of its layers'} (${listed(layers)}) nothing of the drawing would be cut, so colours and outlines decide: say what is cut with --key "${layers[0]}=cut" or "#rrggbb=cut"`;
  return [complain('layer-name', 'warning', message, first[0].place)];
}

/** What colours say of the shapes that are still open; the whole drawing, as far as it may be cut, is looked at. */
function coloursOf(cuttable: readonly DrawnShape[], open: readonly DrawnShape[]): Meanings {
  const uses = new Map(colourUses({ shapes: cuttable }).map((use) => [`${use.usedAs} ${use.colour}`, use]));
  const useOf = (shape: DrawnShape): ColourUse | undefined =>
    uses.get(shape.fill === null ? `line ${shape.stroke}` : `fill ${shape.fill}`);
  const areas = open.filter((shape) => shape.fill !== null && useOf(shape)?.proposed === 'engrave');
  const isStack = areas.length > 0 && overlapsAny(open.filter((shape) => shape.fill !== null));
  const of = new Map<DrawnShape, Meaning>();
  for (const shape of open) {
    const use = useOf(shape);
    if (use === undefined) of.set(shape, { process: 'cut', toldBy: 'geometry', reason: 'it has no colour' });
    else if (isStack && use.proposed === 'engrave')
      of.set(shape, {
        process: 'paint',
        toldBy: 'geometry',
        reason: 'filled shapes lie on one another, so they are parts',
      });
    else of.set(shape, { process: use.proposed, toldBy: 'geometry', reason: use.reason });
  }
  return { of, complaints: areas.length === 0 ? [] : areaComplaints(areas, isStack) };
}

function areaComplaints(areas: readonly DrawnShape[], isStack: boolean): Complaint[] {
  const colours = [...new Set(areas.map((shape) => shape.fill!))];
  const which = `${count(areas.length, 'filled area')} (${colours.join(', ')}) inside cut lines ${areas.length === 1 ? 'is' : 'are'}`;
  const message = isStack
    ? `${which} read as parts, since filled areas lie on one another: if they are engraved, say so with --key "${colours[0]}=engrave" (artwork.colourKey in the job)`
    : `${which} read as engraved: if they are parts, say so with --key "${colours[0]}=paint" (artwork.colourKey in the job)`;
  return [complain('fill-in-cut', 'warning', message, areas[0]!.place)];
}

function hasOutline(shape: DrawnShape): boolean {
  return outlinesOf(shape).length > 0;
}

function count(number: number, word: string): string {
  return `${number} ${word}${number === 1 ? '' : 's'}`;
}

function listed(names: readonly string[]): string {
  const shown = names.slice(0, 6).map((name) => `'${name}'`);
  return names.length > 6 ? `${shown.join(', ')} and ${names.length - 6} more` : shown.join(', ');
}
