import { mattersOf } from '../state/matters.ts';
import { useSession, useValue } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import { STAGES, type StageId } from '../workers/views.ts';
import { LookHere } from './look-here.tsx';
import { STAGE_WORDS } from './stage-words.ts';
import { useShow } from './use-show.ts';

/** How many are told one by one before the rest is counted: on the way, and where everything is handed over. */
const TOLD = { onTheWay: 1, atTheEnd: 8 } as const;

/** What of the stages before wants to be looked at, each with one click to its place. */
export function Upstream({ stage }: { readonly stage: StageId }) {
  const results = useValue(useSession().planning.results);
  const say = useSay();
  const show = useShow();
  const before = STAGES.slice(0, STAGES.indexOf(stage)).flatMap((each) => mattersOf(each, results, say));
  if (before.length === 0) return null;
  const told = stage === 'files' ? TOLD.atTheEnd : TOLD.onTheWay;
  const rest = before[told];
  return (
    <ul className="told upstream" aria-label={say.t('matter.before')}>
      {before.slice(0, told).map((matter, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: remarks have no identity of their own
        <li key={index} className="look">
          <LookHere /> {say.t('matter.in-stage', { stage: say.t(STAGE_WORDS[matter.stage]), words: matter.words })}{' '}
          <button type="button" className="quiet" onClick={() => show(matter)}>
            {say.t('matter.show')}
          </button>
        </li>
      ))}
      {rest === undefined ? null : (
        <li>
          <button type="button" className="quiet" onClick={() => show({ stage: rest.stage, spot: rest.spot })}>
            {say.t('matter.more', { n: before.length - told })}
          </button>
        </li>
      )}
    </ul>
  );
}
