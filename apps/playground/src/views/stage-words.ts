import type { WordKey } from '../words/catalogue.ts';
import type { StageId } from '../workers/views.ts';

/** What the stages are called. */
export const STAGE_WORDS = {
  artwork: 'stage.artwork',
  stack: 'stage.stack',
  split: 'stage.split',
  boards: 'stage.boards',
  files: 'stage.files',
} as const satisfies Readonly<Record<StageId, WordKey>>;
