import type { Job } from '@underlap/job/document';
import { ChoicePlace, CountPlace, LengthPlace, NumberPlace, TickPlace } from '../sentence/places.tsx';
import type { Desk } from '../state/desk.ts';
import { useSession } from '../state/page-context.ts';
import type { BoardsView } from '../workers/views.ts';
import { SIDE, TURN_CHOICES } from './common-choices.ts';
import { PartRules } from './part-rules.tsx';
import { More, Sentence } from './stage-frame.tsx';
import { useSay } from './use-say.ts';

type Board = Job['boards'][number];

/** Boards, batch and rules of the layout as sentences. */
export function BoardsSentences({ desk, view }: { readonly desk: Desk; readonly view: BoardsView | null }) {
  const session = useSession();
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
            canGo={job.boards.length > 1}
            onChange={(name, change) =>
              set(name, { boards: job.boards.map((other, at) => (at === index ? { ...other, ...change } : other)) })
            }
            onRemove={() => set('a kind of board taken away', { boards: job.boards.filter((_, at) => at !== index) })}
          />
        ))}
        {job.offcuts.map((offcut, index) => (
          <li key={offcut.id}>
            and {offcut.count === 1 ? 'the offcut' : `${offcut.count} offcuts`} <strong>{offcut.id}</strong>{' '}
            <button
              type="button"
              className="quiet"
              onClick={() =>
                set(`offcut ${offcut.id} taken away`, { offcuts: job.offcuts.filter((_, at) => at !== index) })
              }
            >
              Take it away
            </button>
          </li>
        ))}
      </ul>
      <div className="buttons">
        <button
          type="button"
          className="quiet"
          onClick={() =>
            set('one more kind of board', {
              boards: [
                ...job.boards,
                { ...(job.boards[0] as Board), id: null, width: 610, height: 305, price: job.boards[0]?.price ?? 0 },
              ],
            })
          }
        >
          Another kind of board
        </button>
      </div>
      <Sentence>
        Make{' '}
        <NumberPlace
          label="Signs in the batch"
          value={job.batch}
          least={1}
          most={500}
          onChange={(batch) => set(`${batch} signs`, { batch })}
        />{' '}
        {job.batch === 1 ? 'sign' : 'signs'}, pieces at least{' '}
        <LengthPlace
          label="Least distance between pieces"
          value={job.spacing}
          least={0}
          most={200}
          onChange={(spacing) => set('distance between pieces', { spacing })}
        />{' '}
        apart and{' '}
        <LengthPlace
          label="Least distance from the edge"
          value={job.margin}
          least={0}
          most={500}
          onChange={(margin) => set('distance from the edge', { margin })}
        />{' '}
        from the edge.
      </Sentence>
      <Sentence>
        Pieces may be turned{' '}
        <ChoicePlace
          label="How pieces may be turned"
          value={typeof job.turns.default === 'object' ? 'any' : job.turns.default}
          choices={TURN_CHOICES}
          onChange={(rule) => set('how pieces may be turned', { turns: { ...job.turns, default: rule } })}
        />
        . Search{' '}
        <ChoicePlace
          label="How long to search"
          value={typeof job.effort === 'number' ? 'own' : job.effort}
          choices={[
            { value: 'quick', words: 'hardly at all' },
            { value: 'normal', words: 'for a while' },
            { value: 'thorough', words: 'thoroughly' },
            ...(typeof job.effort === 'number' ? [{ value: 'own' as const, words: `${job.effort} steps` }] : []),
          ]}
          onChange={(effort) => {
            if (effort !== 'own') set('how long to search', { effort });
          }}
        />
        .
      </Sentence>
      <More label="More about the layout">
        <Sentence>
          What counts first is{' '}
          <ChoicePlace
            label="What counts first"
            value={job.aim}
            choices={[
              { value: 'fewest-boards', words: 'the fewest boards' },
              { value: 'cheapest', words: 'the cheapest boards' },
            ]}
            onChange={(aim) => set('what counts first', { aim })}
          />
          , then{' '}
          <ChoicePlace
            label="What counts next"
            value={job.tieBreak}
            choices={[
              { value: 'largest-offcut', words: 'the largest offcut' },
              { value: 'shortest-cutting', words: 'the shortest cutting' },
            ]}
            onChange={(tieBreak) => set('what counts next', { tieBreak })}
          />
          .
        </Sentence>
        <Sentence>
          <TickPlace
            words="All pieces of one sign stay on one sheet."
            value={job.together === 'sign'}
            onChange={(value) => set('pieces of one sign together', { together: value ? 'sign' : 'free' })}
          />
        </Sentence>
        <Sentence>
          The search starts from seed{' '}
          <NumberPlace
            label="Seed of the search"
            value={job.seed}
            least={0}
            most={2147483647}
            onChange={(seed) => set(`seed ${seed}`, { seed })}
          />
          : the same seed gives the same layout.
        </Sentence>
        {view === null ? null : <PartRules desk={desk} view={view} />}
      </More>
    </>
  );
}

function BoardRow({
  board,
  index,
  currency,
  canGo,
  onChange,
  onRemove,
}: {
  readonly board: Board;
  readonly index: number;
  readonly currency: string;
  readonly canGo: boolean;
  onChange(name: string, change: Partial<Board>): void;
  onRemove(): void;
}) {
  const say = useSay();
  const nth = index === 0 ? '' : ` ${index + 1}`;
  return (
    <li>
      {index === 0 ? 'I have ' : 'and '}
      <CountPlace
        label={`Number of boards${nth}`}
        value={board.count}
        empty="any number"
        onChange={(count) => onChange(count === null ? 'any number of boards' : `${count} boards`, { count })}
      />{' '}
      of{' '}
      <LengthPlace
        label={`Width of the board${nth}`}
        value={board.width}
        {...SIDE}
        isBare
        onChange={(width) => onChange(`board ${say.size(width, board.height)}`, { width, id: null })}
      />{' '}
      &times;{' '}
      <LengthPlace
        label={`Height of the board${nth}`}
        value={board.height}
        {...SIDE}
        onChange={(height) => onChange(`board ${say.size(board.width, height)}`, { height, id: null })}
      />{' '}
      boards, each{' '}
      <NumberPlace
        label={`Price of the board${nth}`}
        value={board.price}
        least={0}
        most={1e6}
        decimals={2}
        suffix={currency}
        onChange={(price) => onChange('price of a board', { price })}
      />
      {', '}
      <TickPlace
        words="with grain"
        value={board.grain}
        onChange={(grain) => onChange(grain ? 'board with grain' : 'board without grain', { grain })}
      />
      {canGo ? (
        <button type="button" className="quiet" onClick={onRemove}>
          Take it away
        </button>
      ) : null}
    </li>
  );
}
