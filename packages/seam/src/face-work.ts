import type { Face } from './arrangement.ts';
import { type FaceFields, type FacePlace, faceFields, facePlace, type PartFields } from './fields.ts';
import type { KnobRoom } from './halves.ts';
import type { Portal } from './route.ts';
import { junctionsOf, type PlannedCut, type SearchGround, spinesOf } from './search-ground.ts';
import { holeSamples, type OutlineSample, outlineSamples, type Terminal, terminalsOf } from './terminals.ts';

/** How a seam is fitted into a face: what is asked for first, and what is given up where there is no other way. */
export interface Strait {
  /** Room for knobs, as pieces are counted by it. */
  readonly room: KnobRoom;
  /** A seam runs nearer to the outline, ends nearer to others, and its ends may leave thin corners. */
  readonly isTight: boolean;
}

/** Where there is no other way, seams may end this near to each other, mm: apart enough for the wood between, too near for a knob. */
const TIGHT_JUNCTION_MM = 12;

/** What the search asks of one face again and again, worked out once: samples of its outline, fields, places for ends. */
export class FaceWork {
  private readonly samplesBy = new Map<boolean, readonly OutlineSample[]>();
  private readonly fieldsBy = new Map<string, FaceFields>();
  private readonly terminalsBy = new Map<boolean, readonly Terminal[]>();
  private readonly portalsBy = new Map<boolean, readonly Portal[]>();
  private readonly places = new Map<PartFields, FacePlace>();

  constructor(
    readonly ground: SearchGround,
    readonly cuts: readonly PlannedCut[],
    readonly face: Face,
  ) {}

  samples(isTight: boolean): readonly OutlineSample[] {
    return kept(this.samplesBy, isTight, () => {
      const { junctionClear, neck, web } = this.ground.sizes;
      const clear = isTight ? Math.max(TIGHT_JUNCTION_MM, 1.5 * web) : junctionClear + neck;
      return outlineSamples(
        this.face,
        this.ground.shape,
        spinesOf(this.cuts),
        junctionsOf(this.cuts),
        clear,
        this.ground.ground.lead,
      );
    });
  }

  fields(on: 'coarse' | 'fine', isTight: boolean): FaceFields {
    return kept(this.fieldsBy, `${on} ${isTight}`, () => {
      const whole = this.ground[on];
      const place = kept(this.places, whole, () => facePlace(whole, this.face));
      return faceFields(place, this.ground.sizes, this.edgeClear(isTight));
    });
  }

  /** Places on the face's outline where seams may end. */
  terminals(isTight: boolean): readonly Terminal[] {
    return kept(this.terminalsBy, isTight, () => this.terminalsAmong(this.samples(isTight), isTight));
  }

  /** Places on the edges of the face's whole openings where seams may end. */
  portals(isTight: boolean): readonly Portal[] {
    return kept(this.portalsBy, isTight, () => {
      const { shape, ground } = this.ground;
      const openings = ground.openings.filter((index) => this.face.holes.includes(index + 1));
      return openings.map((index) => ({
        terminals: this.terminalsAmong(holeSamples(shape, index, ground.lead), isTight),
      }));
    });
  }

  private terminalsAmong(samples: readonly OutlineSample[], isTight: boolean): Terminal[] {
    return terminalsOf(samples, this.fields('coarse', isTight), this.ground.sizes, this.edgeClear(isTight), isTight);
  }

  /** A seam keeps this far from the outline but for its ends, mm. */
  private edgeClear(isTight: boolean): number {
    const { web } = this.ground.sizes;
    return isTight ? 0.6 * web + 1 : web + this.ground.coarse.grid.step / 2 + 2;
  }
}

function kept<K, V>(known: Map<K, V>, key: K, make: () => V): V {
  const old = known.get(key);
  if (old !== undefined) return old;
  const made = make();
  known.set(key, made);
  return made;
}
