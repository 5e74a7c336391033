import type { Job } from '@underlap/job/document';
import { PhraseView } from '../sentence/phrase-view.tsx';
import { LengthPlace } from '../sentence/places.tsx';
import { useSay } from '../state/use-say.ts';
import { More, Sentence } from './stage-frame.tsx';

type Board = Job['boards'][number];
type Flaw = Board['forbidden'][number];

/** A new flaw, mm: as large as a knot, near the corner where a rule is laid. */
const NEW_FLAW: Flaw = { x: 10, y: 10, width: 30, height: 30 };

/** Knots and clamps of a kind of board: places where nothing may lie. */
export function BoardFlaws({
  board,
  onChange,
}: {
  readonly board: Board;
  onChange(name: string, change: Partial<Board>): void;
}) {
  const say = useSay();
  const set = (forbidden: Flaw[]): void => onChange(say.t('step.flaw'), { forbidden });
  return (
    <More label={say.t('flaw.title', { n: board.forbidden.length })}>
      {board.forbidden.map((flaw, index) => {
        const change = (part: Partial<Flaw>): void =>
          set(board.forbidden.map((other, at) => (at === index ? { ...other, ...part } : other)));
        const n = index + 1;
        return (
          // flaws have no identity but their place in the list
          // biome-ignore lint/suspicious/noArrayIndexKey: see above
          <Sentence key={index}>
            <PhraseView
              of="flaw.row"
              places={{
                width: (
                  <LengthPlace
                    label={say.t('flaw.width-label', { n })}
                    value={flaw.width}
                    least={1}
                    most={board.width}
                    isBare
                    onChange={(width) => change({ width })}
                  />
                ),
                height: (
                  <LengthPlace
                    label={say.t('flaw.height-label', { n })}
                    value={flaw.height}
                    least={1}
                    most={board.height}
                    onChange={(height) => change({ height })}
                  />
                ),
                x: (
                  <LengthPlace
                    label={say.t('flaw.x-label', { n })}
                    value={flaw.x}
                    least={0}
                    most={board.width}
                    onChange={(x) => change({ x })}
                  />
                ),
                y: (
                  <LengthPlace
                    label={say.t('flaw.y-label', { n })}
                    value={flaw.y}
                    least={0}
                    most={board.height}
                    onChange={(y) => change({ y })}
                  />
                ),
                away: (
                  <button
                    type="button"
                    className="quiet"
                    onClick={() => set(board.forbidden.filter((_, at) => at !== index))}
                  >
                    {say.t('boards.away')}
                  </button>
                ),
              }}
            />
          </Sentence>
        );
      })}
      <button type="button" className="quiet" onClick={() => set([...board.forbidden, NEW_FLAW])}>
        {say.t('flaw.add')}
      </button>
    </More>
  );
}
