import { resolve } from 'node:path';
import {
  COMPENSATE,
  DRAWING_MODES,
  FORMATS,
  LOADING_WAYS,
  MASKS,
  MOST_BRIDGES,
  MOST_SIGNS,
  NUMBERS,
  PASS_THROUGH,
  PREFERENCES,
  TOGETHER,
} from '@underlap/job/choices';
import { type Command, Option } from 'commander';
import { UsageError } from './exit.ts';
import { countOption, lengthOption, sizeOption, sizesOption } from './lengths.ts';
import { fieldsOf, merged, type Overrides } from './overrides.ts';

/** Options that stand for fields of a job; each may be left out. */
export interface JobOptions {
  readonly bed?: string;
  readonly bedMargin?: string;
  readonly passThrough?: string;
  readonly board?: string;
  readonly boards?: string;
  readonly batch?: string;
  readonly kerf?: string;
  readonly fit?: string;
  readonly compensate?: string;
  readonly spacing?: string;
  readonly margin?: string;
  readonly thickness?: string;
  readonly landing?: string;
  readonly loading?: string;
  readonly sawKerf?: string;
  readonly turns?: string;
  readonly seed?: string;
  readonly effort?: string;
  readonly width?: string;
  readonly perInch?: string;
  readonly mode?: string;
  readonly key?: readonly string[];
  readonly keepBackground?: boolean;
  readonly repair?: boolean;
  readonly acceptFaults?: boolean;
  readonly fillers?: string;
  readonly guides?: boolean;
  readonly numbers?: string;
  readonly formats?: string;
  readonly licence?: string;
  readonly bridges?: string;
  readonly bridgeWidth?: string;
  readonly masks?: string;
  readonly font?: readonly string[];
  readonly letters?: string;
  readonly weld?: string;
  readonly names?: string;
  readonly word?: readonly string[];
  readonly scoreText?: string;
  readonly together?: string;
  readonly prefer?: string;
  readonly slots?: string;
  readonly set?: readonly string[];
}

/** How artwork is read: shared by every command that takes artwork. */
export function addArtworkOptions(command: Command): Command {
  return command
    .option('--width <length>', 'width of the whole drawing, when the file does not say ("500", "20in")')
    .option('--per-inch <number>', 'user units to the inch, when the file does not say (96 and 72 are customary)')
    .addOption(new Option('--mode <mode>', 'how the parts lie in the drawing').choices(DRAWING_MODES))
    .option(
      '--key <name=process>',
      `what a colour (#rrggbb) or a layer is taken for: ${KEY_WORDS.join(', ')}; may be given several times`,
      several,
    )
    .option('--keep-background', 'a white rectangle as large as the page is a part')
    .option('--accept-faults', 'go on although something of the drawing could not be read')
    .option('--fillers <parts>', 'fillers below parts that hang in the air: none, all, or parts separated by commas')
    .option(
      '--font <file>',
      'font file for the texts of the drawing (TrueType, OpenType, WOFF); may be given several times. See that its licence allows cutting and selling',
      several,
    )
    .addOption(
      new Option('--letters <how>', 'letters of a word are parts of their own, or one').choices(['apart', 'joined']),
    )
    .option('--weld <length>', 'how far joined letters overlap where they would not touch')
    .option('--word <place=words>', 'words for a named text of the drawing; may be given several times', several)
    .option('--names <file>', 'table (CSV) of the words for named texts: a sign for every row')
    .option('--score-text <which>', 'texts scored in single lines without a font: all, or ids separated by commas')
    .option('--no-repair', 'leave small faults of the drawing as they are, and only tell them');
}

const several = (text: string, before: readonly string[] = []): string[] => [...before, text];

