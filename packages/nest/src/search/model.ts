import { intersectRegions } from '@underlap/geometry/boolean';
import { distancePointToRing } from '@underlap/geometry/distance';
import { placementMatrix } from '@underlap/geometry/matrix';
import { type Region, regionArea } from '@underlap/geometry/region';
import { type Ring, ringBounds, ringPerimeter } from '@underlap/geometry/ring';
import { FieldStore } from '../field/field-store.ts';
import { erodedRegion } from '../nfp/eroded.ts';
import { type NoFit, noFit, normalTurn } from '../nfp/no-fit.ts';
import { NoFitCache, type ShapeId } from '../nfp/no-fit-cache.ts';
import { turnedRegion } from '../nfp/turned.ts';
import { innerCircles } from './inner-circles.ts';
import type { Obstacle, Pose, SearchInput } from './task.ts';

/** Bytes of lookup fields kept at most; beyond that all are dropped and rebuilt when asked for again. */
export const FIELD_BYTES_LIMIT = 256 * 1024 * 1024;

/** Pairs of forms and turns from which fields are made one by one: some 1 ms each, several seconds in all. */
const MANY_PAIRS = 6000;
/** Only where outlines have many corners; no-fit polygons of simple ones cost next to nothing. */
const MANY_CORNER_PAIRS = 4e6;
/**
 * Are there more pairs of forms and relative turns than a search has time to make fields for?
 * @param turns - relative turns that the poses of two forms may have.
 */
export function hasManyPairs(forms: readonly Region[], turns: number): boolean {
  const pairs = (forms.length * forms.length * turns) / 2;
  const corners = forms.reduce((sum, { outer }) => sum + outer.length / 2, 0);
  return pairs > MANY_PAIRS && (corners * corners * turns) / 2 > MANY_CORNER_PAIRS;
}

/** Most entries of the flat field table; above that (many shapes) a map is used. */
const FLAT_TABLE_LIMIT = 4_000_000;

/** A form with its frame moved to the middle of its bounding box, which keeps numbers small and turns compact. */
export interface ModelForm {
  readonly region: Region;
  /** The middle of the bounding box in the caller's frame. */
  readonly centreX: number;
  readonly centreY: number;
  readonly area: number;
  /** Area with half the clearance all round: what it takes up of a board. */
  readonly room: number;
  readonly diameter: number;
  /** Distance kept from pieces; obstacles have their own, pieces share the spacing. */
  readonly clearance: number;
}

/** One way to lie: form and turn, with the bounding box about the form's middle. */
export interface ModelPose {
  readonly form: number;
  readonly turn: number;
  readonly turnDeg: number;
  /** Made by the free-turn finisher: its fields are kept apart and without grids. */
  readonly isFree: boolean;
  readonly cos: number;
  readonly sin: number;
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/**
 * The shapes and poses of a search and their lookup fields, built when first asked for. Nothing here changes with the layout;
 * several layouts may share one model. Obstacles are forms behind those of the pieces, each with one pose.
 */
export class Model {
  readonly forms: readonly ModelForm[];
  readonly poses: ModelPose[];
  /** Poses each item may take, indices into `poses`. */
  readonly itemPoses: readonly Int32Array[];
  /** 1 for items that may take any turn. */
  readonly isFreeToTurn: Uint8Array;
  /** The one pose of each obstacle given, and where it lies. */
  readonly obstaclePoses: readonly { readonly pose: number; readonly x: number; readonly y: number }[];
  readonly fields = new FieldStore();
  /** Edges of all fields made so far: what making them has cost. */
  fieldEdgesMade = 0;
  /** More pairs and turns than a search has time to make fields for: each is made when a place that is looked at asks for it. */
  readonly hasManyPairs: boolean;
  readonly #noFits: NoFitCache;
  readonly #shapes: readonly ShapeId[];
  readonly #pieceForms: number;
  readonly #turns: number;
  readonly #relative: Int32Array;
  readonly #turnCount: number;
  readonly #table: Int32Array | null;
  readonly #map = new Map<number, number>();
  readonly #free = new Map<number, Map<number, number>>();
  readonly #slots = new Map<number, number>();
  readonly #circles = new Map<number, Float64Array>();
  #slotPlay = 0;

