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
