import type { Desk } from '../state/desk.ts';
import { useSession, useValue } from '../state/page-context.ts';
import type { StageId } from '../workers/views.ts';
import { ArtworkStage } from './artwork-stage.tsx';
import { BoardsStage } from './boards-stage.tsx';
import { FilesStage } from './files-stage.tsx';
import { SplitStage } from './split-stage.tsx';
import { StackStage } from './stack-stage.tsx';

/** The chosen stage, large: its drawing and its conditions. */
export function StagePanel({ stage, desk }: { readonly stage: StageId; readonly desk: Desk }) {
  const view = {
    artwork: <ArtworkStage desk={desk} />,
    stack: <StackStage desk={desk} />,
    split: <SplitStage desk={desk} />,
    boards: <BoardsStage desk={desk} />,
    files: <FilesStage desk={desk} />,
  }[stage];
  return (
    <section id="stage" className="stage" aria-label={`Stage: ${stage}`} tabIndex={-1}>
      {view}
      <WorkVoice />
    </section>
  );
}

/** Reads out what a screen shows by pictures: that work began, and how it ended. */
function WorkVoice() {
  const results = useValue(useSession().planning.results);
  const working = Object.entries(results).find(([, state]) => state.status === 'working');
  const failed = Object.entries(results).find(([, state]) => state.status === 'failed');
  const isDone = results.files.status === 'done';
  const words =
    working !== undefined
      ? `Working on the ${working[0]}.`
      : failed !== undefined
        ? ''
        : isDone
          ? 'Everything is up to date.'
          : '';
  return (
    <p className="only-read" role="status">
      {words}
    </p>
  );
}