  /** @param noFits - polygons made by searches before this one; what they save shows in time alone. */
  constructor(input: SearchInput, obstacles: readonly Obstacle[], noFits = new NoFitCache()) {
    this.#pieceForms = input.forms.length;
    this.forms = [
      ...input.forms.map((form) => centredForm(form, input.spacing)),
      ...obstacles.map((obstacle) => centredForm(obstacle.region, obstacle.clearance)),
    ];
    this.#noFits = noFits;
    this.#shapes = this.forms.map((form) => noFits.shapeOf(form.region));
    const poses: ModelPose[] = [];
    const turnIndex = new Map<number, number>([[0, 0]]);
    const poseIndex = new Map<string, number>();
    const poseOf = (form: number, turnDeg: number): number => {
      const key = `${form} ${turnDeg}`;
      const known = poseIndex.get(key);
      if (known !== undefined) return known;
      let turn = turnIndex.get(turnDeg);
      if (turn === undefined) {
        turn = turnIndex.size;
        turnIndex.set(turnDeg, turn);
      }
      const { a, b } = placementMatrix(0, 0, turnDeg);
      const box = ringBounds(turnedRegion(this.forms[form]!.region, turnDeg).outer);
      poses.push({ form, turn, turnDeg, isFree: false, cos: a, sin: b, ...box });
      poseIndex.set(key, poses.length - 1);
      return poses.length - 1;
    };
    const lists = new Map<readonly Pose[], Int32Array>();
    this.itemPoses = input.items.map((item) => {
      const known = lists.get(item.poses);
      if (known) return known;
      const made = Int32Array.from(item.poses, (pose) => poseOf(pose.form, normalTurn(pose.turnDeg)));
      lists.set(item.poses, made);
      return made;
    });
    this.isFreeToTurn = Uint8Array.from(input.items, (item) => (item.isFreeToTurn === true ? 1 : 0));
    this.obstaclePoses = obstacles.map((_, index) => {
      const form = this.#pieceForms + index;
      return { pose: poseOf(form, 0), x: this.forms[form]!.centreX, y: this.forms[form]!.centreY };
    });
    this.poses = poses;

    const turns = [...turnIndex.keys()];
    const seen = new Map<number, number>();
    this.#turns = turns.length;
    this.#relative = new Int32Array(turns.length * turns.length);
    for (let a = 0; a < turns.length; a++) {
      for (let b = 0; b < turns.length; b++) {
        const turn = normalTurn(turns[b]! - turns[a]!);
        if (!seen.has(turn)) seen.set(turn, seen.size);
        this.#relative[a * turns.length + b] = seen.get(turn)!;
      }
    }
    this.#turnCount = seen.size;
    this.hasManyPairs = hasManyPairs(input.forms, seen.size);
    const entries = this.forms.length * this.forms.length * seen.size;
    this.#table = entries <= FLAT_TABLE_LIMIT ? new Int32Array(entries).fill(-1) : null;
  }

  /**
   * The field between two poses. The form with the lower index is the fixed one of the field: when that is not the piece that
   * stands still, the caller turns the query round (Layout.gather does).
   * @returns id in `fields`, valid until `trim` drops it.
   */
  fieldBetween(poseA: number, poseB: number): number {
    const a = this.poses[poseA]!;
    const b = this.poses[poseB]!;
    const low = a.form <= b.form ? a : b;
    const high = a.form <= b.form ? b : a;
    if (a.isFree || b.isFree) return this.#freeField(low, high);
    const key = this.#keyOf(low, high);
    const known = this.#known(key);
    if (known >= 0) return known;
    const moving = this.forms[high.form]!;
    const shape = this.#noFits.polygon(
      this.forms[low.form]!.region,
      this.#shapes[low.form]!,
      moving.region,
      this.#shapes[high.form]!,
      normalTurn(high.turnDeg - low.turnDeg),
    );
    // Obstacles come last and bring their own clearance; two pieces share the spacing.
    const id = this.fields.add(shape, moving.clearance);
    this.#count(shape);
    if (this.#table === null) this.#map.set(key, id);
    else this.#table[key] = id;
    return id;
  }

  /** The field between two listed poses if it has been made, else -1. */
  madeField(a: ModelPose, b: ModelPose): number {
    return this.#known(a.form <= b.form ? this.#keyOf(a, b) : this.#keyOf(b, a));
  }

  /** Circles within the form of a pose, turned as the pose is. */
  circlesOf(pose: number): Float64Array {
    const known = this.#circles.get(pose);
    if (known !== undefined) return known;
    const { form, turnDeg } = this.poses[pose]!;
    const made = innerCircles(turnedRegion(this.forms[form]!.region, turnDeg));
    this.#circles.set(pose, made);
    return made;
  }

  #known(key: number): number {
    return this.#table === null ? (this.#map.get(key) ?? -1) : this.#table[key]!;
  }