/** Everything that a job file may say and that is often changed. */
export function addJobOptions(command: Command): Command {
  return addArtworkOptions(command)
    .option('--bed <size>', 'working area of the machine ("520x320", "20x12in")')
    .option('--bed-margin <length>', 'edge of the bed that is not used')
    .addOption(new Option('--pass-through <direction>', 'material may pass through along').choices(PASS_THROUGH))
    .option('--board <sizes>', 'boards, one size or several separated by commas ("508x305,610x305")')
    .option('--batch <number>', 'signs made together')
    .option('--kerf <length>', 'width that a cut removes')
    .option('--fit <length>', 'gap between mating edges; negative presses')
    .addOption(new Option('--compensate <which>', 'contours that are grown by half the kerf').choices(COMPENSATE))
    .option('--spacing <length>', 'least distance between cut paths')
    .option('--margin <length>', 'least distance to the edge of a board')
    .addOption(
      new Option('--loading <way>', 'boards larger than the bed are moved on it, or cut down to panels first').choices(
        LOADING_WAYS,
      ),
    )
    .option('--saw-kerf <length>', 'width that the saw removes between panels')
    .option('--bridges <number>', 'small uncut bridges round each piece, so that it stays in its board; 0 = none')
    .option('--bridge-width <length>', 'width of a bridge')
    .option('--thickness <length>', 'thickness of the boards')
    .option('--landing <length>', 'how far the cover reaches beyond a seam')
    .option('--turns <rule>', 'turns on the board: fixed, half, quarter, any, or a step in degrees')
    .addOption(new Option('--together <what>', 'pieces of one sign, or of one order, share a sheet').choices(TOGETHER))
    .addOption(new Option('--prefer <plan>', 'which plan of seams is taken').choices(PREFERENCES))
    .option('--slots <number>', 'slots to hang the sign from, cut into its lowest part: 0, 1 or 2')
    .option('--no-guides', 'no placement marks')
    .addOption(new Option('--numbers <where>', 'piece numbers').choices(NUMBERS))
    .option('--formats <list>', `sheets as ${FORMATS.join(', ')}, separated by commas`)
    .addOption(
      new Option(
        '--masks <how>',
        'files of the faces that stay bare for glue: lines to score, or masks to cut',
      ).choices(MASKS),
    )
    .option('--licence <words>', 'what a buyer may do with the files, for the read-me of packs')
    .option('--seed <number>', 'the same seed gives the same layout')
    .option('--effort <effort>', 'quick, normal, thorough, or a number of work units')
    .option(
      '--set <field=value>',
      'any field of the job, such as marks.textHeight=8; may be given several times',
      several,
    );
}

/** The part of a job that the options speak of. @throws UsageError naming the option. */
export function overridesOf(options: JobOptions): Overrides {
  const artwork = {
    ...when(options.width, (text) => ({ width: lengthOption('--width', text), perInch: null })),
    ...when(options.perInch, (text) => ({ perInch: numberOption('--per-inch', text), width: null })),
    ...when(options.mode, (mode) => ({ mode })),
    ...keyOption('--key', options.key ?? []),
    ...(options.keepBackground === true ? { keepBackground: true } : {}),
    ...(options.repair === false ? { repair: false } : {}),
    ...when(options.fillers, (text) => ({ fillers: fillersOption(text) })),
    ...(options.acceptFaults === true ? { acceptFaults: true } : {}),
  };
  const marks = {
    ...(options.guides === false ? { guides: false } : {}),
    ...when(options.numbers, (numbers) => ({ numbers })),
  };
  const loading = {
    ...when(options.loading, (way) => ({ way })),
    ...length('sawKerf', '--saw-kerf', options.sawKerf),
  };
  const bridges = {
    ...when(options.bridges, (text) => ({ number: countOption('--bridges', text, 0, MOST_BRIDGES) })),
    ...length('width', '--bridge-width', options.bridgeWidth),
  };
  const bed = {
    ...when(options.bed, (text) => ({ ...sizeOption('--bed', text) })),
    ...when(options.bedMargin, (text) => ({ margin: lengthOption('--bed-margin', text) })),
    ...when(options.passThrough, (passThrough) => ({ passThrough })),
  };
  const lettering = {
    ...when(options.font, (files) => ({ fonts: files.map((file) => resolve(file)) })),
    ...when(options.letters, (letters) => ({ letters })),
    ...length('weld', '--weld', options.weld),
    ...when(options.word, (texts) => ({ words: wordsOption(texts) })),
    ...when(options.names, (file) => ({ names: resolve(file) })),
    ...when(options.scoreText, (text) => ({ score: text === 'all' ? 'all' : text.split(',').map((id) => id.trim()) })),
  };
  const output = {
    ...when(options.formats, (text) => ({ formats: formatsOption('--formats', text) })),
    ...when(options.licence, (licence) => ({ licence })),
    ...when(options.masks, (masks) => ({ masks })),
  };
  const named = {
    ...some('artwork', artwork),
    ...some('lettering', lettering),
    ...some('marks', marks),
    ...some('bed', bed),
    ...some('loading', loading),
    ...some('bridges', bridges),
    ...when(options.board, (text) => ({ boards: sizesOption('--board', text) })),
    ...when(options.batch, (text) => ({ batch: countOption('--batch', text, 1, MOST_SIGNS) })),
    ...length('kerf', '--kerf', options.kerf),
    ...length('fit', '--fit', options.fit),
    ...when(options.compensate, (compensate) => ({ compensate })),
    ...length('spacing', '--spacing', options.spacing),
    ...length('margin', '--margin', options.margin),
    ...length('thickness', '--thickness', options.thickness),
    ...length('landing', '--landing', options.landing),
    ...when(options.turns, (text) => ({ turns: { default: turnsOption('--turns', text) } })),
    ...when(options.together, (together) => ({ together })),
    ...when(options.prefer, (prefer) => ({ seams: { prefer } })),
    ...when(options.slots, (text) => ({ shop: { hanging: { slots: countOption('--slots', text, 0, 2) } } })),
    ...some('output', output),
    ...when(options.seed, (text) => ({ seed: countOption('--seed', text, 0, 2 ** 31 - 1) })),
    ...when(options.effort, (text) => ({ effort: effortOption('--effort', text) })),
  };
  return merged(named, fieldsOf('--set', options.set ?? []));
}

