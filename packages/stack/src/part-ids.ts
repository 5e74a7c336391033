/** Hands out short ids that are safe in file names: from the name when there is one, else from the kind; doubles get a running number. */
export class IdMint {
  readonly #taken = new Set<string>();

  /** @param wanted - any text; @param fallback - used when nothing of it survives. */
  mint(wanted: string, fallback: string): string {
    const base = slug(wanted) || fallback;
    let id = base;
    for (let n = 2; this.#taken.has(id); n++) id = `${base}-${n}`;
    this.#taken.add(id);
    return id;
  }
}

/** How the ids of what a part becomes go on after its own: its pieces, seams and plates. */
const AFTER_AN_ID = /^-(?:\d+|seam-\d+|plate-\d+)$/;

/**
 * Ids of parts, in the given order. None is another's with '-2' or the like after it, since so are the pieces called that a part
 * is split into: a second 'oval' becomes 'oval2', and so does a drawn 'oval-2' beside an 'oval'.
 * @param wanted - names as drawn. @remarks O(n^2) in parts whose names begin alike.
 */
export function mintPartIds(wanted: readonly string[], fallback: string): string[] {
  const bases = wanted.map((name) => slug(name) || fallback);
  const taken = new Set<string>();
  const known = new Set(bases);
  const clashes = (id: string, own: string): boolean => {
    if (taken.has(id)) return true;
    return [...known].some((other) => other !== own && other !== id && (isAfter(id, other) || isAfter(other, id)));
  };
  return bases.map((base) => {
    let id = base;
    if (taken.has(base) || [...known].some((other) => isAfter(base, other))) {
      // Without hyphens before its last digits it cannot go on where another id ends.
      const stem = base.replace(/(?:-?\d+)+$/, '') || fallback;
      const digits = base.slice(stem.length).replaceAll('-', '');
      id = base.startsWith(stem) ? `${stem}${digits}` : stem;
      for (let n = 2; clashes(id, base); n++) id = `${stem}${n}`;
    }
    taken.add(id);
    known.add(id);
    return id;
  });
}

function isAfter(id: string, other: string): boolean {
  return id.startsWith(other) && AFTER_AN_ID.test(id.slice(other.length));
}

/** Longest id that is still pleasant in a file name. */
const LONGEST_ID = 40;

/** Lower case letters, digits and hyphens; accents are taken off. */
function slug(text: string): string {
  return text
    .normalize('NFKD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, LONGEST_ID)
    .replace(/-+$/, '');
}
