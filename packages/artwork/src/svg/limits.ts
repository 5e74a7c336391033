/** Largest text that is read, characters: the parsed drawing of a larger one would not fit a browser tab's memory. */
export const MAX_CHARACTERS = 64_000_000;

/** Most elements in a file. */
export const MAX_ELEMENTS = 500_000;

/** Most elements that `use` may add by showing others again. */
export const MAX_UNFOLDED = 200_000;

/** Most elements that are drawn aside to find the boxes that transforms turn about. */
export const MAX_MEASURED = 20_000;

/** Deepest nesting of groups that each turn about their own box: each level draws all below it once more. */
export const MAX_MEASURED_DEPTH = 4;

/** Most path segments in a drawing. About 200 bytes each once read. */
export const MAX_SEGMENTS = 2_000_000;

/** Deepest nesting of `use` within `use`; hand-made drawings stay below 5. */
export const MAX_USE_DEPTH = 32;

/** Longest value of a document's own entity, and most characters that all of them may bring in. */
export const MAX_ENTITY_CHARACTERS = 256;

/** Longest value of one that holds elements: a shape or a few. */
export const MAX_ENTITY_ELEMENTS = 65_536;

export const MAX_EXPANSION_CHARACTERS = 1_000_000;

/** Coordinates beyond this, mm, are no drawing but a mistake: half of what geometry takes, so that every later step has room. */
export const MAX_COORDINATE_MM = 5e5;

/** Radii beyond this, mm, are read as straight lines where the difference does not show: their squares still have digits. */
export const MAX_RADIUS_MM = 1e8;