/** fixed, half, quarter, any, or degrees. */
export function turnsOption(option: string, text: string): string | { stepDeg: number } {
  const word = text.trim();
  if (['fixed', 'half', 'quarter', 'any'].includes(word)) return word;
  const stepDeg = Number(word);
  if (Number.isFinite(stepDeg) && stepDeg > 0 && stepDeg <= 180) return { stepDeg };
  throw new UsageError(`${option} takes fixed, half, quarter, any, or a step in degrees, not "${text}".`);
}

const KEY_WORDS = ['cut', 'score', 'deep-score', 'engrave', 'paint', 'ignore'];

/** `#0072b2=cut` speaks of a colour, `guides=score` of a layer; the last `=` parts name and process. */
function keyOption(option: string, texts: readonly string[]): Overrides {
  const colours: Record<string, string> = {};
  const layers: Record<string, string> = {};
  for (const text of texts) {
    const at = text.lastIndexOf('=');
    const name = text.slice(0, Math.max(at, 0)).trim();
    const process = text
      .slice(at + 1)
      .trim()
      .toLowerCase();
    if (name === '' || !KEY_WORDS.includes(process)) {
      const sentence = `${option} takes a colour or a layer and its process, such as "#0072b2=cut" or "guides=score", not "${text}"`;
      throw new UsageError(`${sentence}: the processes are ${KEY_WORDS.join(', ')}.`);
    }
    const short = /^#([0-9a-f])([0-9a-f])([0-9a-f])$/i.exec(name);
    if (short !== null)
      colours[
        `#${short
          .slice(1)
          .map((digit) => digit + digit)
          .join('')}`
      ] = process;
    else if (/^#[0-9a-f]{6}$/i.test(name)) colours[name] = process;
    else layers[name] = process;
  }
  return { ...some('colourKey', colours), ...some('layerKey', layers) };
}

function wordsOption(texts: readonly string[]): Record<string, string> {
  return Object.fromEntries(
    texts.map((text) => {
      const at = text.indexOf('=');
      if (at < 1) throw new UsageError(`--word takes a place and its words, such as "family=Gull", not "${text}".`);
      return [text.slice(0, at).trim(), text.slice(at + 1)];
    }),
  );
}

/** Formats of the sheets, separated by commas. */
export function formatsOption(option: string, text: string): (typeof FORMATS)[number][] {
  return text.split(',').map((part) => {
    const word = part.trim().toLowerCase();
    const format = FORMATS.find((known) => known === word);
    if (format !== undefined) return format;
    throw new UsageError(`${option} takes ${FORMATS.join(', ')}, separated by commas, not "${word}".`);
  });
}

function effortOption(option: string, text: string): string | number {
  if (['quick', 'normal', 'thorough'].includes(text)) return text;
  if (/^[1-9]\d*$/.test(text)) return Number(text);
  throw new UsageError(`${option} takes quick, normal, thorough, or a number of work units, not "${text}".`);
}

function fillersOption(text: string): string | string[] {
  const word = text.trim();
  return word === 'none' || word === 'all' ? word : word.split(',').map((part) => part.trim());
}

function numberOption(option: string, text: string): number {
  const value = Number(text);
  if (text.trim() === '' || !Number.isFinite(value)) throw new UsageError(`${option} takes a number, not "${text}".`);
  return value;
}

function length(field: string, option: string, text: string | undefined): Overrides {
  return when(text, (given) => ({ [field]: lengthOption(option, given) }));
}

function when<T>(value: T | undefined, fields: (value: T) => Overrides): Overrides {
  return value === undefined ? {} : fields(value);
}

function some(field: string, value: Overrides): Overrides {
  return Object.keys(value).length === 0 ? {} : { [field]: value };
}
