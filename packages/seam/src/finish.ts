import type { Shape } from '@underlap/geometry/curve';
import type { Point } from '@underlap/geometry/point';
import { regionArea } from '@underlap/geometry/region';
import type { CutEnd } from './arrangement.ts';
import { type Assembly, assemble, type SeamMeasures } from './assemble.ts';
import type { PartFields, SeamGround } from './fields.ts';
import { locks } from './knob-kinds.ts';
import { chipsIn, crumbsIn } from './mend.ts';
import { type Placed, placeKnobs } from './place-knobs.ts';
import { splicePlates } from './plates.ts';
import { type CutPlan, facesOf } from './search-ground.ts';
import type { SeamSizes } from './sizes.ts';
import { spineSamples } from './spine.ts';
import type { Seam, SeamRemark, SeamTask, SplitPlan } from './task.ts';

/** A finished plan with what it is judged by. */
export interface PlannedPlan {
  readonly plan: SplitPlan;
  readonly cutPlan: CutPlan;
  /** Seams long enough for a knob that have none. */
  readonly bareSeams: number;
  /** Least over the seams of knob necks per mm of seam, plus half the share that glued parts hold. */
  readonly strength: number;
  /** Pieces far smaller than an even share. */
  readonly chips: number;
  /** Those of them that are next to nothing. */
  readonly crumbs: number;
  /** Pins that no seam passes. */
  readonly missedPins: number;
}

/** Seams shorter than this need no knob, mm. */
const LONG_SEAM_MM = 40;

/** A seam passes a pin when it comes this near, mm. */
const PIN_MM = 5;

/** Knobs, exact pieces, figures and remarks for a tree of cuts; null when the pieces cannot be made to fit with their knobs. */
export function finishPlan(
  task: SeamTask,
  shape: Shape,
  ground: SeamGround,
  fine: PartFields,
  sizes: SeamSizes,
  cutPlan: CutPlan,
  measures: SeamMeasures,
): PlannedPlan | null {
  const { cuts } = cutPlan;
  let placed: Placed | null = null;
  let made: Assembly | null = null;
  for (const harder of [0, 1] as const) {
    placed = placeKnobs(task, ground, fine, cuts, shape, sizes, harder);
    made = assemble(task, shape, cuts, placed.knobs, measures);
    if (made.tooLarge.length === 0) break;
  }
  if (made === null || placed === null) return null;
  if (made.tooLarge.length > 0) {
    made = assemble(
      task,
      shape,
      cuts,
      cuts.map(() => []),
      measures,
    );
    if (made.tooLarge.length > 0) return null;
  }
  if (made.pieces.length !== facesOf(shape, cuts).length) return null;
  const { pieces, seams } = made;
  const areas = pieces.map((piece) => regionArea(piece.region));
  const total = areas.reduce((sum, area) => sum + area, 0);
  const necks = seams.filter((seam) => seam.knobs.length > 0).map((seam) => seam.neckMm);
  const visibleLengthMm = seams.reduce((sum, seam) => sum + seam.lengthMm - seam.hiddenLengthMm, 0);
  const plan: SplitPlan = {
    id: 'plan',
    merits: [],
    provenFewest: false,
    pieces,
    seams,
    visibleLengthMm,
    ledLengthMm: seams.reduce((sum, seam) => sum + seam.ledLengthMm, 0),
    hiddenLengthMm: seams.reduce((sum, seam) => sum + seam.hiddenLengthMm, 0),
    heldLengthMm: seams.reduce((sum, seam) => sum + seam.heldLengthMm, 0),
    leastNeckMm: necks.length > 0 ? Math.min(...necks) : 0,
    balance: Math.min(...areas) / (total / pieces.length),
    plates: [],
    remarks: [],
  };
  const bareSeams = seams.filter((seam) => seam.knobs.length === 0 && seam.lengthMm > LONG_SEAM_MM).length;
  const missedPins = task.wishes.pins.filter((pin) => !passes(cutPlan, pin)).length;
  const strength = Math.min(...seams.map(strengthOf));
  return { plan, cutPlan, bareSeams, strength, chips: chipsIn(areas), crumbs: crumbsIn(areas), missedPins };
}

/** The plan with its rear plates, and with remarks on its seams: what only plans that are offered need. */
export function withPlates(task: SeamTask, entry: PlannedPlan, sizes: SeamSizes): PlannedPlan {
  const { plan, cutPlan } = entry;
  const plates = splicePlates(task, plan.seams, sizes);
  const remarks = [...remarksOn(task, plan.seams, cutPlan, plates.length), ...plan.remarks];
  return { ...entry, plan: { ...plan, plates, remarks } };
}

