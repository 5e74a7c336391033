import type { Contour } from '@underlap/geometry/curve';

/** What the beam does along one path of a sheet; cuts are told apart because holes are cut before the piece drops out. */
export type SheetProcess = 'engrave' | 'score' | 'deep-score' | 'cut-inner' | 'cut-outer';

/** Marks first, while everything still lies still; then holes; outlines last. */
export const CUTTING_ORDER: readonly SheetProcess[] = ['engrave', 'score', 'deep-score', 'cut-inner', 'cut-outer'];

/** One run of the beam, already in its place on the sheet. */
export interface SheetPath {
  readonly process: SheetProcess;
  /** The placement this belongs to, "backer.a#1". */
  readonly pieceId: string;
  /** The number of that piece as burnt and reported, "7a"; left out by drawings that know none. */
  readonly number?: string;
  /** mm, y down, the sheet's upper left corner at 0, 0. */
  readonly contour: Contour;
  /** What the path is for; numbers go to a group of their own so that they can be switched off. */
  readonly role?: 'number' | 'guide' | 'label' | 'part';
  /** Holes of an engraved area (even-odd). A closed engraved contour is an area, an open one a line. */
  readonly holes?: readonly Contour[];
}

/** One sheet as it is to be written: knows nothing of nesting, signs or jobs. */
export interface SheetDrawing {
  /** What the sheet shows, in words. */
  readonly title: string;
  /** Name of the job. */
  readonly job: string;
  /** From 1. */
  readonly sheetNumber: number;
  readonly sheetCount: number;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly seed: number | string;
  /** 'compensated': the paths are already moved by half the kerf; the machine must not do it again. */
  readonly kerfState: 'compensated' | 'nominal';
  readonly kerfMm: number;
  /** Largest distance between an offset contour and its fitted arcs, mm. */
  readonly toleranceMm: number;
  /** Clearance between mating edges, mm, when the job has one. */
  readonly fitMm?: number;
  /** How often this file is cut; left out = once. */
  readonly times?: number;
  /** Which loading of its board this is, when there are several. */
  readonly loading?: { readonly number: number; readonly count: number };
  /** Where the file's upper left corner lies on the board, mm, and whether the file is turned by a quarter, clockwise. */
  readonly origin?: { readonly x: number; readonly y: number; readonly isTurned: boolean };
  /** Further facts, a sentence each. */
  readonly notes?: readonly string[];
  readonly paths: readonly SheetPath[];
}

/** The usual cautions, where files leave the tool. */
export const CAUTIONS: readonly string[] = [
  'Never leave a running laser; keep a fire extinguisher at hand.',
  'Extract fumes outdoors or through a proper filter: wood-fibre boards release formaldehyde and fine particles.',
  'Never cut PVC, vinyl or other chlorinated plastics, or a material you cannot identify.',
  "Keep the enclosure's interlocks in force (laser classes: IEC 60825-1; use: ANSI Z136.1).",
  'Fast glues bond skin and give off vapour.',
  "Try settings on scrap; follow the machine's manual, local rules and the advice of qualified people.",
];

/** The facts every file states, one a line, as `name: value`. */
export function sheetFacts(sheet: SheetDrawing): string[] {
  const kerf =
    sheet.kerfState === 'compensated'
      ? `compensated, ${sheet.kerfMm} mm already taken into account (do not compensate again)`
      : `nominal, not compensated (${sheet.kerfMm} mm expected)`;
  return [
    `job: ${sheet.job}`,
    `sheet: ${sheet.sheetNumber} of ${sheet.sheetCount}, ${sheet.widthMm} x ${sheet.heightMm} mm`,
    'units: mm, true size (1:1)',
    `kerf: ${kerf}`,
    `tolerance: offset contours are fitted with arcs within ${sheet.toleranceMm} mm; others are as drawn`,
    ...(sheet.fitMm === undefined ? [] : [`fit: ${sheet.fitMm} mm between mating edges`]),
    `seed: ${sheet.seed}`,
    ...(sheet.times === undefined || sheet.times === 1 ? [] : [`cut ${sheet.times} times`]),
    ...(sheet.notes ?? []),
  ];
}
