import { useSession } from '../state/page-context.ts';
import type { StageState } from '../state/results.ts';

/** Why a stage has no result, and what can be done. */
export function FaultNote({ state }: { readonly state: StageState<unknown> }) {
  const session = useSession();
  const { fault } = state;
  if (fault === null) return null;
  const isStop = fault.code === 'cancelled';
  const place = fault.place !== null && !fault.message.includes(fault.place) ? ` (${fault.place})` : '';
  return (
    <div className={isStop ? 'fault is-quiet' : 'fault'} role="alert">
      <p>
        {isStop ? null : <strong>Look here: </strong>}
        {fault.message}
        {place}
      </p>
      {isStop || fault.code === 'internal' ? (
        <button type="button" onClick={session.planAgain}>
          Go on
        </button>
      ) : null}
      {fault.code === 'artwork-faulty' ? (
        <button
          type="button"
          onClick={() =>
            session.actOnJob('go on without what is lost', (before) => ({
              ...before,
              artwork: { ...before.artwork, acceptFaults: true },
            }))
          }
        >
          Go on without it
        </button>
      ) : null}
    </div>
  );
}
