import type { Point } from '@underlap/geometry/point';
import type { Block, DxfDocument, Entity, LayerState } from './entity.ts';
import { BadNumber, EntityTags } from './entity-tags.ts';
import { colourOf, readArea, readEntity } from './read-entity.ts';
import { plainLineEnds, type Tag, TagReader, type TextPlace } from './tags.ts';

/**
 * Reads the sections of an ASCII DXF file (R12 to current): header units, layers, blocks, entities. What is broken is kept
 * as far as it goes and told in the document's own fields. O(n) time; tags live only while their entity is read, and the
 * entities of the drawing itself only while they are looked at: their sections are passed over here.
 *
 * The pairs of lines are read by a small reader of our own: a general parser builds an object for every group of the whole
 * file, has no line numbers for complaints, stops at the first oddity, and drops what a maker must be told of (frozen
 * layers, paper space, tilted planes).
 */
export function parseDocument(text: string): DxfDocument & { readonly hasSections: boolean } {
  const plain = plainLineEnds(text);
  const reader = new TagReader(plain);
  const header = new Map<string, number>();
  const layers = new Map<string, LayerState>();
  const blocks = new Map<string, Block>();
  const sections: TextPlace[] = [];
  let hasSections = false;
  let isEnded = false;
  for (let tag = reader.next(); tag !== null; tag = reader.next()) {
    if (tag.code !== 0) continue;
    const word = tag.value.trim();
    if (word === 'EOF') {
      isEnded = true;
      break;
    }
    if (word !== 'SECTION') continue;
    const name = reader.next();
    if (name === null || name.code !== 2) continue;
    hasSections = true;
    const section = name.value.trim();
    if (section === 'HEADER') readHeader(reader, header);
    else if (section === 'TABLES') readLayers(reader, layers);
    else if (section === 'BLOCKS') readBlocks(reader, blocks);
    else if (section === 'ENTITIES') {
      sections.push(reader.place);
      skipEntities(reader);
    }
  }
  return {
    hasSections,
    insUnits: header.get('$INSUNITS') ?? null,
    measurement: header.get('$MEASUREMENT') ?? null,
    layers,
    blocks,
    entities: { [Symbol.iterator]: () => entitiesIn(plain, sections) },
    brokenAt: reader.brokenAt,
    isTruncated: !isEnded,
  };
}

/** The names of layers and blocks are the same whatever their case. */
export function nameKey(name: string): string {
  return name.toUpperCase();
}

const isSectionEnd = (word: string): boolean => word === 'ENDSEC' || word === 'SECTION' || word === 'EOF';

function readHeader(reader: TagReader, into: Map<string, number>): void {
  let variable = '';
  for (let tag = reader.next(); tag !== null; tag = reader.next()) {
    if (tag.code === 0) {
      giveBack(reader, tag);
      return;
    }
    if (tag.code === 9) variable = tag.value.trim();
    else if (tag.code === 70 && !into.has(variable)) {
      const value = Number(tag.value.trim());
      if (Number.isInteger(value)) into.set(variable, value);
    }
  }
}

/** ENDSEC is consumed; anything else that starts with 0 is left for the caller. */
function giveBack(reader: TagReader, tag: Tag): void {
  if (tag.value.trim() !== 'ENDSEC') reader.hold(tag);
}

function readLayers(reader: TagReader, into: Map<string, LayerState>): void {
  for (let tag = reader.next(); tag !== null; tag = reader.next()) {
    if (tag.code !== 0) continue;
    const word = tag.value.trim();
    if (isSectionEnd(word)) {
      giveBack(reader, tag);
      return;
    }
    if (word !== 'LAYER') continue;
    const entry = new EntityTags('LAYER', tag.line, readGroups(reader));
    const name = entry.text(2, '');
    if (name !== '') into.set(nameKey(name), layerState(entry));
  }
}

function layerState(entry: EntityTags): LayerState {
  try {
    return { colour: colourOf(entry), isOff: entry.number(62, 7) < 0, isFrozen: (entry.integer(70, 0) & 1) !== 0 };
  } catch (fault) {
    if (fault instanceof BadNumber) return { colour: { kind: 'index', index: 7 }, isOff: false, isFrozen: false };
    throw fault;
  }
}

function readBlocks(reader: TagReader, into: Map<string, Block>): void {
  for (let tag = reader.next(); tag !== null; tag = reader.next()) {
    if (tag.code !== 0) continue;
    const word = tag.value.trim();
    if (isSectionEnd(word)) {
      giveBack(reader, tag);
      return;
    }
    if (word !== 'BLOCK') continue;
    const head = new EntityTags('BLOCK', tag.line, readGroups(reader));
    const name = head.text(2, '');
    const entities = [...readEntities(reader, (end) => end === 'ENDBLK' || isSectionEnd(end))];
    if (name !== '') into.set(nameKey(name), { name, base: basePoint(head), entities });
  }
}

function basePoint(head: EntityTags): Point {
  try {
    return { x: head.number(10, 0), y: head.number(20, 0) };
  } catch (fault) {
    if (fault instanceof BadNumber) return { x: 0, y: 0 };
    throw fault;
  }
}

/** Pass over a section of entities. */
function skipEntities(reader: TagReader): void {
  for (let word = reader.nextWord(); word !== null; word = reader.nextWord()) {
    if (isSectionEnd(word.value.trim().toUpperCase())) {
      giveBack(reader, word);
      return;
    }
  }
}

function* entitiesIn(text: string, sections: readonly TextPlace[]): Generator<Entity> {
  for (const place of sections) yield* readEntities(new TagReader(text, place), isSectionEnd);
}

function* readEntities(reader: TagReader, isEnd: (word: string) => boolean): Generator<Entity> {
  let polyline: { tags: EntityTags; vertices: EntityTags[] } | null = null;
  for (let tag = reader.next(); tag !== null; tag = reader.next()) {
    if (tag.code !== 0) continue;
    const word = tag.value.trim().toUpperCase();
    if (word === 'VERTEX' && polyline !== null) {
      polyline.vertices.push(new EntityTags('VERTEX', tag.line, readGroups(reader)));
      continue;
    }
    if (polyline !== null) yield* readOrNone(polyline.tags, polyline.vertices);
    polyline = null;
    if (isEnd(word)) {
      giveBack(reader, tag);
      return;
    }
    const tags = new EntityTags(word, tag.line, readGroups(reader));
    if (word === 'POLYLINE') polyline = { tags, vertices: [] };
    else yield* readOrNone(tags, []);
  }
  if (polyline !== null) yield* readOrNone(polyline.tags, polyline.vertices);
}

function readOrNone(tags: EntityTags, vertices: readonly EntityTags[]): readonly Entity[] {
  if (tags.type === 'HATCH' || tags.type === 'SOLID' || tags.type === 'TRACE') return readArea(tags);
  const entity = readEntity(tags, vertices);
  return entity === null ? [] : [entity];
}

/** The groups up to the next 0, which is left to be read again. Embedded objects (101) and extended data are left out. */
function readGroups(reader: TagReader): Tag[] {
  const tags: Tag[] = [];
  let isForeign = false;
  for (let tag = reader.next(); tag !== null; tag = reader.next()) {
    if (tag.code === 0) {
      reader.hold(tag);
      break;
    }
    if (tag.code === 101) isForeign = true;
    if (!isForeign && tag.code < 1000) tags.push(tag);
  }
  return tags;
}
