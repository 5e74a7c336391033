import type { Caption, Ink, Picture } from './ink.ts';

/** A picture on its way to another thread: each outline once, however many pieces have it. */
export interface PackedPicture {
  readonly paths: readonly string[];
  /** `path` is an index into `paths`. */
  readonly inks: readonly (Omit<Ink, 'd'> & { readonly path: number })[];
  readonly captions: readonly Caption[];
}

/** What is drawn of a picture; what can be pointed at stays behind. O(inks). */
export function packPicture({ inks, captions }: Pick<Picture, 'inks' | 'captions'>): PackedPicture {
  const places = new Map<string, number>();
  const packed = inks.map(({ d, ...rest }) => {
    const path = places.get(d) ?? places.size;
    places.set(d, path);
    return { ...rest, path };
  });
  return { paths: [...places.keys()], inks: packed, captions };
}

export function unpackPicture({ paths, inks, captions }: PackedPicture): Pick<Picture, 'inks' | 'captions'> {
  return { inks: inks.map(({ path, ...rest }) => ({ ...rest, d: paths[path]! })), captions };
}
