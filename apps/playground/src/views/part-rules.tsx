import type { Job } from '@underlap/job/document';
import { PhraseView } from '../sentence/phrase-view.tsx';
import { ChoicePlace, TickPlace } from '../sentence/places.tsx';
import type { Desk } from '../state/desk.ts';
import { useSession, useValue } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import type { BoardsView } from '../workers/views.ts';
import { turnChoices } from './common-choices.ts';
import { Sentence } from './stage-frame.tsx';

/** Turning rules of the selected part alone: '[Banner] keeps its grain'. */
export function PartRules({ desk, view }: { readonly desk: Desk; readonly view: BoardsView }) {
  const session = useSession();
  const say = useSay();
  const { partId } = useValue(session.gaze);
  const kind = view.kinds.find((candidate) => candidate.partId === partId);
  if (partId === null || kind === undefined) return <p className="hint">{say.t('rules.choose')}</p>;
  const { turns } = desk.job;
  const own = turns.parts[partId];
  const set = (name: string, change: Partial<Job['turns']>): void =>
    session.actOnJob(name, (job) => ({ ...job, turns: { ...job.turns, ...change } }));
  const listed = (list: readonly string[], isIn: boolean): string[] =>
    isIn ? [...list.filter((id) => id !== partId), partId] : list.filter((id) => id !== partId);
  return (
    <Sentence>
      <PhraseView
        of="rules.part"
        places={{
          name: kind.name,
          turns: (
            <ChoicePlace
              label={say.t('rules.turns-label', { name: kind.name })}
              value={own === undefined ? 'like' : typeof own === 'object' ? 'any' : own}
              choices={[{ value: 'like', words: say.t('turn.like') }, ...turnChoices(say)]}
              onChange={(rule) => {
                const { [partId]: _, ...others } = turns.parts;
                set(say.t('step.part-turns', { part: kind.name }), {
                  parts: rule === 'like' ? others : { ...others, [partId]: rule },
                });
              }}
            />
          ),
          grain: (
            <TickPlace
              words={say.t('rules.grain')}
              value={turns.keepGrain.includes(partId)}
              onChange={(value) =>
                set(say.t('step.part-grain', { part: kind.name }), { keepGrain: listed(turns.keepGrain, value) })
              }
            />
          ),
          back: (
            <TickPlace
              words={say.t('rules.back')}
              value={turns.mirror.includes(partId)}
              onChange={(value) =>
                set(say.t('step.part-back', { part: kind.name }), { mirror: listed(turns.mirror, value) })
              }
            />
          ),
        }}
      />
    </Sentence>
  );
}
