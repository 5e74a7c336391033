import type { FoundLayout } from '@underlap/job/pipeline';
import type { Fault } from './fault.ts';
import type { StageId, StageViews } from './views.ts';

/** What the worker reports while it works through a job. */
export type WorkEvent =
  | { readonly kind: 'working'; readonly stage: StageId; readonly done: number; readonly message: string }
  | { [Stage in StageId]: { readonly kind: 'view'; readonly stage: Stage; readonly view: StageViews[Stage] } }[StageId]
  | {
      [Stage in StageId]: {
        readonly kind: 'done';
        readonly stage: Stage;
        readonly key: string;
        readonly view: StageViews[Stage];
      };
    }[StageId]
  | { readonly kind: 'found'; readonly stage: 'boards'; readonly found: FoundLayout }
  /** The layout in the last view, as what the search would have found if it ended there. */
  | { readonly kind: 'best'; readonly stage: 'boards'; readonly found: FoundLayout }
  | { readonly kind: 'unchanged'; readonly stage: StageId }
  | { readonly kind: 'failed'; readonly stage: StageId; readonly fault: Fault };

/** Which results the page has, by content key; the worker need not send those again. */
export type KnownKeys = Readonly<Record<StageId, string | null>>;
