import type { Desk } from '../state/desk.ts';
import { useSession, useValue } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import type { BoardsView } from '../workers/views.ts';

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
  const area = (mm2: number): string => say.t('unit.cm2', { area: say.number(mm2 / 100) });
  const usedIds = new Set(desk.job.offcuts.map((offcut) => offcut.id));
  if (left.length === 0 && kept.length === 0) return null;
  return (
    <ul className="rows">
      {left.map((offcut) => (
        <li key={offcut.sheet}>
          {say.t('offcut.left', { n: offcut.sheet + 1, area: area(offcut.areaMm2) })}{' '}
          <button
            type="button"
            className="quiet"
            onClick={() => {
              session.offcuts.keep({
                name: say.t('offcut.name', {
                  area: area(offcut.areaMm2),
                  job: desk.job.name ?? say.t('offcut.a-sign'),
                }),
                outline: offcut.d,
                areaMm2: offcut.areaMm2,
              });
              session.notices.say(say.t('notice.offcut-kept'));
            }}
          >
            {say.t('offcut.keep')}
          </button>
        </li>
      ))}
      {kept
        .filter((offcut) => !usedIds.has(offcut.name))
        .map((offcut) => (
          <li key={offcut.id}>
            {say.t('offcut.on-hand', { name: offcut.name })}{' '}
            <button
              type="button"
              className="quiet"
              onClick={() =>
                session.actOnJob(say.t('step.offcut', { name: offcut.name }), (job) => ({
                  ...job,
                  offcuts: [...job.offcuts, { id: offcut.name, outline: offcut.outline, count: 1, grain: false }],
                }))
              }
            >
              {say.t('offcut.use')}
            </button>{' '}
            <button type="button" className="quiet" onClick={() => session.offcuts.forget(offcut.id)}>
              {say.t('offcut.gone')}
            </button>
          </li>
        ))}
    </ul>
  );
}