  #keyOf(low: ModelPose, high: ModelPose): number {
    const relative = this.#relative[low.turn * this.#turns + high.turn]!;
    return (low.form * this.forms.length + high.form) * this.#turnCount + relative;
  }

  /**
   * Tell that slots of no play matter: places that only an exact fit reaches, which no-fit polygons lose.
   * @param play - penetration that may pass for touching there, the search's tolerance; 0 = they do not matter.
   */
  seeSlots(play: number): void {
    this.#slotPlay = play;
  }

  get seesSlots(): boolean {
    return this.#slotPlay > 0;
  }

  /**
   * Is a place inside the no-fit polygon of two listed poses such a slot? True for other free places too.
   * @param x - as asked of the field of `fieldBetween`.
   * @remarks Asks the no-fit polygon of a moving piece made smaller by the play, in which a slot is an opening; what it says is
   * confirmed by the area that the two really share and by how deep that reaches: a spike made smaller draws back by more than the play.
   */
  isSlot(poseA: number, poseB: number, x: number, y: number): boolean {
    const a = this.poses[poseA]!;
    const b = this.poses[poseB]!;
    const low = a.form <= b.form ? a : b;
    const high = a.form <= b.form ? b : a;
    if (this.#slotPlay === 0 || a.isFree || b.isFree) return false;
    const key = this.#keyOf(low, high);
    const fixed = this.forms[low.form]!;
    const moving = this.forms[high.form]!;
    if (moving.clearance > 0) return false;
    let id = this.#slots.get(key);
    if (id === undefined) {
      const turned = turnedRegion(moving.region, normalTurn(high.turnDeg - low.turnDeg));
      const shape = noFit(fixed.region, erodedRegion(turned, this.#slotPlay));
      id = this.fields.add(shape, 0, false);
      this.#count(shape);
      this.#slots.set(key, id);
    }
    if (this.fields.depth(id, x, y) > 0) return false;
    const { outer, holes } = turnedRegion(moving.region, normalTurn(high.turnDeg - low.turnDeg));
    const shift = (ring: Ring) => ring.map((value, i) => value + (i % 2 === 0 ? x : y));
    const placed = { outer: shift(outer), holes: holes.map(shift) };
    const shared = intersectRegions([fixed.region], [placed]);
    const area = shared.reduce((sum, region) => sum + Math.abs(regionArea(region)), 0);
    if (area > this.#slotPlay * Math.min(fixed.diameter, moving.diameter)) return false;
    return shared.every(({ outer: rim }) => deepest(rim, fixed.region, placed) <= this.#slotPlay);
  }

  /** A pose at any turn, for the free-turn finisher. */
  freePose(form: number, turnDeg: number): number {
    const turn = normalTurn(turnDeg);
    const { a, b } = placementMatrix(0, 0, turn);
    const box = ringBounds(turnedRegion(this.forms[form]!.region, turn).outer);
    this.poses.push({ form, turn: -1, turnDeg: turn, isFree: true, cos: a, sin: b, ...box });
    return this.poses.length - 1;
  }

  /** The field of a pair at a turn between them that no list has; all edges are looked at, no grid is built. */
  #freeField(low: ModelPose, high: ModelPose): number {
    const pair = low.form * this.forms.length + high.form;
    const turn = normalTurn(high.turnDeg - low.turnDeg);
    let byTurn = this.#free.get(pair);
    if (byTurn === undefined) {
      byTurn = new Map();
      this.#free.set(pair, byTurn);
    }
    const known = byTurn.get(turn);
    if (known !== undefined) return known;
    const moving = this.forms[high.form]!;
    const shape = noFit(this.forms[low.form]!.region, turnedRegion(moving.region, turn));
    const id = this.fields.add(shape, moving.clearance, false);
    this.#count(shape);
    byTurn.set(turn, id);
    return id;
  }

  #count({ rings }: NoFit): void {
    for (const ring of rings) this.fieldEdgesMade += ring.length / 2;
  }

  /** Drop all fields when they hold more than the limit. Call only where no field id is held. */
  trim(): void {
    if (this.fields.bytes <= FIELD_BYTES_LIMIT) return;
    this.fields.clear();
    this.#table?.fill(-1);
    this.#map.clear();
    this.#free.clear();
    this.#slots.clear();
  }
}

/** How far the corners of a shared area lie from the outlines of the two that share it: how deep one reaches into the other. */
function deepest(rim: Ring, a: Region, b: Region): number {
  let most = 0;
  for (let i = 0; i < rim.length; i += 2) {
    const from = ({ outer, holes }: Region) =>
      Math.min(...[outer, ...holes].map((ring) => distancePointToRing(rim[i]!, rim[i + 1]!, ring)));
    most = Math.max(most, from(a), from(b));
  }
  return most;
}

function centredForm(region: Region, clearance: number): ModelForm {
  const box = ringBounds(region.outer);
  const centreX = (box.minX + box.maxX) / 2;
  const centreY = (box.minY + box.maxY) / 2;
  const shift = (ring: Ring) => ring.map((value, i) => value - (i % 2 === 0 ? centreX : centreY));
  const centred = { outer: shift(region.outer), holes: region.holes.map(shift) };
  return {
    region: centred,
    centreX,
    centreY,
    area: Math.abs(regionArea(centred)),
    room: Math.abs(regionArea(centred)) + (ringPerimeter(centred.outer) * clearance) / 2,
    diameter: Math.hypot(box.maxX - box.minX, box.maxY - box.minY),
    clearance,
  };
}
