import { ArtworkError } from '../error.ts';
import { MAX_ENTITY_CHARACTERS, MAX_EXPANSION_CHARACTERS } from './limits.ts';

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

function refusal(file: string, why: string): ArtworkError {
  return new ArtworkError(
    'entity-expansion',
    `${file} is refused: its ${why}, which is how a small file is made to fill the memory; save it again as plain SVG`,
    'document type declaration',
  );
}
