import type { Complaint, Drawing } from '@underlap/artwork/drawing';
import { unionRegions } from '@underlap/geometry/boolean';
import { shapeArea } from '@underlap/geometry/contour';
import { type Region, regionArea, regionsArea } from '@underlap/geometry/region';
import type { Job } from '@underlap/job/document';
import { thicknessesOf } from '@underlap/job/thickness';
import { contactBetween, partsOn } from '@underlap/stack/cover';
import { fillerRegions } from '@underlap/stack/fillers';
import { guidesOf } from '@underlap/stack/guides';
import { type BuildPlace, buildPlaces, gluedOnTopOf } from '@underlap/stack/levels';
import type { Part, Sign } from '@underlap/stack/sign';
import { supportsOf } from '@underlap/stack/support';
import type { ArtworkView, LayerView, PartView, StackView } from '../workers/views.ts';
import { contoursPath, polylinePath, regionPath, shapeBox, shapePath } from './outline-views.ts';
import { sectionsOf } from './section-views.ts';

/** A smaller overlap is a touching edge, not something hidden, mm2. */
const LEAST_HIDDEN_MM2 = 1;

export function artworkView(drawing: Drawing, sign: Sign): ArtworkView {
  const isKnown = drawing.size.kind === 'known';
  return {
    name: drawing.name,
    format: drawing.format,
    mode: sign.mode,
    size: drawing.size,
    widthMm: isKnown ? drawing.size.widthMm : sign.widthMm,
    heightMm: isKnown ? drawing.size.heightMm : sign.heightMm,
    parts: sign.parts.map(partView),
    uses: sign.uses,
    repairs: sign.repairs,
    complaints: sign.complaints,
    matches: sign.matches,
  };
}

/** What is left out of what is cut wants to be looked at, however lightly the reader told it, and after it was accepted too. */
export function withLosses(view: ArtworkView, lost: readonly Complaint[]): ArtworkView {
  const urgent = new Set(lost);
  const raised = (told: Complaint): Complaint =>
    told.severity === 'note' && urgent.has(told) ? { ...told, severity: 'warning' } : told;
  return { ...view, complaints: view.complaints.map(raised) };
}

function partView(part: Part): PartView {
  return {
    id: part.id,
    name: part.name,
    layer: part.layer,
    paint: part.paint,
    d: shapePath(part.shape),
    box: shapeBox(part.shape),
    areaMm2: shapeArea(part.shape),
    holes: part.shape.holes.length,
    drawnAt: part.drawnAt.element,
    isAssembled: part.place === 'assembled',
    marks: part.marks.map((mark) => ({ d: contoursPath(mark.contours), process: mark.process })),
  };
}

/**
 * What lies on what and how high, how much of each part that hides, and the guides that are burnt for it.
 * @param isWhole - false: without guides, fillers and hidden shares, which take most of the time. A large sign is shown so first.
 */
export function stackView(sign: Sign, job: Job, isWhole = true): StackView {
  const guides = isWhole && job.marks.guides ? guidesOf(sign, job.marks.guideInset) : [];
  const thicknessOf = thicknessesOf(sign, job);
  const places = buildPlaces(sign, thicknessOf);
  const supports = supportsOf(places);
  return {
    heightMm: Math.max(0, ...places.map(({ part, bottomMm }) => bottomMm + thicknessOf(part.id))),
    sections: sectionsOf(sign),
    layers: places.map((place, index) => {
      const { fault } = supports[index]!;
      const isHanging = fault === 'rests-on-sliver' || fault === 'hangs';
      const { id } = place.part;
      return {
        ...layerView(sign, place, guides, isWhole),
        thicknessMm: thicknessOf(id),
        carries: gluedOnTopOf(places, id).map((contact) => contact.partId),
        fault,
        fillers: isWhole && isHanging ? fillerRegions(places, id, thicknessOf(id)).map(regionPath) : [],
      };
    }),
  };
}

function layerView(
  sign: Sign,
  { part, level, bottomMm, gluedTo }: BuildPlace,
  guides: ReturnType<typeof guidesOf>,
  isWhole: boolean,
): Omit<LayerView, 'thicknessMm' | 'carries' | 'fault' | 'fillers'> {
  const above = partsOn(sign, part.id).map((upper) => ({ id: upper.id, regions: contactBetween(part, upper) }));
  return {
    partId: part.id,
    level,
    bottomMm,
    gluedTo: gluedTo.map(({ partId, areaMm2 }) => ({ partId, areaMm2 })),
    coveredBy: above.filter(({ regions }) => regionsArea(regions) > LEAST_HIDDEN_MM2).map(({ id }) => id),
    hiddenShare: isWhole
      ? hiddenShareOf(
          part,
          above.flatMap(({ regions }) => regions),
        )
      : null,
    guides: guides
      .filter((guide) => guide.onPartId === part.id)
      .flatMap((guide) => guide.lines.map((line) => polylinePath(line, false))),
  };
}

function hiddenShareOf(part: Part, shared: readonly Region[]): number {
  const hidden = regionsArea(shared.length < 2 ? shared : unionRegions(shared));
  return Math.min(hidden / regionArea(part.region), 1);
}
