import type { Colour } from '@underlap/artwork/drawing';
import { regionArea } from '@underlap/geometry/region';
import { glueMl } from './glue.ts';
import type { BareStep, GuideInput, GuideStep } from './guide-step.ts';
import { joinSteps } from './join-step.ts';
import { type LaidPart, layOrder } from './lay-order.ts';

/** A glue that sets sooner leaves no time to shift a part, seconds (common practice, no source: a fast glue sets within half a minute). */
const FAST_SECONDS = 60;

/** Parts larger than this are hard to lower truly, mm2 (common practice, no source). */
const LARGE_MM2 = 15_000;

/**
 * The steps in which one sign is built: halves are joined, parts painted (where that is done before), then laid from the ground up.
 * @returns steps in order. Parts of unknown place come in none of them.
 */
export function buildGuide(input: GuideInput): GuideStep[] {
  const joins = joinSteps(input).map((step) => finished(step, input));
  const lay = laySteps(input).map((step) => finished(step, input));
  const paint = paintStep(input);
  return input.painted === 'before' ? [...joins, ...paint, ...lay] : [...joins, ...lay, ...paint];
}

/** Glue is spread on some area; says how much of it, and what a fast one means. */
function finished(step: BareStep, { glue }: GuideInput): GuideStep {
  const isHasty = step.care.length > 0 && glue.opensSeconds <= FAST_SECONDS;
  const ml = glueMl(step.glueMm2, glue);
  const amount =
    ml > 0
      ? [`Glue: ${glueWords(ml)} of ${glue.name}${step.numbers.length > 1 && step.kind === 'lay' ? ' in all' : ''}.`]
      : [];
  const time =
    step.care.length === 0
      ? []
      : isHasty
        ? [
            `Align first: ${glue.name} sets within ${glue.opensSeconds} seconds. Lay it dry, mark or hold a stop against it, then glue, lower it once and do not shift it.`,
          ]
        : [`Align it while the glue is open, about ${timeWords(glue.opensSeconds)}.`];
  return { ...step, words: [...step.words, ...amount, ...time], glueMl: ml, isHasty };
}

/** "0.4 ml (8 drops)" */
function glueWords(ml: number): string {
  const drops = Math.max(1, Math.round(ml * DROPS_PER_ML));
  return ml < 2
    ? `${ml < 0.1 ? 'less than 0.1' : `about ${ml.toFixed(1)}`} ml (${drops} ${drops === 1 ? 'drop' : 'drops'})`
    : `about ${ml.toFixed(0)} ml`;
}

/** Value from memory: twenty drops to the millilitre. */
const DROPS_PER_ML = 20;

function timeWords(seconds: number): string {
  return seconds < 120 ? `${seconds} seconds` : `${Math.round(seconds / 60)} minutes`;
}

function laySteps(input: GuideInput): BareStep[] {
  const classOf = (id: string) => input.equals.get(id) ?? id;
  const order = layOrder(input.places, classOf);
  const groups: LaidPart[][] = [];
  for (const laid of order) {
    const group = groups.at(-1);
    const first = group?.[0];
    const isSame = first !== undefined && isOneStep(first, laid, classOf);
    if (isSame) group!.push(laid);
    else groups.push([laid]);
  }
  const down: string[] = [];
  const unmasked = new Set<string>();
  return groups.map((group) => {
    const step = layStep(group, [...down], input, unmasked);
    down.push(...group.map(({ place }) => place.part.id));
    return step;
  });
}

/** Equal pieces of one height and colour, none against another, are one step. */
function isOneStep(a: LaidPart, b: LaidPart, classOf: (id: string) => string): boolean {
  return (
    classOf(a.place.part.id) === classOf(b.place.part.id) &&
    a.place.part.paint === b.place.part.paint &&
    a.place.level === b.place.level &&
    a.beside.length + b.beside.length === 0
  );
}

function layStep(
  group: readonly LaidPart[],
  down: readonly string[],
  input: GuideInput,
  unmasked: Set<string>,
): BareStep {
  const parts = group.map(({ place }) => place.part);
  const [first] = group as [LaidPart, ...LaidPart[]];
  const numbers = parts.flatMap((part) => numbersOf(part.id, input));
  const glueMm2 = group.reduce((sum, { place }) => sum + place.gluedTo.reduce((own, one) => own + one.areaMm2, 0), 0);
  const onto = [...new Set(group.flatMap(({ place }) => place.gluedTo.map(({ partId }) => partId)))];
  const isGround = onto.length === 0;
  const named = parts.length === 1 ? first.place.part.name : `${parts.length} equal parts (${first.place.part.name})`;
  const isWhole = numbers.length === parts.length;
  const what =
    parts.length === 1
      ? withNumber(parts[0]!.id, input)
      : isWhole
        ? `${listOf(numbers)}, all alike,`
        : `${listOf(parts.map((part) => withNumber(part.id, input)))}, alike,`;
  const guided = parts.filter((part) => input.guided.has(part.id));
  const words = [
    isGround
      ? `Lay ${what} face up on a flat board.`
      : `Glue ${what} onto ${listOf(onto.map((id) => withNumber(id, input)))}.`,
    ...(isGround
      ? []
      : guided.length === parts.length
        ? [`${parts.length === 1 ? 'Its place is' : 'Their places are'} inside the burnt line, which vanishes below.`]
        : guided.length > 0
          ? [`Burnt lines show the places of ${listOf(guided.flatMap((part) => numbersOf(part.id, input)))}.`]
          : []),
    ...group.flatMap(({ beside, isEnclosed, place }) =>
      isEnclosed
        ? [
            `${withNumber(place.part.id, input)} goes straight down between ${listOf(beside.map((id) => withNumber(id, input)))}: try it dry.`,
          ]
        : [],
    ),
    ...maskWords(onto, input, unmasked),
  ];
  return {
    kind: 'lay',
    title: isGround ? `Lay ${named} down` : `Glue on ${named}`,
    words,
    care: isGround && group.length === 1 ? [] : careOf(group, input),
    partIds: parts.map((part) => part.id),
    numbers,
    glueMm2,
    down,
  };
}

