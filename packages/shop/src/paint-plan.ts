import type { Colour } from '@underlap/artwork/drawing';
import { intersectRegions, subtractRegions, unionRegions } from '@underlap/geometry/boolean';
import { clipPolyline, polylineLength } from '@underlap/geometry/clip-polyline';
import { contourLength } from '@underlap/geometry/contour';
import { FLATTEN_TOLERANCE_MM, flattenContour } from '@underlap/geometry/flatten';
import { offsetRegions } from '@underlap/geometry/offset';
import { type Region, regionArea, regionsArea } from '@underlap/geometry/region';
import { coverOf } from '@underlap/stack/cover';
import { type BuildPlace, gluedOnTopOf, type ThicknessOf } from '@underlap/stack/levels';
import type { Part, Sign } from '@underlap/stack/sign';

/** One tin of the shop. */
export interface Tin {
  readonly name: string;
  readonly colours: readonly Colour[];
  readonly coats: number;
  readonly squareMetresPerLitre: number;
  readonly pricePerLitre: number;
}

/** How the shop paints. */
export interface PaintHabits {
  readonly paints: readonly Tin[];
  readonly coats: number;
  readonly squareMetresPerLitre: number;
  /** Left in brush and tin, as a share of what is on the wood. */
  readonly paintLoss: number;
  readonly paintEdges: boolean;
  readonly paintBacks: boolean;
  /** How far bare faces stay inside the part that hides them, mm. */
  readonly bareInset: number;
}

/** Where the parts of a sign stand, and how thick they are. */
export interface PaintedSign {
  readonly sign: Sign;
  readonly places: readonly BuildPlace[];
  readonly thicknessOf: ThicknessOf;
}

/** One colour of one sign. */
export interface ColourPlan {
  /** null = left bare. */
  readonly colour: Colour | null;
  /** The tin; null when the shop names none for this colour, or nothing is painted. */
  readonly tin: string | null;
  readonly partIds: readonly string[];
  readonly coats: number;
  /** Faces that are painted, edges, backs; mm2, one coat. */
  readonly facesMm2: number;
  readonly edgesMm2: number;
  readonly backsMm2: number;
  /** What stays bare so that glue holds, mm2. */
  readonly bareMm2: number;
  /** All coats with what is lost, ml; 0 when nothing is painted. */
  readonly millilitres: number;
  readonly money: number;
}

/** The bare faces of one part: what is masked. */
export interface BareFace {
  readonly partId: string;
  readonly regions: readonly Region[];
  readonly areaMm2: number;
}

/** A burnt mark that paint would hide. */
export interface PaintedOverMark {
  readonly partId: string;
  readonly markId: string;
  /** How much of it lies on a painted face, mm. */
  readonly lengthMm: number;
}

export interface PaintPlan {
  /** Largest painted area first, bare parts last. */
  readonly colours: readonly ColourPlan[];
  readonly bare: readonly BareFace[];
  readonly paintedOver: readonly PaintedOverMark[];
  readonly millilitres: number;
  readonly money: number;
}

/** Shorter stretches of a mark on paint are a drawing's imprecision, mm. */
const LEAST_MARK_MM = 0.5;

/**
 * What one sign takes of every paint, which faces stay bare, and which drawn marks paint would hide.
 *
 * Millilitres = area x coats / coverage x (1 + loss). The bare face of a part is what is glued on it, kept `bareInset` inside so
 * that no bare rim shows; faces that are hidden but touched by nothing are left unpainted too, since nobody sees them.
 * @remarks One boolean a part.
 */
