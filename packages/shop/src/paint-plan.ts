import type { Colour } from '@underlap/artwork/drawing';
import { intersectRegions, subtractRegions } from '@underlap/geometry/boolean';
import { clipPolyline } from '@underlap/geometry/clip-polyline';
import { contourLength } from '@underlap/geometry/contour';
import { FLATTEN_TOLERANCE_MM, flattenContour } from '@underlap/geometry/flatten';
import { offsetRegions } from '@underlap/geometry/offset';
import { type Region, regionArea, regionsArea } from '@underlap/geometry/region';
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

/** What is known of where parts touch. */
export interface Contacts {
  /** What is glued on top of a part, as regions in the sign's frame. */
  readonly topOf: (partId: string) => readonly Region[];
  /** What hides a part's face in the finished sign. */
  readonly coverOf: (partId: string) => readonly Region[];
  /** Where a part's back lies on others. */
  readonly backOf: (partId: string) => readonly Region[];
  readonly thicknessOf: (partId: string) => number;
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
export function paintPlan(sign: Sign, habits: PaintHabits, contacts: Contacts): PaintPlan {
  const bare = sign.parts.flatMap((part) => bareFace(part, habits, contacts));
  const groups = new Map<Colour | null, Part[]>();
  for (const part of sign.parts) groups.set(part.paint, [...(groups.get(part.paint) ?? []), part]);
  const colours = [...groups]
    .map(([colour, parts]) => colourPlan(colour, parts, habits, contacts))
    .sort((a, b) => Number(a.colour === null) - Number(b.colour === null) || b.facesMm2 - a.facesMm2);
  return {
    colours,
    bare,
    paintedOver: sign.parts.flatMap((part) => paintedOver(part, contacts)),
    millilitres: colours.reduce((sum, plan) => sum + plan.millilitres, 0),
    money: colours.reduce((sum, plan) => sum + plan.money, 0),
  };
}

function colourPlan(
  colour: Colour | null,
  parts: readonly Part[],
  habits: PaintHabits,
  contacts: Contacts,
): ColourPlan {
  const tin = colour === null ? undefined : habits.paints.find((paint) => paint.colours.includes(colour));
  let facesMm2 = 0;
  let edgesMm2 = 0;
  let backsMm2 = 0;
  let bareMm2 = 0;
  for (const part of parts) {
    const face = regionArea(part.region);
    const hidden = regionsArea(intersectRegions([part.region], [...contacts.coverOf(part.id)]));
    facesMm2 += face - hidden;
    bareMm2 += hidden;
    if (habits.paintEdges) edgesMm2 += perimeter(part) * contacts.thicknessOf(part.id);
    if (habits.paintBacks) backsMm2 += face - regionsArea(contacts.backOf(part.id));
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

function bareFace(part: Part, habits: PaintHabits, contacts: Contacts): BareFace[] {
  if (part.paint === null) return [];
  const top = contacts.topOf(part.id);
  if (top.length === 0) return [];
  const inset = offsetRegions([...top], -habits.bareInset);
  const regions = intersectRegions([part.region], inset);
  const areaMm2 = regionsArea(regions);
  return areaMm2 < 1 ? [] : [{ partId: part.id, regions, areaMm2 }];
}

function paintedOver(part: Part, contacts: Contacts): PaintedOverMark[] {
  if (part.paint === null) return [];
  const painted = subtractRegions([part.region], [...contacts.coverOf(part.id)]);
  return part.marks.flatMap((mark) => {
    const lengthMm = mark.contours.reduce((sum, contour) => {
      const line = flattenContour(contour, FLATTEN_TOLERANCE_MM);
      const whole = contour.closed ? Float64Array.from([...line, line[0]!, line[1]!]) : line;
      return sum + clipPolyline(whole, false, painted, 'inside').reduce((all, run) => all + polylineLength(run), 0);
    }, 0);
    return lengthMm < LEAST_MARK_MM ? [] : [{ partId: part.id, markId: mark.id, lengthMm }];
  });
}

function perimeter(part: Part): number {
  return [part.shape.outer, ...part.shape.holes].reduce((sum, contour) => sum + contourLength(contour), 0);
}

function polylineLength(line: Float64Array): number {
  let sum = 0;
  for (let i = 2; i < line.length; i += 2) sum += Math.hypot(line[i]! - line[i - 2]!, line[i + 1]! - line[i - 1]!);
  return sum;
}
