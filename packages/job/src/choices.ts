/**
 * The words and limits of a job that more than one place needs: the document's schema, the command line's options, the report and
 * the page. Nothing else may write them again.
 */

/** Signs made together at most. */
export const MOST_SIGNS = 500;

/** Largest distance between cut paths, and from them to the edge of the stock, mm. */
export const MOST_SPACING_MM = 200;
export const MOST_MARGIN_MM = 500;

/** Tightest press fit and loosest gap between mating edges, mm. */
export const FIT_RANGE_MM = [-1, 2] as const;

export const DRAWING_MODES = ['auto', 'stacked', 'spread'] as const;
export const PASS_THROUGH = ['none', 'width', 'height'] as const;
export const COMPENSATE = ['all', 'seams', 'none'] as const;
export const LOADING_WAYS = ['move-board', 'cut-down'] as const;
export const TOGETHER = ['free', 'sign', 'order'] as const;
export const PREFERENCES = ['fewest', 'most-hidden', 'strongest'] as const;
/** What a layout is the better for; `fewest-bought` counts offcuts as nothing, so that they are taken first. */
export const AIMS = ['fewest-boards', 'cheapest', 'fewest-bought'] as const;
export const TIE_BREAKS = ['largest-offcut', 'shortest-cutting'] as const;
export const NUMBERS = ['hidden', 'all', 'off'] as const;
/** Uncut bridges round one piece at most. */
export const MOST_BRIDGES = 20;

export const MASKS = ['none', 'score', 'stencil'] as const;
export const FORMATS = ['svg', 'dxf', 'pdf'] as const;
