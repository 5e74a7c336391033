import type { SheetPath } from '@underlap/artwork/sheet-drawing';
import { fitArcs } from '@underlap/geometry/arc-fit';
import { intersectRegions } from '@underlap/geometry/boolean';
import { contourBounds, transformContour, transformShape } from '@underlap/geometry/contour';
import type { Contour } from '@underlap/geometry/curve';
import { type Matrix, placementMatrix } from '@underlap/geometry/matrix';
import { offsetRegions } from '@underlap/geometry/offset';
import { type Region, regionArea } from '@underlap/geometry/region';
import type { Job } from './document.ts';
import { fileSlug } from './file-slug.ts';
import type { Guide } from './guide-of.ts';
import type { CutFile } from './sheet-drawings.ts';
import type { CutPiece, DesignResult } from './stages.ts';
import { textIn } from './text-place.ts';

/** How masks of glued faces are made. */
export type MaskKind = Exclude<Job['output']['masks'], 'none'>;

/** The mask of one piece, as a file of its own. */
export interface MaskFile extends CutFile {
  readonly partId: string;
}

/** Largest distance between a mask and the arcs fitted to it, mm. */
const FIT_MM = 0.01;

/** Masks end this far inside the edge of their piece, mm: fitted arcs stay within the file then. */
const INSIDE_MM = 2 * FIT_MM;

/** A smaller mask is a crumb that nobody lays, mm2 (common practice, no source). */
const LEAST_MM2 = 4;

/**
 * What stays bare so that glue holds, one file a piece, the size of the piece: `score` = lines to be scored through masking film that
 * lies on the piece; `stencil` = the mask itself, cut from film or paper, in the outline of its piece.
 * @param job - of this design alone; kerf is left out, since a mask that is a little small shows nothing.
 * @returns files that go in the bed as their pieces do; none for pieces without glued faces.
 */
export function maskFiles(
  { pieces, design }: Pick<DesignResult, 'pieces' | 'design'>,
  guide: Guide,
  kind: MaskKind,
  jobName: string,
): MaskFile[] {
  const { job } = design;
  return guide.input.paint.bare.flatMap(({ partId, regions }) =>
    pieces
      .filter((piece) => piece.partId === partId)
      .flatMap((piece) => {
        const face = offsetRegions([piece.region], -INSIDE_MM);
        const bare = intersectRegions(face, regions).filter((region) => regionArea(region) >= LEAST_MM2);
        return bare.length === 0 ? [] : [maskFile(piece, bare, kind, design.count, job, jobName)];
      }),
  );
}

function maskFile(
  piece: CutPiece,
  bare: readonly Region[],
  kind: MaskKind,
  times: number,
  job: Job,
  jobName: string,
): MaskFile {
  const turned = placementMatrix(0, 0, piece.limitTurnDeg.bed);
  // Of the exact outline: the chords of the region lie inside its curves.
  const { minX, minY, maxX, maxY } = contourBounds(transformContour(piece.shape.outer, turned));
  const matrix: Matrix = { ...turned, e: turned.e - minX, f: turned.f - minY };
  const [widthMm, heightMm] = [maxX - minX, maxY - minY];
  const name = `${fileSlug(jobName)}-mask-${fileSlug(piece.number)}`;
  const page = { minX: 0, minY: 0, maxX: widthMm, maxY: heightMm };
  return {
    partId: piece.partId,
    name,
    sheets: [],
    loading: {
      number: 1,
      count: 1,
      kind: 'whole',
      page,
      isTurned: false,
      widthMm,
      heightMm,
      copies: [],
      board: page,
      move: null,
    },
    drawing: {
      title: `${jobName}, mask of piece ${piece.number}`,
      job: jobName,
      sheetNumber: 1,
      sheetCount: 1,
      widthMm,
      heightMm,
      seed: job.seed,
      kerfState: 'nominal',
      kerfMm: job.kerf,
      toleranceMm: FIT_MM,
      times,
      notes: WORDS[kind],
      paths: kind === 'score' ? scorePaths(piece, bare, matrix) : stencilPaths(piece, bare, matrix, job),
    },
  };
}

const WORDS: Readonly<Record<MaskKind, readonly string[]>> = {
  score: [
    'mask: lay the cut piece, covered with masking film, into the upper left corner; score through the film alone and take off what is to be painted',
  ],
  stencil: [
    'mask: cut from masking film or paper, and stuck on the piece before it is painted; the scored line is the outline of the piece',
  ],
};

function scorePaths(piece: CutPiece, bare: readonly Region[], matrix: Matrix): SheetPath[] {
  return bare.flatMap(({ outer, holes }) =>
    [outer, ...holes].map((ring): SheetPath => ({ ...of(piece), process: 'score', contour: smooth(ring, matrix) })),
  );
}

function stencilPaths(piece: CutPiece, bare: readonly Region[], matrix: Matrix, job: Job): SheetPath[] {
  const { outer, holes } = transformShape(piece.shape, matrix);
  const number = textIn(bare, piece.number, job.marks.textHeight)?.contours ?? [];
  return [
    ...[outer, ...holes].map((contour): SheetPath => ({ ...of(piece), process: 'score', contour, role: 'guide' })),
    ...number.map(
      (contour): SheetPath => ({
        ...of(piece),
        process: 'score',
        contour: transformContour(contour, matrix),
        role: 'number',
      }),
    ),
    ...bare.flatMap((region) =>
      region.holes.map(
        (ring): SheetPath => ({ ...of(piece), process: 'cut-inner', contour: smooth(ring, matrix), role: 'part' }),
      ),
    ),
    ...bare.map(
      ({ outer: ring }): SheetPath => ({
        ...of(piece),
        process: 'cut-outer',
        contour: smooth(ring, matrix),
        role: 'part',
      }),
    ),
  ];
}

function of({ id, number }: CutPiece): Pick<SheetPath, 'pieceId' | 'number'> {
  return { pieceId: id, number };
}

function smooth(ring: Region['outer'], matrix: Matrix): Contour {
  return transformContour(fitArcs(ring, FIT_MM), matrix);
}
