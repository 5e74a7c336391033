import { useSession } from '../state/page-context.ts';
import type { StageState } from '../state/results.ts';
import { useSay } from '../state/use-say.ts';
import { faultWords } from '../words/fault-words.ts';
import { LookHere } from './look-here.tsx';

/** Why a stage has no result, and what can be done. */
export function FaultNote({
  state,
  onShow,
}: {
  readonly state: StageState<unknown>;
  /** Goes to the stage, when it is told elsewhere. */
  readonly onShow?: () => void;
}) {
  const session = useSession();
  const say = useSay();
  const { fault } = state;
  if (fault === null) return null;
  const isStop = fault.code === 'cancelled';
  return (
    <div className={isStop ? 'fault is-quiet' : 'fault'} role="alert">
      <p>
        {isStop ? null : <LookHere />} {faultWords(fault, say)}
      </p>
      {onShow === undefined ? null : (
        <button type="button" onClick={onShow}>
          {say.t('matter.show')}
        </button>
      )}
      {isStop || fault.code === 'internal' ? (
        <button type="button" onClick={session.planAgain}>
          {say.t('page.go-on')}
        </button>
      ) : null}
      {fault.code === 'artwork-faulty' ? (
        <button
          type="button"
          onClick={() =>
            session.actOnJob(say.t('step.without-lost'), (before) => ({
              ...before,
              artwork: { ...before.artwork, acceptFaults: true },
            }))
          }
        >
          {say.t('page.go-on-without')}
        </button>
      ) : null}
    </div>
  );
}
