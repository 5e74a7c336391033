import { z } from 'zod';
import { atMost, choice, LONGEST_MM, length } from './document-fields.ts';

/** More fonts are a whole collection, not those of a day. */
const MOST_FONTS = 40;

const place = z.string().min(1).meta({ description: 'Id or name of a text in the drawing.' });

const fontObject = z.strictObject({
  file: z.string().nullable().default(null).meta({ description: 'Font file, relative to the job file.' }),
  data: z.base64().nullable().default(null).meta({ description: 'The font itself (base64), instead of a file.' }),
});
const font = z
  .union([z.string().min(1).meta({ description: 'Font file, relative to the job file.' }), fontObject], {
    error: () => 'must be the name of a font file, or an object such as { "file": "letters.ttf" }',
  })
  .transform((value) => (typeof value === 'string' ? fontObject.parse({ file: value }) : value));

const roomObject = z.strictObject({
  width: length(1, LONGEST_MM, 'Widest that the words may be'),
  height: length(1, LONGEST_MM, 'Highest that the words may be').nullable().default(null),
});
const room = z
  .union([z.number(), z.string(), roomObject], { error: () => 'must be a width, or { "width": 120, "height": 40 }' })
  .transform((value, context) => {
    if (typeof value === 'object') return value;
    const parsed = roomObject.safeParse({ width: value });
    if (parsed.success) return parsed.data;
    for (const { message, path } of parsed.error.issues) context.addIssue({ code: 'custom', message, path });
    return z.NEVER;
  });

const row = z.record(
  z.string(),
  z.union([z.string(), z.number()]).transform((value) => String(value)),
);
const namesObject = z.strictObject({
  file: z.string().nullable().default(null).meta({ description: 'Table (CSV), relative to the job file.' }),
  text: z.string().nullable().default(null).meta({ description: 'The table itself, instead of a file.' }),
  rows: z.array(row).max(500, atMost(500)).default([]),
});
const names = z
  .union([z.string().min(1).meta({ description: 'Table (CSV), relative to the job file.' }), z.array(row), namesObject])
  .transform((value) => {
    if (typeof value === 'string') return namesObject.parse({ file: value });
    return Array.isArray(value) ? namesObject.parse({ rows: value }) : value;
  })
  .meta({
    description:
      'A sign for every row: columns are named places; "count" and "order", where there are such columns, say how many and for whom.',
  });

const letters = choice(
  ['apart', 'joined'],
  'apart: every letter is a part; joined: the letters of a word are one part where they overlap.',
);
const weld = length(
  0,
  20,
  'Joined letters are moved together until they overlap by this; 0 leaves them where they are',
);
const score = z
  .union([choice(['none', 'all'], 'all = every text is scored.'), z.array(place)])
  .meta({ description: 'Texts that stay text: scored in single lines, without a font. none, all, or a list.' });
const words = z.record(place, z.string()).meta({ description: 'Words for named places of the drawing.' });
const rooms = z
  .record(place, room)
  .meta({ description: 'How wide (and high) the words of a named place may be: longer ones are set smaller.' });

/** How the texts of the drawings become parts. */
export const letteringSchema = z.strictObject({
  fonts: z
    .array(font)
    .max(MOST_FONTS, atMost(MOST_FONTS))
    .default([])
    .meta({ description: 'TrueType, OpenType, WOFF or WOFF2 files that you have.' }),
  letters: letters.default('apart'),
  weld: weld.default(0),
  score: score.default('none'),
  words: words.default({}),
  rooms: rooms.default({}),
  names: names.prefault({}),
});

/** The same for one design; null = as in the job. */
export const designLetteringSchema = z.strictObject({
  letters: letters.nullable().default(null),
  weld: weld.nullable().default(null),
  score: score.nullable().default(null),
  words: words.default({}),
  rooms: rooms.default({}),
  names: names.prefault({}),
});
