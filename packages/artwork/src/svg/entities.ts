import { ArtworkError } from '../error.ts';
import { MAX_ENTITY_CHARACTERS, MAX_ENTITY_ELEMENTS, MAX_EXPANSION_CHARACTERS } from './limits.ts';

const DECLARATION = /<!ENTITY\s+(%\s+)?([^\s%"'<>]+)\s+(?:"([^"]*)"|'([^']*)'|[^>]*)\s*>/g;

/**
 * The plain entities that a document declares for itself (drawing programs abbreviate namespaces so). Entities that refer to
 * other entities can blow up a small file to any size and are refused; external ones are left undefined.
 * @returns name and a getter of the value that counts what has been brought in.
 * @throws ArtworkError `entity-expansion`, at once for nested or long ones, later from the getter for too many uses.
 */
export function entitiesOf(doctype: string, file: string): [string, () => string][] {
  let expanded = 0;
  const found: [string, () => string][] = [];
  for (const match of doctype.matchAll(DECLARATION)) {
    const name = match[2]!;
    const value = match[3] ?? match[4];
    if (value === undefined) continue;
    if (match[1] !== undefined || /[&%]/.test(value.replace(/&(#\d+|#x[\da-f]+|amp|lt|gt|quot|apos);/gi, ''))) {
      throw refusal(file, `entity '${name}' is built from other entities`);
    }
    // What holds elements has been written out before: its references are gone.
    if (isMarkup(value)) continue;
    if (value.length > MAX_ENTITY_CHARACTERS) throw refusal(file, `entity '${name}' is longer than an abbreviation`);
    found.push([
      name,
      () => {
        expanded += value.length;
        if (expanded > MAX_EXPANSION_CHARACTERS) throw refusal(file, `entity '${name}' is used too often`);
        return value;
      },
    ]);
  }
  return found;
}

/** How far into a file its document type declaration may reach, characters. */
const DOCTYPE_REACH = 1_000_000;

const DOCTYPE = /<!DOCTYPE\s[^[>]*\[((?:"[^"]*"|'[^']*'|<!--[\s\S]*?-->|[^\]"'])*)\]\s*>/;

/** What references are not looked for in, and references. */
const REFERENCE = /<!--[\s\S]*?-->|<!\[CDATA\[[\s\S]*?\]\]>|&([^\s&;<>"']{1,100});/g;

/**
 * The text with references to entities that hold elements written out where they stand: the parser takes what an entity holds as
 * words. The text itself when it has none, as usual. Lines keep their numbers.
 * @throws ArtworkError `entity-expansion` when they hold references of their own, or bring in too much.
 */
export function withElementsOfEntities(text: string, file: string): string {
  const at = text.slice(0, DOCTYPE_REACH).indexOf('<!DOCTYPE');
  if (at < 0 || !text.includes('<!ENTITY')) return text;
  const doctype = DOCTYPE.exec(text.slice(at, at + DOCTYPE_REACH));
  if (doctype === null) return text;
  const values = new Map<string, string>();
  for (const match of doctype[1]!.matchAll(DECLARATION)) {
    const value = match[3] ?? match[4];
    if (match[1] !== undefined || value === undefined || !isMarkup(value)) continue;
    const name = match[2]!;
    if (value.length > MAX_ENTITY_ELEMENTS) throw refusal(file, `entity '${name}' holds more than a few shapes`);
    // The first declaration of a name counts.
    if (!values.has(name)) values.set(name, withoutCharacterReferences(value).replace(/\s+/g, ' '));
  }
  if (values.size === 0) return text;
  const begin = at + doctype.index + doctype[0].length;
  let expanded = 0;
  const body = text.slice(begin).replace(REFERENCE, (whole, name: string | undefined) => {
    const value = name === undefined ? undefined : values.get(name);
    if (value === undefined) return whole;
    expanded += value.length;
    if (expanded > MAX_EXPANSION_CHARACTERS) throw refusal(file, `entity '${name}' is used too often`);
    return value;
  });
  return text.slice(0, begin) + body;
}

function isMarkup(value: string): boolean {
  return value.includes('<') || /&#(?:60|x3c);/i.test(value);
}

/** They stand for their characters as soon as the entity is declared (XML 1.0, 4.5), so that `&#60;` begins a tag. */
function withoutCharacterReferences(value: string): string {
  return value.replace(/&#(?:(\d{1,7})|x([\da-f]{1,6}));/gi, (whole, decimal?: string, hex?: string) => {
    const code = decimal === undefined ? Number.parseInt(hex ?? '', 16) : Number(decimal);
    return code > 0 && code <= 0x10ffff ? String.fromCodePoint(code) : whole;
  });
}

function refusal(file: string, why: string): ArtworkError {
  return new ArtworkError(
    'entity-expansion',
    `${file} is refused: its ${why}, which is how a small file is made to fill the memory; save it again as plain SVG`,
    'document type declaration',
  );
}