/** Why a part has to be aligned with care. */
function careOf(group: readonly LaidPart[], input: GuideInput): string[] {
  const reasons = new Set<string>();
  for (const { place, beside, isEnclosed } of group) {
    const { part, gluedTo } = place;
    if (gluedTo.length === 0) continue;
    if (!input.guided.has(part.id))
      reasons.add('no line shows its place: measure from the edges, or lay it by the picture');
    if (isEnclosed) reasons.add('it fits between parts that are down');
    else if (beside.length > 0) reasons.add(`an even gap to ${listOf(beside.map((id) => withNumber(id, input)))}`);
    if (gluedTo.length > 1) reasons.add(`it rests on ${gluedTo.length} parts at once`);
    if (regionArea(part.region) > LARGE_MM2) reasons.add('it is large: lower it along one edge');
  }
  return [...reasons];
}

/** Masks come off a part before the first glue comes on it. @param unmasked - parts whose masks are off; added to. */
function maskWords(onto: readonly string[], input: GuideInput, unmasked: Set<string>): string[] {
  if (input.painted === 'after') return [];
  const masked = onto.filter((id) => !unmasked.has(id) && input.paint.bare.some(({ partId }) => partId === id));
  for (const id of masked) unmasked.add(id);
  return masked.length === 0
    ? []
    : [`First take the mask off ${listOf(masked.map((id) => withNumber(id, input)))}: glue holds on bare wood.`];
}

/** Where the masks come from. */
const MASK_WORDS: Readonly<Record<GuideInput['masks'], string>> = {
  none: ', a little inside the burnt lines',
  score: ', by the mask files: film on the piece, scored, and taken off where paint goes',
  stencil: ', with the masks cut from the mask files',
};

/** What is painted, colour by colour. */
function paintStep(input: GuideInput): GuideStep[] {
  const { paint, painted, masks, places } = input;
  const colours = paint.colours.filter((plan): plan is typeof plan & { colour: Colour } => plan.colour !== null);
  if (colours.length === 0) return [];
  const partIds = colours.flatMap((plan) => plan.partIds);
  const isPainted = new Set(partIds);
  const bare = paint.bare.filter(({ partId }) => isPainted.has(partId)).map(({ partId }) => withNumber(partId, input));
  const lines = colours.map(
    (plan) =>
      `${plan.tin ?? plan.colour}: ${listOf(plan.partIds.flatMap((id) => numbersOf(id, input)))}, ${plan.coats} ${plan.coats === 1 ? 'coat' : 'coats'}, ${plan.millilitres.toFixed(plan.millilitres < 10 ? 1 : 0)} ml.`,
  );
  return [
    {
      kind: 'paint',
      title: painted === 'before' ? 'Paint the parts' : 'Paint the finished sign',
      words: [
        ...lines,
        ...(painted === 'before' && bare.length > 0
          ? [
              `Mask first what stays bare so that glue holds, pale in the picture, on ${listOf(bare)}${MASK_WORDS[masks]}.`,
            ]
          : []),
        ...(painted === 'after' ? ['Let the glue set first.'] : []),
      ],
      care: [],
      isHasty: false,
      partIds,
      numbers: partIds.flatMap((id) => numbersOf(id, input)),
      glueMl: 0,
      glueMm2: 0,
      down: painted === 'before' ? [] : places.map(({ part }) => part.id),
    },
  ];
}

function numbersOf(partId: string, { pieces }: Pick<GuideInput, 'pieces'>): string[] {
  return (pieces.get(partId) ?? []).map(({ number }) => number);
}

/** "banner (7)", "backer (1a, 1b)" */
function withNumber(partId: string, input: Pick<GuideInput, 'pieces' | 'places'>): string {
  const name = input.places.find(({ part }) => part.id === partId)?.part.name ?? partId;
  const numbers = numbersOf(partId, input);
  return numbers.length === 0 ? name : `${name} (${numbers.join(', ')})`;
}

function listOf(names: readonly string[]): string {
  return names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}
