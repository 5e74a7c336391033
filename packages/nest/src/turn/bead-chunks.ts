/** Numbers of a bead: x, y, radius; of a chunk: middle x, y, reach, first bead, end of beads (offsets into the beads). */
export const BEAD = 3;
export const CHUNK = 5;

/** Beads of one chunk: neighbours on an outline, or a row of circles into a tip. */
const BEADS_PER_CHUNK = 6;

/**
 * Places that a form is felt by (samples of its outline as circles of no radius, and small circles within), a few to a chunk with a circle
 * about all of it: where that keeps away from another form, none of them is looked at.
 */
export class BeadChunks {
  readonly #beads: number[] = [];
  readonly #chunks: number[] = [];
  readonly #from = [0];

  /** @param beads - x, y, radius by turns, neighbours one after another. */
  add(beads: readonly number[]): void {
    for (let at = 0; at < beads.length; at += BEAD * BEADS_PER_CHUNK) {
      const own = beads.slice(at, at + BEAD * BEADS_PER_CHUNK);
      const box = [Infinity, Infinity, -Infinity, -Infinity];
      for (let k = 0; k < own.length; k += BEAD) {
        box[0] = Math.min(box[0]!, own[k]!);
        box[1] = Math.min(box[1]!, own[k + 1]!);
        box[2] = Math.max(box[2]!, own[k]!);
        box[3] = Math.max(box[3]!, own[k + 1]!);
      }
      const [x, y] = [(box[0]! + box[2]!) / 2, (box[1]! + box[3]!) / 2];
      let reach = 0;
      for (let k = 0; k < own.length; k += BEAD) {
        reach = Math.max(reach, Math.hypot(own[k]! - x, own[k + 1]! - y) + own[k + 2]!);
      }
      const first = this.#beads.length;
      for (const value of own) this.#beads.push(value);
      this.#chunks.push(x, y, reach, first, this.#beads.length);
    }
  }

  /** What is added from here on belongs to the next form. */
  endForm(): void {
    this.#from.push(this.#chunks.length / CHUNK);
  }

  /** @returns beads, chunks, and of form f the chunks from `from[f]` to `from[f + 1]`. */
  packed(): { readonly beads: Float64Array; readonly chunks: Float64Array; readonly from: Int32Array } {
    return {
      beads: Float64Array.from(this.#beads),
      chunks: Float64Array.from(this.#chunks),
      from: Int32Array.from(this.#from),
    };
  }
}
