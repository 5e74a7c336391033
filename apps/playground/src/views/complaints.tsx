import type { Complaint, Repair } from '@underlap/artwork/drawing';
import type { ViewportHand } from '../scene/use-viewport.ts';
import { useSay } from '../state/use-say.ts';
import { LookHere } from './look-here.tsx';
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

/** The same in words. */
export function ComplaintList({ complaints, repairs }: Told) {
  const say = useSay();
  const urgent = complaints.filter((complaint) => complaint.severity !== 'note');
  const notes = complaints.filter((complaint) => complaint.severity === 'note');
  return (
    <>
      {urgent.length === 0 ? null : (
        <ul className="told">
          {urgent.map((complaint, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: complaints have no identity of their own
            <li key={index} className="look">
              <LookHere /> {complaint.message} <small>{complaint.place.element}</small>
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
            {repairs.map((repair, index) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: repairs have no identity of their own
              <li key={index}>
                {repair.message} <small>{repair.place.element}</small>
              </li>
            ))}
            {notes.map((note, index) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: notes have no identity of their own
              <li key={index}>{note.message}</li>
            ))}
          </ul>
        </More>
      )}
    </>
  );
}
