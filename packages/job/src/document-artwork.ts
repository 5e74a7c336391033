import { z } from 'zod';
import { DRAWING_MODES } from './choices.ts';
import { choice, colour, LONGEST_MM, length, number, partId } from './document-fields.ts';

const colourUse = choice(
  ['cut', 'score', 'deep-score', 'engrave', 'paint', 'ignore'],
  'What the beam does along lines of this colour or layer; paint = the colour of a part, ignore = leave it out.',
);
const artworkObject = z.strictObject({
  file: z.string().nullable().default(null).meta({ description: 'Artwork file, relative to the job file.' }),
  text: z.string().nullable().default(null).meta({ description: 'The artwork itself, instead of a file.' }),
  name: z
    .string()
    .nullable()
    .default(null)
    .meta({ description: 'Name for titles and messages; default: the file name.' }),
  width: length(1, LONGEST_MM, 'Width of the whole drawing, when the file leaves its size open')
    .nullable()
    .default(null),
  perInch: number(0.001, 100_000, 'User units to the inch, when the file leaves its size open.')
    .nullable()
    .default(null),
  mode: choice(DRAWING_MODES, 'Shapes lie on one another, or side by side.').default('auto'),
  colourKey: z
    .record(colour, colourUse)
    .default({})
    .meta({ description: 'Which colour of the drawing stands for which process.' }),
  layerKey: z
    .record(z.string().min(1), colourUse)
    .default({})
    .meta({ description: 'Which layer or group of the drawing stands for which process; above what its colours say.' }),
  keepBackground: z
    .boolean()
    .default(false)
    .meta({ description: 'A white rectangle as large as the page is the backer, not the page.' }),
  mirroredMatches: z
    .boolean()
    .default(false)
    .meta({ description: 'Spread drawings: a part may be turned over to match its outline.' }),
  acceptFaults: z
    .boolean()
    .default(false)
    .meta({ description: 'Plan although something of the drawing could not be read.' }),
  repair: z.boolean().default(true).meta({ description: 'Mend small faults, and tell each; false only tells them.' }),
  closeGap: length(0, 5, 'Largest gap that is closed').default(0.1),
  fillers: z
    .union([choice(['none', 'all'], 'all = below every part that hangs in the air.'), z.array(partId)])
    .default('none')
    .meta({
      description: 'Parts below which fillers are cut, so that they do not hang in the air: none, all, or a list.',
    }),
});

/** The drawing of a job, and how it is read. */
export const artworkSchema = z
  .union([z.string().min(1).meta({ description: 'Artwork file, relative to the job file.' }), artworkObject], {
    error: () => 'must be the name of a file, or an object such as { "file": "sign.svg" }',
  })
  .transform((value) => (typeof value === 'string' ? artworkObject.parse({ file: value }) : value));
