import type { ContourView } from '@underlap/geometry/curve';
import { IntList } from '@underlap/geometry/growing-list';
import { PackedContours } from '@underlap/geometry/packed-contours';
import type { Colour } from '../drawing.ts';
import { type AreaLoop, wordsFor } from './entity.ts';

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
  readonly area: AreaLoop;
  /** Line of the file. */
  readonly line: number;
}

const PIECE_BITS = 10;
const PIECE = 1 << PIECE_BITS;

/** The curves of a drawing in columns: a loose line takes about 70 bytes and its handle. */
export class PlacedCurves {
  private readonly contours = new PackedContours();
  private readonly heads: CurveHead[] = [];
  private readonly numbers = new Map<string, number>();
  private readonly headOf = new IntList();
  private lastHead = -1;
  /** Loops of filled areas, which are few. */
  private readonly areas = new Map<number, AreaLoop>();
  private readonly lines = new IntList();
  /** In pieces, since a growing array leaves copies behind; pieces without any handle are left out. */
  private readonly handles: (string | null)[][] = [];

  get length(): number {
    return this.lines.length;
  }

  add({ type, layer, colour, block, contour, handle, line, area }: PlacedCurve): void {
    if (area !== 'none') this.areas.set(this.length, area);
    const head = this.headNumber(type, layer, colour, block);
    this.contours.add(contour);
    this.headOf.push(head);
    this.lines.push(line);
    if (handle !== null) this.setHandle(this.length - 1, handle);
  }

  /** Made anew at every call. */
  at(index: number): PlacedCurve {
    const { type, layer, colour, block } = this.head(index);
    const [contour, handle] = [this.contour(index), this.handle(index)];
    return { type, layer, colour, block, contour, handle, area: this.area(index), line: this.lines.get(index) };
  }

  area(index: number): AreaLoop {
    return this.areas.get(index) ?? 'none';
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

  private handle(index: number): string | null {
    return this.handles[index >> PIECE_BITS]?.[index & (PIECE - 1)] ?? null;
  }

  private setHandle(index: number, handle: string): void {
    const at = index >> PIECE_BITS;
    while (this.handles.length <= at) this.handles.push([]);
    if (this.handles[at]!.length === 0) this.handles[at] = new Array<string | null>(PIECE).fill(null);
    this.handles[at]![index & (PIECE - 1)] = handle;
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
    const words = wordsFor({ type, handle: this.handle(index), line: this.lines.get(index) });
    return block === null ? words : `${words} in block ${block}`;
  }
}
