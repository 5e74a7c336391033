import { useSession, useValue } from '../state/page-context.ts';
import { isBusy } from '../state/results.ts';
import { useSay } from '../state/use-say.ts';
import { STAGES } from '../workers/views.ts';
import { STAGE_WORDS } from './stage-words.ts';

/** Whatever is under way can be ended from every stage: reading and splitting too. */
export function StopWork() {
  const session = useSession();
  const say = useSay();
  const results = useValue(session.planning.results);
  const canGoBack = useValue(session.canGoBack);
  const hasLayout = useValue(session.planning.hasLayout);
  if (!isBusy(results)) return null;
  const working = STAGES.find((stage) => results[stage].status === 'working');
  return (
    <div className="stop-work">
      <p>
        {working === undefined
          ? say.t('lead.at-work')
          : say.t('page.working-on', { stage: say.t(STAGE_WORDS[working]) })}
      </p>
      {canGoBack && !hasLayout ? (
        <button type="button" onClick={() => void session.attempt(session.goBack)}>
          {say.t('search.stop-back')}
        </button>
      ) : null}
      <button type="button" onClick={() => void session.planning.cancel()}>
        {say.t('search.stop-all')}
      </button>
    </div>
  );
}
