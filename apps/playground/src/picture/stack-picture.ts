import type { ArtworkView, Spot, StackView } from '../workers/views.ts';
import type { Ink, Picture, Thing } from './ink.ts';
import type { PictureWords } from './picture-words.ts';
import { frameOf, markTint, partInk, thingOf } from './pictures.ts';
import { sectionInks } from './section-picture.ts';

export interface StackLook {
  /** How many layers are peeled off the top. */
  readonly peeled: number;
  /** 0 = assembled, 1 = every layer apart. */
  readonly apart: number;
  readonly showsGuides: boolean;
  /** Which section is drawn below the sign; null = none. Only the assembled sign has one. */
  readonly section?: number | null;
}

/** How far the edge of a part throws its shade, as a share of its thickness: light from the upper left. */
const SHADE_STEPS = [0.55, 0.28] as const;
/** More parts than this throw one shade each, for the sake of speed. */
const SOFT_SHADES = 200;

/** The sign assembled, with layers peeled off, or pulled apart upwards; edges throw a soft shade as thick as they are. */
export function stackPicture(
  artwork: ArtworkView,
  stack: StackView,
  look: StackLook,
  selected: string | null,
  words: PictureWords,
): Picture {
  const shown = artwork.parts.slice(0, Math.max(artwork.parts.length - look.peeled, 1));
  const frame = frameOf(artwork);
  const layers = new Map(stack.layers.map((layer) => [layer.partId, layer]));
  const lift = (frame.maxY - frame.minY) * 0.42 * look.apart;
  const shades = shown.length > SOFT_SHADES ? SHADE_STEPS.slice(0, 1) : SHADE_STEPS;
  const inks: Ink[] = [];
  const things: Thing[] = [];
  for (const part of shown) {
    const layer = layers.get(part.id);
    const dy = -lift * (layer?.level ?? 0);
    const spot = { x: 0, y: dy, turnDeg: 0, mirrored: false };
    inks.push(...shades.map((share) => shade(part.d, spot, share * (layer?.thicknessMm ?? 0))));
    inks.push(...partInk(part, selected).map((ink) => ({ ...ink, spot })));
    if (look.showsGuides) {
      inks.push(
        ...(layer?.guides ?? []).map(
          (d): Ink => ({ d, spot, stroke: markTint(part.paint), widthPx: 1, dashPx: [3, 3] }),
        ),
      );
    }
    if (layer !== undefined && layer.fault !== null) {
      inks.push(...layer.fillers.map((d): Ink => ({ d, spot, fill: 'look', alpha: 0.25 })));
      inks.push({ d: part.d, spot, stroke: 'look', widthPx: 2, dashPx: [8, 5] });
    }
    const thing = thingOf(part, words);
    things.push({ ...thing, box: { ...thing.box, minY: thing.box.minY + dy, maxY: thing.box.maxY + dy } });
  }
  const highest = Math.max(0, ...shown.map((part) => layers.get(part.id)?.level ?? 0));
  const bounds = { ...frame, minY: frame.minY - lift * highest };
  const section = look.apart > 0 ? undefined : stack.sections[look.section ?? -1];
  if (section === undefined) return { bounds, inks, captions: [], things };
  const below = sectionInks(artwork, stack, section, frame);
  return { bounds: { ...bounds, maxY: below.groundY }, inks: [...inks, ...below.inks], captions: [], things };
}

function shade(d: string, spot: Spot, reachMm: number): Ink {
  return { d, spot: { ...spot, x: spot.x + reachMm * 0.6, y: spot.y + reachMm }, fill: 'shade', alpha: 0.16 };
}