function strengthOf(seam: Seam): number {
  const locking = seam.knobs.filter(locks);
  const necks = locking.reduce((sum, knob) => sum + knob.neck, 0);
  return necks / seam.lengthMm + (0.5 * seam.heldLengthMm) / seam.lengthMm;
}

function passes(cutPlan: CutPlan, pin: Point): boolean {
  return cutPlan.cuts.some(({ spine }) => {
    const samples = spineSamples(spine, 1);
    for (let k = 0; k < samples.length; k += 3) {
      if (Math.hypot(samples[k + 1]! - pin.x, samples[k + 2]! - pin.y) <= PIN_MM) return true;
    }
    return false;
  });
}

function remarksOn(task: SeamTask, seams: readonly Seam[], cutPlan: CutPlan, plates: number): SeamRemark[] {
  const out: SeamRemark[] = [];
  for (const seam of seams) {
    const at = middleOf(seam);
    const place = placeWords(at);
    if (seam.knobs.length === 0) {
      const isNarrow = seam.lengthMm <= LONG_SEAM_MM;
      const why = isNarrow ? `the wood is only ${seam.lengthMm.toFixed(0)} mm wide there` : 'none finds room there';
      const message = `Seam ${seam.id} at ${place} is a plain butt joint, without knobs: ${why}. Glue alone holds it.`;
      out.push({ code: 'no-knob', message, at });
    } else if (!seam.knobs.some(locks)) {
      const message = `Seam ${seam.id} at ${place} is only stepped: no locking knob finds room; glue must hold it.`;
      out.push({ code: 'stepped', message, at });
    }
    const locking = seam.knobs.filter(locks);
    if (locking.length === 1 && seam.lengthMm > LONG_SEAM_MM) {
      const { centre } = locking[0]!;
      const message = `Seam ${seam.id} at ${placeWords(centre)} is weak: one knob holds its ${seam.lengthMm.toFixed(0)} mm.`;
      out.push({ code: 'one-knob', message, at: centre });
    }
    const visible = seam.lengthMm - seam.hiddenLengthMm;
    if (visible > 1 && seam.visible.length > 0) {
      const spot = pointAlong(
        seam,
        seam.visible.reduce((a, b) => (b[1] - b[0] > a[1] - a[0] ? b : a)),
      );
      const help = plates > 0 ? 'add the rear plate' : 'enlarge a part above it';
      const led = seam.ledLengthMm > 1 ? ` (${seam.ledLengthMm.toFixed(0)} mm of it along a drawn line)` : '';
      const message = `${visible.toFixed(0)} mm of seam ${seam.id} stays visible at ${placeWords(spot)}${led}: extend the cover or ${help}.`;
      out.push({ code: 'visible', message, at: spot });
    }
  }
  for (const pin of task.wishes.pins) {
    if (!passes(cutPlan, pin)) {
      out.push({ code: 'pin-missed', message: `No seam of this plan passes the pin at ${placeWords(pin)}.`, at: pin });
    }
  }
  if (cutPlan.cuts.some(({ from, to }) => isOnOpening(from) || isOnOpening(to))) {
    out.push({ code: 'through-opening', message: 'A seam runs through an opening of the part.', at: null });
  }
  return out;
}

function isOnOpening(end: CutEnd): boolean {
  return end.kind === 'outline' && end.contour > 0;
}

function placeWords(at: Point): string {
  return `${at.x.toFixed(0)}, ${at.y.toFixed(0)}`;
}

function middleOf(seam: Seam): Point {
  return pointAlong(seam, [0, seam.lengthMm]);
}

/** The end of the segment nearest to the middle of a stretch of the path: near enough to find the place. */
function pointAlong(seam: Seam, [from, to]: readonly [number, number]): Point {
  const { segments, start } = seam.path;
  let gone = 0;
  let last = start;
  for (const segment of segments) {
    const size =
      segment.kind === 'arc'
        ? segment.radius * Math.abs(segment.sweep)
        : Math.hypot(segment.to.x - last.x, segment.to.y - last.y);
    if (gone + size >= (from + to) / 2) {
      const u = size > 0 ? ((from + to) / 2 - gone) / size : 0;
      return { x: last.x + u * (segment.to.x - last.x), y: last.y + u * (segment.to.y - last.y) };
    }
    gone += size;
    last = segment.to;
  }
  return last;
}
