import { regionArea } from '@underlap/geometry/region';
import type { BareStep, GuideInput, GuideSeam } from './guide-step.ts';

/**
 * Joining the pieces of every split part, bottom part first: in which order, how the knobs go in, where to clamp, what is glued behind.
 * Pieces are added one after another to what is joined already, the largest first.
 */
export function joinSteps(input: GuideInput): BareStep[] {
  return input.places.flatMap(({ part }) => {
    const pieces = input.pieces.get(part.id) ?? [];
    const seams = input.seams.get(part.id) ?? [];
    if (pieces.length < 2 || seams.length === 0) return [];
    const plates = input.plates.get(part.id) ?? [];
    const thickness = input.thicknessOf(part.id);
    const edges = seams.reduce((sum, seam) => sum + seam.lengthMm * thickness, 0);
    const backs = plates.reduce((sum, plate) => sum + regionArea(plate.region), 0);
    const numbers = pieces.map(({ number }) => number);
    const largest = pieces.reduce((best, next) => (regionArea(next.region) > regionArea(best.region) ? next : best));
    const isOfKnobs = seams.some(({ knobs }) => knobs.length > 0);
    return [
      {
        kind: 'join' as const,
        title: `Join ${part.name}: ${numbers.join(', ')}`,
        words: [
          `Lay ${largest.number} ${plates.length > 0 ? 'face down' : 'face up'} on a flat board with paper under the seams.`,
          ...inJoiningOrder(seams, largest.number).map(seamWords),
          ...plates.map(
            ({ number }) => `Glue plate ${number} over the seam on the back, and weigh it down until the glue has set.`,
          ),
          ...(plates.length > 0 ? [] : ['Weigh it down flat until the glue has set; wipe off what comes out.']),
        ],
        care: [isOfKnobs ? 'all knobs of a seam go in together' : 'the edges have to meet flush'],
        partIds: [part.id],
        numbers: [...numbers, ...plates.map(({ number }) => number)],
        glueMm2: edges + backs,
        down: [],
      },
    ];
  });
}

/** Seams in an order in which each joins on to what is joined already. */
function inJoiningOrder(seams: readonly GuideSeam[], first: string): GuideSeam[] {
  const joined = new Set([first]);
  const left = [...seams];
  const out: GuideSeam[] = [];
  while (left.length > 0) {
    const at = Math.max(
      0,
      left.findIndex(({ numbers }) => numbers.some((number) => joined.has(number))),
    );
    const [seam] = left.splice(at, 1);
    for (const number of seam!.numbers) joined.add(number);
    out.push(seam!);
  }
  return out;
}

function seamWords(seam: GuideSeam): string {
  const [a, b] = seam.numbers;
  const owners = [...new Set(seam.knobs.map(({ of }) => of))];
  const isUndercut = seam.knobs.some((knob) => knob.isUndercut);
  const count = `${seam.knobs.length} ${seam.knobs.length === 1 ? 'knob' : 'knobs'}`;
  const way = isUndercut
    ? 'straight down from above, they do not slide in from the side'
    : 'from the side or from above';
  const how =
    seam.knobs.length === 0
      ? `push the edges of ${a} and ${b} together`
      : owners.length === 1
        ? `the ${count} of ${owners[0]} ${seam.knobs.length === 1 ? 'goes' : 'go'} into ${owners[0] === a ? b : a}, ${way}`
        : `${a} and ${b} have knobs each, ${count} in all: they go in together, ${way}`;
  const shows =
    seam.visibleMm > 0.5 ? ` ${seam.visibleMm.toFixed(0)} mm of it will show: press until it is flush.` : '';
  return `Seam ${seam.label}, letters on both sides: glue the edges; ${how}. Clamp ${clampWords(seam)}.${shows}`;
}

/** Across the seam, as seen with the sign upright. */
export function clampWords({ from, to }: Pick<GuideSeam, 'from' | 'to'>): string {
  const angle = (Math.atan2(to.y - from.y, to.x - from.x) * 180) / Math.PI;
  const turn = ((angle % 180) + 180) % 180;
  if (turn < 22.5 || turn > 157.5) return 'from above and below';
  if (turn > 67.5 && turn < 112.5) return 'from the left and the right';
  return turn < 90 ? 'from the upper right and the lower left' : 'from the upper left and the lower right';
}