export function paintPlan(painted: PaintedSign, habits: PaintHabits): PaintPlan {
  const { sign } = painted;
  const bare = sign.parts.flatMap((part) => bareFace(part, habits, painted));
  const groups = new Map<Colour | null, Part[]>();
  for (const part of sign.parts) groups.set(part.paint, [...(groups.get(part.paint) ?? []), part]);
  const colours = [...groups]
    .map(([colour, parts]) => colourPlan(colour, parts, habits, painted))
    .sort((a, b) => Number(a.colour === null) - Number(b.colour === null) || b.facesMm2 - a.facesMm2);
  return {
    colours,
    bare,
    paintedOver: sign.parts.flatMap((part) => paintedOver(part, sign)),
    millilitres: colours.reduce((sum, plan) => sum + plan.millilitres, 0),
    money: colours.reduce((sum, plan) => sum + plan.money, 0),
  };
}

function colourPlan(
  colour: Colour | null,
  parts: readonly Part[],
  habits: PaintHabits,
  { sign, places, thicknessOf }: PaintedSign,
): ColourPlan {
  const tin = colour === null ? undefined : habits.paints.find((paint) => paint.colours.includes(colour));
  let facesMm2 = 0;
  let edgesMm2 = 0;
  let backsMm2 = 0;
  let bareMm2 = 0;
  for (const part of parts) {
    const face = regionArea(part.region);
    const hidden = regionsArea(intersectRegions([part.region], coverOf(sign, part.id)));
    facesMm2 += face - hidden;
    bareMm2 += hidden;
    if (habits.paintEdges) edgesMm2 += perimeter(part) * thicknessOf(part.id);
    if (habits.paintBacks) backsMm2 += face - gluedBack(places, part.id);
  }
  const coats = tin?.coats ?? habits.coats;
  const coverage = tin?.squareMetresPerLitre ?? habits.squareMetresPerLitre;
  const squareMetres = (facesMm2 + edgesMm2 + backsMm2) / 1e6;
  const millilitres = colour === null ? 0 : ((squareMetres * coats) / coverage) * (1 + habits.paintLoss) * 1000;
  return {
    colour,
    tin: tin?.name ?? null,
    partIds: parts.map((part) => part.id),
    coats: colour === null ? 0 : coats,
    facesMm2,
    edgesMm2: colour === null ? 0 : edgesMm2,
    backsMm2: colour === null ? 0 : backsMm2,
    bareMm2,
    millilitres,
    money: (millilitres / 1000) * (tin?.pricePerLitre ?? 0),
  };
}

function bareFace(part: Part, habits: PaintHabits, { places }: PaintedSign): BareFace[] {
  if (part.paint === null) return [];
  const glued = gluedOnTopOf(places, part.id).flatMap((contact) => contact.regions);
  if (glued.length === 0) return [];
  const inset = offsetRegions(unionRegions(glued), -habits.bareInset, FLATTEN_TOLERANCE_MM);
  const regions = intersectRegions([part.region], inset);
  const areaMm2 = regionsArea(regions);
  return areaMm2 < 1 ? [] : [{ partId: part.id, regions, areaMm2 }];
}

function paintedOver(part: Part, sign: Sign): PaintedOverMark[] {
  if (part.paint === null) return [];
  const face = subtractRegions([part.region], coverOf(sign, part.id));
  return part.marks.flatMap((mark) => {
    const lengthMm = mark.contours.reduce((sum, contour) => {
      const line = flattenContour(contour, FLATTEN_TOLERANCE_MM);
      const whole = contour.closed ? Float64Array.from([...line, line[0]!, line[1]!]) : line;
      return sum + clipPolyline(whole, false, face, 'inside').reduce((all, run) => all + polylineLength(run), 0);
    }, 0);
    return lengthMm < LEAST_MARK_MM ? [] : [{ partId: part.id, markId: mark.id, lengthMm }];
  });
}

function perimeter(part: Part): number {
  return [part.shape.outer, ...part.shape.holes].reduce((sum, contour) => sum + contourLength(contour), 0);
}

/** How much of a part's back lies on other parts, mm2. */
function gluedBack(places: readonly BuildPlace[], partId: string): number {
  const place = places.find((candidate) => candidate.part.id === partId);
  return (place?.gluedTo ?? []).reduce((sum, contact) => sum + contact.areaMm2, 0);
}
