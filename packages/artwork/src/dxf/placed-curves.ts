import type { ContourView } from '@underlap/geometry/curve';
import { IntList } from '@underlap/geometry/growing-list';
import { PackedContours } from '@underlap/geometry/packed-contours';
import type { Colour } from '../drawing.ts';
import { wordsFor } from './entity.ts';

/** What all curves of one kind on one layer share. */
export interface CurveHead {
  readonly type: string;
  readonly layer: string;
  readonly colour: Colour;
  /** Name of the innermost block with a name of its own; null in the model itself. */
  readonly block: string | null;
}

/** One curve with all that its blocks and layers decide. */
export interface PlacedCurve extends CurveHead {
  readonly contour: ContourView;
  readonly handle: string | null;
  /** Line of the file. */
  readonly line: number;
}

/** The curves of a drawing in columns: a loose line takes about 70 bytes and its handle. */
export class PlacedCurves {
  private readonly contours = new PackedContours();
  private readonly heads: CurveHead[] = [];
  private readonly numbers = new Map<string, number>();
  private readonly headOf = new IntList();
  private lastHead = -1;
  private readonly lines = new IntList();
  private readonly handles: (string | null)[] = [];

  get length(): number {
    return this.lines.length;
  }

  add({ type, layer, colour, block, contour, handle, line }: PlacedCurve): void {
    const head = this.headNumber(type, layer, colour, block);
    this.contours.add(contour);
    this.headOf.push(head);
    this.lines.push(line);
    this.handles.push(handle);
  }

  /** Made anew at every call. */
  at(index: number): PlacedCurve {
    const { type, layer, colour, block } = this.head(index);
    const [contour, handle] = [this.contour(index), this.handles[index]!];
    return { type, layer, colour, block, contour, handle, line: this.lines.get(index) };
  }

  head(index: number): CurveHead {
    return this.heads[this.headOf.get(index)]!;
  }

  contour(index: number): ContourView {
    return this.contours.at(index);
  }

  isClosed(index: number): boolean {
    return this.contours.isClosed(index);
  }

  private headNumber(type: string, layer: string, colour: Colour, block: string | null): number {
    // Curves of a kind stand one behind the other.
    const last = this.heads[this.lastHead];
    if (last?.type === type && last.layer === layer && last.colour === colour && last.block === block) {
      return this.lastHead;
    }
    const key = `${type}\n${layer}\n${colour}\n${block}`;
    let head = this.numbers.get(key);
    if (head === undefined) {
      head = this.heads.length;
      this.numbers.set(key, head);
      this.heads.push({ type, layer, colour, block });
    }
    this.lastHead = head;
    return head;
  }

  /** Words that lead a person to the curve. */
  element(index: number): string {
    const { type, block } = this.head(index);
    const words = wordsFor({ type, handle: this.handles[index]!, line: this.lines.get(index) });
    return block === null ? words : `${words} in block ${block}`;
  }
}
