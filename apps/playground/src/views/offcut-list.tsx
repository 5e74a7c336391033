import type { Desk } from '../state/desk.ts';
import { useSession, useValue } from '../state/page-context.ts';
import type { BoardsView } from '../workers/views.ts';
import { useSay } from './use-say.ts';

/** Below this an offcut is not worth a line, mm2. */
const LEAST_OFFCUT_MM2 = 2500;

/** What is left of the boards, and the offcuts kept from other jobs. */
export function OffcutList({ desk, view }: { readonly desk: Desk; readonly view: BoardsView }) {
  const session = useSession();
  const kept = useValue(session.offcuts.offcuts);
  const say = useSay();
  const left = view.sheets.flatMap(({ offcut }, index) =>
    offcut === null || offcut.areaMm2 < LEAST_OFFCUT_MM2 ? [] : [{ ...offcut, sheet: index }],
  );
  const area = (mm2: number): string => `${say.number(mm2 / 100)} cm\u00b2`;
  const usedIds = new Set(desk.job.offcuts.map((offcut) => offcut.id));
  if (left.length === 0 && kept.length === 0) return null;
  return (
    <ul className="rows">
      {left.map((offcut) => (
        <li key={offcut.sheet}>
          Sheet {offcut.sheet + 1} leaves {area(offcut.areaMm2)} in one piece.{' '}
          <button
            type="button"
            className="quiet"
            onClick={() => {
              session.offcuts.keep({
                name: `${area(offcut.areaMm2)} from ${desk.job.name ?? 'a sign'}`,
                outline: offcut.d,
                areaMm2: offcut.areaMm2,
              });
              session.notices.say('The offcut is kept for the next job.');
            }}
          >
            Keep it for the next job
          </button>
        </li>
      ))}
      {kept
        .filter((offcut) => !usedIds.has(offcut.name))
        .map((offcut) => (
          <li key={offcut.id}>
            On hand: {offcut.name}.{' '}
            <button
              type="button"
              className="quiet"
              onClick={() =>
                session.actOnJob(`offcut ${offcut.name}`, (job) => ({
                  ...job,
                  offcuts: [...job.offcuts, { id: offcut.name, outline: offcut.outline, count: 1, grain: false }],
                }))
              }
            >
              Use it here
            </button>{' '}
            <button type="button" className="quiet" onClick={() => session.offcuts.forget(offcut.id)}>
              It is gone
            </button>
          </li>
        ))}
    </ul>
  );
}
