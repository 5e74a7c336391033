import type { ArtworkView, SectionView, StackView } from '../workers/views.ts';
import { type Ink, rectanglePath } from './ink.ts';
import { paintOf } from './pictures.ts';

/** Between the sign and its section, as a share of the sign's height. */
const GAP_SHARE = 0.06;

/** Which cut tells most: the one through parts that hang in the air, else through most parts. */
export function tellingSection(stack: StackView): number {
  const faulty = new Set(stack.layers.flatMap((layer) => (layer.fault === null ? [] : [layer.partId])));
  const worth = ({ spans }: SectionView): number => {
    const parts = new Set(spans.map((span) => span.partId));
    return [...parts].filter((id) => faulty.has(id)).length * stack.layers.length + parts.size;
  };
  return stack.sections.reduce((best, section, index) => {
    const now = stack.sections[best];
    return now === undefined || worth(section) > worth(now) ? index : best;
  }, 0);
}

/** The cut as a line on the sign, and the section below it to the same scale: wood as high as it is thick. */
export function sectionInks(
  artwork: ArtworkView,
  stack: StackView,
  section: SectionView,
  frame: { minX: number; maxX: number; minY: number; maxY: number },
): { readonly inks: readonly Ink[]; readonly groundY: number } {
  const gap = (frame.maxY - frame.minY) * GAP_SHARE;
  const groundY = frame.maxY + gap + stack.heightMm;
  const parts = new Map(artwork.parts.map((part) => [part.id, part]));
  const layers = new Map(stack.layers.map((layer) => [layer.partId, layer]));
  const cut = `M${frame.minX - gap / 2} ${section.y}H${frame.maxX + gap / 2}`;
  const voids: Ink[] = [];
  const wood: Ink[] = [];
  for (const { partId, from, to } of section.spans) {
    const layer = layers.get(partId);
    const part = parts.get(partId);
    if (layer === undefined || part === undefined) continue;
    const top = groundY - layer.bottomMm - layer.thicknessMm;
    const isFaulty = layer.fault !== null && layer.fault !== 'tips';
    // air below a part that hangs: what lies there is drawn over it
    if (isFaulty) {
      voids.push({
        d: rectanglePath(from, top, to - from, layer.bottomMm + layer.thicknessMm),
        fill: 'look',
        alpha: 0.3,
      });
    }
    wood.push({
      d: rectanglePath(from, top, to - from, layer.thicknessMm),
      fill: paintOf(part.paint),
      stroke: isFaulty ? 'look' : 'glass',
      widthPx: isFaulty ? 2.5 : 0.8,
    });
  }
  const ground = `M${frame.minX - gap / 2} ${groundY}H${frame.maxX + gap / 2}`;
  return {
    inks: [
      { d: cut, stroke: 'card', widthPx: 4, alpha: 0.8 },
      { d: cut, stroke: 'number', widthPx: 1.5, dashPx: [10, 5, 2, 5] },
      ...voids,
      ...wood,
      { d: ground, stroke: 'soft', widthPx: 1.5 },
    ],
    groundY,
  };
}
