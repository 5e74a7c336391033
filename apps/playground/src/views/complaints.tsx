import type { Complaint, Repair } from '@underlap/artwork/drawing';
import type { ViewportHand } from '../scene/use-viewport.ts';
import { isUrgent, spotOf } from '../state/matters.ts';
import { useSay } from '../state/use-say.ts';
import type { ArtworkView } from '../workers/views.ts';
import { LookHere } from './look-here.tsx';
import { ShowPlace } from './show-place.tsx';
import { More } from './stage-frame.tsx';

interface Told {
  readonly complaints: readonly Complaint[];
  readonly repairs: readonly Repair[];
}

/** Complaints and repairs pinned where they are on the drawing. */
export function ComplaintPins({
  complaints,
  repairs,
  project,
  hand,
}: Told & {
  project(x: number, y: number): { x: number; y: number };
  readonly hand: ViewportHand;
}) {
  const say = useSay();
  const pins = [
    ...complaints.map((complaint) => ({ ...complaint, isRepair: false })),
    ...repairs.map((repair) => ({ ...repair, severity: 'note' as const, isRepair: true })),
  ].filter((pin) => pin.place.at !== null && (pin.isRepair || pin.severity !== 'note'));
  return pins.slice(0, 80).map((pin, index) => {
    const at = pin.place.at ?? { x: 0, y: 0 };
    const screen = project(at.x, at.y);
    return (
      <button
        // complaints have no identity of their own and do not change places within one drawing
        // biome-ignore lint/suspicious/noArrayIndexKey: see above
        key={index}
        type="button"
        className={pin.isRepair ? 'pin is-repair' : 'pin'}
        style={{ left: screen.x, top: screen.y }}
        title={pin.message}
        aria-label={say.t(pin.isRepair ? 'complaint.mended' : 'complaint.look', { message: pin.message })}
        onClick={() => hand.lookAt({ minX: at.x - 20, minY: at.y - 20, maxX: at.x + 20, maxY: at.y + 20 })}
      >
        {pin.isRepair ? '\u2713' : '!'}
      </button>
    );
  });
}

/** The same in words, each with a way to its place in the picture. */
export function ComplaintList({ view }: { readonly view: ArtworkView }) {
  const say = useSay();
  const { complaints, repairs } = view;
  const urgent = complaints.filter(isUrgent);
  const notes = complaints.filter((complaint) => complaint.severity === 'note');
  return (
    <>
      {urgent.length === 0 ? null : (
        <ul className="told">
          {urgent.map((complaint, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: complaints have no identity of their own
            <li key={index} className="look">
              <LookHere /> <Remark told={complaint} view={view} />
            </li>
          ))}
        </ul>
      )}
      {repairs.length + notes.length === 0 ? null : (
        <More
          label={say.list([
            ...(repairs.length > 0 ? [say.t('complaint.repairs', { n: repairs.length })] : []),
            ...(notes.length > 0 ? [say.t('complaint.notes', { n: notes.length })] : []),
          ])}
        >
          <ul className="told">
            {[...repairs, ...notes].map((told, index) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: remarks have no identity of their own
              <li key={index}>
                <Remark told={told} view={view} />
              </li>
            ))}
          </ul>
        </More>
      )}
    </>
  );
}

/** What is told, of which element, and a way to its place when it has one. */
function Remark({ told, view }: { readonly told: Complaint | Repair; readonly view: ArtworkView }) {
  const spot = spotOf(told, view);
  return (
    <>
      {told.message} <small>{told.place.element}</small> {spot === null ? null : <ShowPlace spot={spot} />}
    </>
  );
}
