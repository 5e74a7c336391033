import type { Layout } from './layout.ts';
import type { Meter } from './meter.ts';
import type { Random } from './random.ts';
import type { Separator } from './separator.ts';
import type { Snapshot } from './snapshot.ts';

/** A strip that is to become shorter: what exploring and compressing share. */
export interface ShrinkTask {
  readonly layout: Layout;
  readonly separator: Separator;
  readonly meter: Meter;
  readonly random: Random;
  /** The best valid layout so far; `keep` updates it. */
  readonly best: Snapshot;
  readonly bound: number;
  /** Of the strip. */
  readonly height: number;
  readonly setLength: (length: number) => void;
  readonly keep: () => void;
  readonly bestLength: () => number;
}
