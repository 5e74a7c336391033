import { z } from 'zod';
import { MOST_BRIDGES } from './choices.ts';
import { count, length } from './document-fields.ts';

/** Stretches that are left uncut, so that pieces stay in their board until they are broken out. */
export const bridgesSchema = z
  .strictObject({
    number: count(0, MOST_BRIDGES, 'Uncut bridges round each piece, fewer where there is no place; 0 = none.').default(
      0,
    ),
    width: length(0.1, 10, 'Width of a bridge').default(0.6),
  })
  .meta({
    description:
      'Small uncut bridges keep pieces in their board: never in a seam or on a corner. Half to one mm is common (no source).',
  });
