import { AIMS, MOST_MARGIN_MM, MOST_SIGNS, MOST_SPACING_MM, TIE_BREAKS } from '@underlap/job/choices';
import type { Job } from '@underlap/job/document';
import { PhraseView } from '../sentence/phrase-view.tsx';
import { ChoicePlace, LengthPlace, NumberPlace, TickPlace } from '../sentence/places.tsx';
import type { Desk } from '../state/desk.ts';
import { useSession } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import type { BoardsView } from '../workers/views.ts';
import { BoardRow } from './board-row.tsx';
import { turnChoices } from './common-choices.ts';
import { OwnOffcut } from './own-offcut.tsx';
import { PartRules } from './part-rules.tsx';
import { More, Sentence } from './stage-frame.tsx';

/** Boards, batch and rules of the layout as sentences. */
export function BoardsSentences({ desk, view }: { readonly desk: Desk; readonly view: BoardsView | null }) {
  const session = useSession();
  const say = useSay();
  const { job } = desk;
  const set = (name: string, change: Partial<Job>): void =>
    session.actOnJob(name, (before) => ({ ...before, ...change }));
  return (
    <>
      <BoardList desk={desk} />
      <Sentence>
        <PhraseView
          of="boards.batch"
          places={{
            batch: (
              <NumberPlace
                label={say.t('boards.batch-label')}
                value={job.batch}
                least={1}
                most={MOST_SIGNS}
                onChange={(batch) => set(say.t('step.batch', { n: batch }), { batch })}
              />
            ),
            n: job.batch,
            spacing: (
              <LengthPlace
                label={say.t('boards.spacing-label')}
                value={job.spacing}
                least={0}
                most={MOST_SPACING_MM}
                onChange={(spacing) => set(say.t('step.spacing'), { spacing })}
              />
            ),
            margin: (
              <LengthPlace
                label={say.t('boards.margin-label')}
                value={job.margin}
                least={0}
                most={MOST_MARGIN_MM}
                onChange={(margin) => set(say.t('step.margin'), { margin })}
              />
            ),
          }}
        />
      </Sentence>
      <Sentence>
        <PhraseView
          of="boards.turns"
          places={{
            turns: (
              <ChoicePlace
                label={say.t('boards.turns-label')}
                value={typeof job.turns.default === 'object' ? 'any' : job.turns.default}
                choices={turnChoices(say)}
                onChange={(rule) => set(say.t('step.turns'), { turns: { ...job.turns, default: rule } })}
              />
            ),
            effort: (
              <ChoicePlace
                label={say.t('boards.effort-label')}
                value={typeof job.effort === 'number' ? 'own' : job.effort}
                choices={[
                  { value: 'quick', words: say.t('boards.quick') },
                  { value: 'normal', words: say.t('boards.normal') },
                  { value: 'thorough', words: say.t('boards.thorough') },
                  ...(typeof job.effort === 'number'
                    ? [{ value: 'own' as const, words: say.t('boards.own-steps', { n: job.effort }) }]
                    : []),
                ]}
                onChange={(effort) => {
                  if (effort !== 'own') set(say.t('step.effort'), { effort });
                }}
              />
            ),
          }}
        />
      </Sentence>
      <More label={say.t('boards.more-rules')}>
        <Sentence>
          <PhraseView
            of="boards.aim"
            places={{
              first: (
                <ChoicePlace
                  label={say.t('boards.aim-label')}
                  value={job.aim}
                  choices={AIMS.map((value) => ({ value, words: say.t(`boards.first-${value}`) }))}
                  onChange={(aim) => set(say.t('step.aim'), { aim })}
                />
              ),
              next: (
                <ChoicePlace
                  label={say.t('boards.next-label')}
                  value={job.tieBreak}
                  choices={TIE_BREAKS.map((value) => ({ value, words: say.t(`boards.next-${value}`) }))}
                  onChange={(tieBreak) => set(say.t('step.tie-break'), { tieBreak })}
                />
              ),
            }}
          />
        </Sentence>
        <Sentence>
          <TickPlace
            words={say.t('boards.together')}
            value={job.together === 'sign'}
            onChange={(value) => set(say.t('step.together'), { together: value ? 'sign' : 'free' })}
          />
        </Sentence>
        <Sentence>
          <PhraseView
            of="boards.seed"
            places={{
              seed: (
                <NumberPlace
                  label={say.t('boards.seed-label')}
                  value={job.seed}
                  least={0}
                  most={2147483647}
                  onChange={(seed) => set(say.t('step.seed', { seed }), { seed })}
                />
              ),
            }}
          />
        </Sentence>
        {view === null ? null : <PartRules desk={desk} view={view} />}
      </More>
    </>
  );
}

/** The kinds of board and the offcuts that there are. */
function BoardList({ desk }: { readonly desk: Desk }) {
  const session = useSession();
  const say = useSay();
  const { job } = desk;
  const set = (name: string, change: Partial<Job>): void =>
    session.actOnJob(name, (before) => ({ ...before, ...change }));
  return (
    <>
      <ul className="rows">
        {job.boards.map((board, index) => (
          <BoardRow
            // boards have no identity but their place in the list
            // biome-ignore lint/suspicious/noArrayIndexKey: see above
            key={index}
            index={index}
            board={board}
            currency={job.costs.currency}
            onChange={(name, change) =>
              set(name, { boards: job.boards.map((other, at) => (at === index ? { ...other, ...change } : other)) })
            }
            onRemove={
              job.boards.length > 1
                ? () => set(say.t('step.board-gone'), { boards: job.boards.filter((_, at) => at !== index) })
                : null
            }
          />
        ))}
        {job.offcuts.map((offcut, index) => (
          <li key={offcut.id}>
            <PhraseView
              of="boards.offcut-row"
              places={{
                n: offcut.count,
                name: offcut.id,
                away: (
                  <button
                    type="button"
                    className="quiet"
                    onClick={() =>
                      set(say.t('step.offcut-gone', { name: offcut.id }), {
                        offcuts: job.offcuts.filter((_, at) => at !== index),
                      })
                    }
                  >
                    {say.t('boards.away')}
                  </button>
                ),
              }}
            />
          </li>
        ))}
      </ul>
      <div className="buttons">
        <button
          type="button"
          className="quiet"
          onClick={() => {
            const [first] = job.boards;
            if (first === undefined) return;
            set(say.t('step.board-more'), {
              boards: [...job.boards, { ...first, id: null, width: 610, height: 305 }],
            });
          }}
        >
          {say.t('boards.more')}
        </button>
      </div>
      <OwnOffcut desk={desk} />
    </>
  );
}
