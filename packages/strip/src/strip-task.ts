import type { Layout } from '@underlap/nest/search/layout';
import type { Meter } from '@underlap/nest/search/meter';
import type { Random } from '@underlap/nest/search/random';
import type { Separator } from '@underlap/nest/search/separator';
import type { Snapshot } from '@underlap/nest/search/snapshot';

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
