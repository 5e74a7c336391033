import type { Job } from '@underlap/job/document';
import { ChoicePlace, TickPlace } from '../sentence/places.tsx';
import type { Desk } from '../state/desk.ts';
import { useSession, useValue } from '../state/page-context.ts';
import type { BoardsView } from '../workers/views.ts';
import { TURN_CHOICES } from './common-choices.ts';
import { Sentence } from './stage-frame.tsx';

/** Turning rules of the selected part alone: '[Banner] keeps its grain'. */
export function PartRules({ desk, view }: { readonly desk: Desk; readonly view: BoardsView }) {
  const session = useSession();
  const { partId } = useValue(session.gaze);
  const kind = view.kinds.find((candidate) => candidate.partId === partId);
  if (partId === null || kind === undefined)
    return <p className="hint">Choose a piece to give its part rules of its own.</p>;
  const { turns } = desk.job;
  const own = turns.parts[partId];
  const set = (name: string, change: Partial<Job['turns']>): void =>
    session.actOnJob(`${kind.name}: ${name}`, (job) => ({ ...job, turns: { ...job.turns, ...change } }));
  const listed = (list: readonly string[], isIn: boolean): string[] =>
    isIn ? [...list.filter((id) => id !== partId), partId] : list.filter((id) => id !== partId);
  return (
    <Sentence>
      <strong>{kind.name}</strong> may be turned{' '}
      <ChoicePlace
        label={`How ${kind.name} may be turned`}
        value={own === undefined ? 'like' : typeof own === 'object' ? 'any' : own}
        choices={[{ value: 'like', words: 'like the others' }, ...TURN_CHOICES]}
        onChange={(rule) => {
          const { [partId]: _, ...others } = turns.parts;
          set('turns', { parts: rule === 'like' ? others : { ...others, [partId]: rule } });
        }}
      />
      .{' '}
      <TickPlace
        words="It keeps its grain."
        value={turns.keepGrain.includes(partId)}
        onChange={(value) => set('grain', { keepGrain: listed(turns.keepGrain, value) })}
      />{' '}
      <TickPlace
        words="It may be cut from the back."
        value={turns.mirror.includes(partId)}
        onChange={(value) => set('back', { mirror: listed(turns.mirror, value) })}
      />
    </Sentence>
  );
}
