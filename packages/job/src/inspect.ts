import type { Complaint, Drawing, Place, SizeChoice } from '@underlap/artwork/drawing';
import { contourBounds, shapeArea } from '@underlap/geometry/contour';
import type { Sign } from '@underlap/stack/sign';
import type { Use } from '@underlap/stack/usage';
import type { Job } from './document.ts';
import { signOf } from './sign-stage.ts';

/** Everything there is to know of a drawing before anything is planned. Lengths null while the physical size is open. */
export interface Inspection {
  readonly units: 'mm';
  readonly name: string;
  readonly format: 'svg' | 'dxf';
  readonly widthMm: number | null;
  readonly heightMm: number | null;
  readonly sizeSource: 'file' | 'user' | null;
  /** Only while the size is open. */
  readonly sizeChoices?: readonly Pick<SizeChoice, 'perInch' | 'widthMm'>[];
  readonly mode: Sign['mode'];
  readonly parts: readonly InspectedPart[];
  readonly marks: readonly {
    readonly id: string;
    readonly part: string;
    readonly process: string;
    readonly lengthMm: number | null;
  }[];
  readonly matches: readonly InspectedMatch[];
  /** What colours and layers were taken for: the same as in the plan. */
  readonly uses: readonly Use[];
  readonly repairs: readonly {
    readonly kind: string;
    readonly message: string;
    readonly place: Place;
    readonly sizeMm: number;
  }[];
  readonly complaints: readonly Complaint[];
}

export interface InspectedPart {
  readonly id: string;
  readonly name: string;
  readonly layer: string | null;
  /** Net of holes. */
  readonly areaMm2: number | null;
  readonly widthMm: number | null;
  readonly heightMm: number | null;
  readonly holes: number;
  readonly paint: string | null;
  readonly process: 'cut';
  readonly placed: boolean;
}

export interface InspectedMatch {
  readonly part: string;
  readonly onPart: string;
  readonly mark: string;
  readonly turnDeg: number;
  readonly mirrored: boolean;
  readonly ambiguous: boolean;
}

/**
 * Look at a drawing as a sign, without a bed or a board.
 * @throws StackError when nothing bounds a part.
 */
export function inspectDrawing(drawing: Drawing, artwork: Job['artwork']): Inspection {
  const sign = signOf(drawing, artwork);
  const isOpen = drawing.size.kind === 'open';
  const length = (value: number) => (isOpen ? null : value);
  return {
    units: 'mm',
    name: drawing.name,
    format: drawing.format,
    widthMm: drawing.size.kind === 'known' ? drawing.size.widthMm : null,
    heightMm: drawing.size.kind === 'known' ? drawing.size.heightMm : null,
    sizeSource: drawing.size.kind === 'known' ? drawing.size.source : null,
    ...(drawing.size.kind === 'open'
      ? { sizeChoices: drawing.size.choices.map(({ perInch, widthMm }) => ({ perInch, widthMm })) }
      : {}),
    mode: sign.mode,
    parts: sign.parts.map((part) => {
      const { minX, minY, maxX, maxY } = contourBounds(part.shape.outer);
      return {
        id: part.id,
        name: part.name,
        layer: part.layer,
        areaMm2: length(shapeArea(part.shape)),
        widthMm: length(maxX - minX),
        heightMm: length(maxY - minY),
        holes: part.shape.holes.length,
        paint: part.paint,
        process: 'cut',
        placed: part.place === 'assembled',
      };
    }),
    marks: sign.parts.flatMap((part) =>
      part.marks.map((mark) => ({
        id: mark.id,
        part: part.id,
        process: mark.process,
        lengthMm: length(mark.lengthMm),
      })),
    ),
    matches: sign.matches.map((match) => ({
      part: match.partId,
      onPart: match.onPartId,
      mark: match.markId,
      turnDeg: match.turnDeg,
      mirrored: match.mirrored,
      ambiguous: match.ambiguous,
    })),
    uses: sign.uses,
    repairs: sign.repairs.map(({ kind, message, place, sizeMm }) => ({ kind, message, place, sizeMm })),
    complaints: sign.complaints,
  };
}
