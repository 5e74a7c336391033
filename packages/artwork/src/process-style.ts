import type { Colour } from './drawing.ts';
import type { SheetPath, SheetProcess } from './sheet-drawing.ts';

/** Colour and layer name under which a process leaves the tool. */
export interface LayerStyle {
  readonly colour: Colour;
  readonly layer: string;
}

/** How a sheet is written. */
export interface SheetStyle {
  readonly layers: Readonly<Record<SheetProcess, LayerStyle>>;
  /** Part numbers have a layer of their own, so that the machine's program can leave them out. */
  readonly numbers: LayerStyle;
  /** Are part numbers written at all? */
  readonly showsNumbers: boolean;
  /** Width of drawn lines, mm; only for the eye. */
  readonly lineWidthMm: number;
  /**
   * 'by-process': every hole of the sheet before every outline. 'nested-first': a piece that lies in the hole of
   * another is finished before that hole is cut; processes then come in several rounds, innermost pieces first.
   */
  readonly rounds: 'by-process' | 'nested-first';
}

/**
 * Defaults: six of the eight colours that stay distinct for colour-blind people.
 * Source: Okabe and Ito, Color Universal Design (2008); the assignment to processes is our own.
 */
export const DEFAULT_SHEET_STYLE: SheetStyle = {
  layers: {
    engrave: { colour: '#0072b2', layer: 'engrave' },
    score: { colour: '#e69f00', layer: 'score' },
    'deep-score': { colour: '#d55e00', layer: 'deep-score' },
    'cut-inner': { colour: '#cc79a7', layer: 'cut-inner' },
    'cut-outer': { colour: '#009e73', layer: 'cut-outer' },
  },
  numbers: { colour: '#56b4e9', layer: 'numbers' },
  showsNumbers: true,
  lineWidthMm: 0.1,
  rounds: 'nested-first',
};

/** What a job may say about the way its sheets are written; everything left out keeps its default. */
export interface SheetStyleChoices {
  readonly layers?: Readonly<Partial<Record<SheetProcess | 'numbers', Partial<LayerStyle>>>>;
  readonly showsNumbers?: boolean;
  readonly rounds?: SheetStyle['rounds'];
}

/** The default style with the job's own colours and layer names in it. */
export function sheetStyle(choices: SheetStyleChoices = {}): SheetStyle {
  const base = DEFAULT_SHEET_STYLE;
  const own = (name: SheetProcess | 'numbers', style: LayerStyle): LayerStyle => ({
    ...style,
    ...choices.layers?.[name],
  });
  return {
    ...base,
    layers: {
      engrave: own('engrave', base.layers.engrave),
      score: own('score', base.layers.score),
      'deep-score': own('deep-score', base.layers['deep-score']),
      'cut-inner': own('cut-inner', base.layers['cut-inner']),
      'cut-outer': own('cut-outer', base.layers['cut-outer']),
    },
    numbers: own('numbers', base.numbers),
    showsNumbers: choices.showsNumbers ?? base.showsNumbers,
    rounds: choices.rounds ?? base.rounds,
  };
}

/** Colour and layer of one path. */
export function styleOf(path: SheetPath, style: SheetStyle): LayerStyle {
  return path.role === 'number' ? style.numbers : style.layers[path.process];
}
