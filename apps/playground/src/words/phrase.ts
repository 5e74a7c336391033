/** Languages the page speaks; a third one is a third entry here and in every phrase. */
export const LANGUAGES = ['en', 'de'] as const;
export type Language = (typeof LANGUAGES)[number];

/** One thing the page says, in every language, as an ICU message: places `{name}`, plurals `{n, plural, one {# part} other {# parts}}`. */
export type Phrase = Readonly<Record<Language, string>>;

/** The phrases of one area of the page by key; a key begins with the name of its area. */
export type Area = Readonly<Record<string, Phrase>>;

type IsName<Word extends string> = Word extends '' | `${string}${' ' | '{' | '#'}${string}` ? never : Word;
type NameAt<Rest extends string> = Rest extends `${infer Word}}${string}`
  ? Word extends `${infer Name},${string}`
    ? IsName<Name>
    : IsName<Word>
  : never;

/**
 * Names of the places of a message. A branch of a plural must not be one bare word (`one {sign}` would be taken for a place):
 * give it its space, `one { sign}`.
 */
export type PlaceNames<Message extends string> = Message extends `${string}{${infer Rest}`
  ? NameAt<Rest> | PlaceNames<Rest>
  : never;
