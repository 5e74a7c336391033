import { useState } from 'react';
import type { Desk } from '../state/desk.ts';
import { useSession, useValue } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import { STAGES, type StageId } from '../workers/views.ts';
import { ArtworkStage } from './artwork-stage.tsx';
import { BoardsStage } from './boards-stage.tsx';
import { FilesStage } from './files-stage.tsx';
import { SplitStage } from './split-stage.tsx';
import { StackStage } from './stack-stage.tsx';
import { STAGE_WORDS } from './stage-words.ts';

/** The chosen stage, large: its drawing and its conditions. */
export function StagePanel({ stage, desk }: { readonly stage: StageId; readonly desk: Desk }) {
  const say = useSay();
  const from = useStageBefore(stage);
  const view = {
    artwork: <ArtworkStage desk={desk} />,
    stack: <StackStage desk={desk} />,
    split: <SplitStage desk={desk} />,
    boards: <BoardsStage desk={desk} from={from} />,
    files: <FilesStage desk={desk} />,
  }[stage];
  return (
    <section
      id="stage"
      className="stage"
      aria-label={say.t('page.stage', { stage: say.t(STAGE_WORDS[stage]) })}
      tabIndex={-1}
    >
      {view}
      <WorkVoice />
    </section>
  );
}

/** The stage that was looked at before this one. */
function useStageBefore(stage: StageId): StageId | null {
  const [{ now, before }, setSeen] = useState<{ now: StageId; before: StageId | null }>({ now: stage, before: null });
  if (now === stage) return before;
  setSeen({ now: stage, before: now });
  return now;
}

/** Reads out what a screen shows by pictures: that work began, and how it ended. */
function WorkVoice() {
  const say = useSay();
  const results = useValue(useSession().planning.results);
  const working = STAGES.find((stage) => results[stage].status === 'working');
  return (
    <p className="only-read" role="status">
      {working !== undefined
        ? say.t('page.working-on', { stage: say.t(STAGE_WORDS[working]) })
        : results.files.status === 'done'
          ? say.t('page.up-to-date')
          : ''}
    </p>
  );
}
