import type { Job } from '@underlap/job/document';
import { PhraseView } from '../sentence/phrase-view.tsx';
import { CountPlace, LengthPlace, NumberPlace, TickPlace } from '../sentence/places.tsx';
import { useSay } from '../state/use-say.ts';
import { BoardFlaws } from './board-flaws.tsx';
import { SIDE } from './common-choices.ts';
import { Sentence } from './stage-frame.tsx';

export type Board = Job['boards'][number];

/** One kind of board that there is, as a sentence; the first begins the list. */
export function BoardRow({
  board,
  index,
  currency,
  onChange,
  onRemove,
}: {
  readonly board: Board;
  readonly index: number;
  readonly currency: string;
  onChange(name: string, change: Partial<Board>): void;
  /** Null while it is the only one. */
  readonly onRemove: (() => void) | null;
}) {
  const say = useSay();
  const nth = index === 0 ? '' : index + 1;
  const label = (key: 'boards.count-label' | 'boards.width-label' | 'boards.height-label' | 'boards.price-label') =>
    say.t(key, { nth }).trim();
  const resized = (width: number, height: number, change: Partial<Board>): void =>
    onChange(say.t('step.board', { size: say.size(width, height) }), { ...change, id: null });
  const places = {
    count: (
      <CountPlace
        label={label('boards.count-label')}
        value={board.count}
        empty={say.t('boards.any-number')}
        onChange={(count) =>
          onChange(count === null ? say.t('step.any-boards') : say.t('step.boards', { n: count }), { count })
        }
      />
    ),
    width: (
      <LengthPlace
        label={label('boards.width-label')}
        value={board.width}
        {...SIDE}
        isBare
        onChange={(width) => resized(width, board.height, { width })}
      />
    ),
    height: (
      <LengthPlace
        label={label('boards.height-label')}
        value={board.height}
        {...SIDE}
        onChange={(height) => resized(board.width, height, { height })}
      />
    ),
    price: (
      <NumberPlace
        label={label('boards.price-label')}
        value={board.price}
        least={0}
        most={1e6}
        decimals={2}
        suffix={currency}
        onChange={(price) => onChange(say.t('step.board-price'), { price })}
      />
    ),
    grain: (
      <TickPlace
        words={say.t('boards.grain')}
        value={board.grain}
        onChange={(grain) => onChange(say.t(grain ? 'step.grain' : 'step.no-grain'), { grain })}
      />
    ),
    away:
      onRemove === null ? null : (
        <button type="button" className="quiet" onClick={onRemove}>
          {say.t('boards.away')}
        </button>
      ),
  };
  return (
    <li>
      <Sentence>
        <PhraseView of={index === 0 ? 'boards.first-row' : 'boards.next-row'} places={places} />
      </Sentence>
      <BoardFlaws board={board} onChange={onChange} />
    </li>
  );
}
