import { strokeText, strokeTextWidth } from '@underlap/artwork/stroke-font';
import { contourToPathData } from '@underlap/geometry/path-data';
import { counted } from '../counted.ts';
import { mm, percent } from '../report-html/numbers.ts';
import type { ReportSeam } from '../report-schema.ts';
import type { JobResult } from '../stages.ts';
import type { Variant } from '../variants.ts';
import { type PictureFrame, placeOfSign, type SignPlace, signPaths } from './finished-picture.ts';
import type { PathPicture, PicturePath } from './path-picture.ts';

/** One bed with what was planned for it; null where nothing could be. */
export interface PlannedBed {
  readonly variant: Variant;
  readonly planned: Pick<JobResult, 'report' | 'designs'> | null;
}

/** Pixels. */
const COLUMN = 440;
const PICTURE = 340;
const BED = 90;
const GAP = 36;
const LINE = 26;
const LETTERS = 12;
const LINES = 5;

const INK = '#22252a';
const SEAM = '#9a3412';

/** All beds side by side: the first design with its seams at one scale, the bed at one scale, and the figures that decide. */
export function bedsPicture(title: string, beds: readonly PlannedBed[]): PathPicture {
  const top = 90;
  const words = top + PICTURE + GAP;
  const largest = Math.max(...beds.flatMap(({ variant }) => sizeOf(variant)));
  const tallest = Math.max(...beds.map(({ variant }) => sizeOf(variant)[1] ?? 0));
  return {
    title: `${title}: beds compared`,
    width: beds.length * (COLUMN + GAP) + GAP,
    height: words + LINES * LINE + Math.ceil((BED / largest) * tallest) + GAP,
    paper: '#fffdf8',
    paths: [
      ...written(title, GAP, 46, 20),
      ...beds.flatMap(({ variant, planned }, at) => {
        const x = GAP + at * (COLUMN + GAP);
        const [width, height] = sizeOf(variant) as [number, number];
        const lines = [`bed ${variant.bed.replace('x', ' x ')} mm`, ...figuresOf({ variant, planned })];
        const bed: PicturePath = {
          d: `M0 0H${width}V${height}H0Z`,
          fill: '#efe3cd',
          stroke: INK,
          width: (1.2 * largest) / BED,
          dash: [],
          scale: BED / largest,
          x,
          y: words + LINES * LINE,
        };
        return [
          ...(planned === null ? [] : signWithSeams(planned, { x, y: top, width: COLUMN, height: PICTURE })),
          ...lines.flatMap((line, row) => written(line, x, words + row * LINE, row === 0 ? LETTERS + 3 : LETTERS)),
          bed,
        ];
      }),
    ],
  };
}

function sizeOf({ bed }: Variant): number[] {
  return bed.split('x').map(Number);
}

function figuresOf({ variant, planned }: PlannedBed): string[] {
  if (planned === null) return ['too small for this sign'];
  const times = planned.report.loadings.reduce((sum, loading) => sum + loading.times, 0);
  if (variant.notFitting.length > 0) return [`${variant.notFitting.length} parts do not go in`];
  return [
    `${counted(variant.pieces, 'piece')}, ${counted(variant.splitParts.length, 'part')} split`,
    `${counted(variant.boards, 'board')}, ${counted(times, 'loading')}`,
    ...(variant.seamLengthMm === 0
      ? ['no seam']
      : [
          `${mm(variant.seamLengthMm)} mm of seam`,
          `${percent(variant.hiddenShare)} hidden, ${percent(variant.heldShare)} held`,
        ]),
  ];
}

function signWithSeams({ report, designs }: NonNullable<PlannedBed['planned']>, frame: PictureFrame): PicturePath[] {
  const [first] = designs;
  if (first === undefined) return [];
  const place = placeOfSign(first.sign, frame);
  const parts = new Set(report.parts.filter(({ design }) => design === first.design.id).map(({ id }) => id));
  const seams = report.seams.filter(({ part }) => parts.has(part));
  return [...signPaths(first.sign, place, 0.8), ...seams.flatMap((seam) => seamPaths(seam, place))];
}

/** Thin and dotted where something hides it, broad with a light core where it shows: told apart without colour. */
function seamPaths({ path, visible, lengthMm }: ReportSeam, place: SignPlace): PicturePath[] {
  const line = (stroke: string, pixels: number, dash: readonly number[]): PicturePath => ({
    d: path,
    fill: null,
    stroke,
    width: pixels / place.scale,
    dash,
    ...place,
  });
  const dot = 3 / place.scale;
  return [
    line('#ffffff', 3, []),
    line(INK, 1.4, [dot, dot]),
    ...visible.flatMap(([from, to]) => {
      const dash = [0, from, to - from, lengthMm + 1];
      return [line('#ffffff', 7, dash), line(SEAM, 5.4, dash), line('#ffffff', 1.4, dash)];
    }),
  ];
}

/** Letters in single strokes, from the left; signs over letters are left off, since the hand has none. */
function written(words: string, x: number, y: number, height: number): PicturePath[] {
  const text = words.normalize('NFD').replace(/\p{M}/gu, '');
  const most = COLUMN;
  const size = Math.min(height, (height * most) / strokeTextWidth(text, height));
  const middle = { x: x + strokeTextWidth(text, size) / 2, y };
  return strokeText(text, middle, size).map((contour) => ({
    d: contourToPathData(contour, 2),
    fill: null,
    stroke: INK,
    width: size / 8,
    dash: [],
    scale: 1,
    x: 0,
    y: 0,
  }));
}
