import type { Spot } from '@underlap/nest/search/task';
import { packStrip } from '@underlap/strip/pack-strip';
import { SEARCH_TOUCHING, type StripInstance, searchItems, stopwatch } from './nest-instances.ts';

/** One run of one instance with one seed. */
export interface StripOrder {
  readonly instance: StripInstance;
  readonly seed: string;
  readonly seconds: number;
  /** Evaluations at most; null = no limit but time. */
  readonly evaluations: number | null;
  readonly clock: 'wall' | 'cpu';
  /** A valid layout to go on from; null = from nothing. */
  readonly incumbent: readonly Spot[] | null;
  /** Any turn instead of the listed ones. */
  readonly isFreeToTurn: boolean;
}

export interface StripOutcome {
  readonly length: number;
  readonly spots: readonly Spot[];
  readonly evaluations: number;
  readonly seconds: number;
  readonly firstValidSeconds: number;
}

export function runStrip(order: StripOrder): StripOutcome {
  const { instance } = order;
  const watch = stopwatch(order.clock);
  let first = Number.NaN;
  const result = packStrip(
    {
      ...searchItems(instance.parts, order.isFreeToTurn),
      spacing: 0,
      tolerance: SEARCH_TOUCHING * instance.stripHeight,
      height: instance.stripHeight,
    },
    {
      evaluations: order.evaluations ?? Number.MAX_SAFE_INTEGER,
      timeSpent: () => watch() / order.seconds,
    },
    {
      seed: order.seed,
      onBetter: () => {
        if (Number.isNaN(first)) first = watch();
      },
    },
    order.incumbent,
  );
  return {
    length: result.length,
    spots: result.spots,
    evaluations: result.evaluations,
    seconds: watch(),
    firstValidSeconds: first,
  };
}
