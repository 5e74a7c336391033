import type { Use } from '@underlap/stack/usage';
import { PhraseView } from '../sentence/phrase-view.tsx';
import { ChoicePlace } from '../sentence/places.tsx';
import { useSay } from '../state/use-say.ts';
import type { WordKey } from '../words/catalogue.ts';
import type { Say } from '../words/say.ts';
import { More, Sentence } from './stage-frame.tsx';

/** What a colour or a layer may be taken for. */
type UseWord = Exclude<Use['process'], 'mixed'>;

export const USE_WORDS = {
  paint: 'use.paint',
  cut: 'use.cut',
  score: 'use.score',
  'deep-score': 'use.deep-score',
  engrave: 'use.engrave',
  ignore: 'use.ignore',
  mixed: 'use.mixed',
} as const satisfies Readonly<Record<Use['process'], WordKey>>;

const CHOICES: readonly UseWord[] = ['paint', 'cut', 'score', 'deep-score', 'engrave', 'ignore'];

/** At most this many rows stand open; a drawing with more folds the rest away. */
const ROWS_OPEN = 5;

/** The colours and layers of the drawing and what each is taken for, to be changed in place. */
export function UseTable({
  uses,
  onChange,
  onForget,
}: {
  readonly uses: readonly Use[];
  onChange(use: Use, process: UseWord): void;
  onForget(use: Use): void;
}) {
  const say = useSay();
  const isAllPaint = uses.every(({ process }) => process === 'paint');
  const open = isAllPaint ? [] : uses.slice(0, ROWS_OPEN);
  const folded = isAllPaint ? uses : uses.slice(ROWS_OPEN);
  const table = (rows: readonly Use[]) => <Rows uses={rows} onChange={onChange} onForget={onForget} />;
  return (
    <>
      {isAllPaint ? <Sentence>{say.t('use.all-paint')}</Sentence> : table(open)}
      {folded.length === 0 ? null : (
        <More
          label={say.t(isAllPaint ? 'use.fold-all' : 'use.fold-others', {
            kinds: kinds(folded, say),
            n: folded.length,
          })}
        >
          {table(folded)}
        </More>
      )}
    </>
  );
}

function Rows({
  uses,
  onChange,
  onForget,
}: {
  readonly uses: readonly Use[];
  onChange(use: Use, process: UseWord): void;
  onForget(use: Use): void;
}) {
  const say = useSay();
  return (
    <table className="uses">
      <thead>
        <tr>
          <th scope="col">{say.t('use.head')}</th>
          <th scope="col">{say.t('use.head-taken')}</th>
        </tr>
      </thead>
      <tbody>
        {uses.map((use) => (
          <tr key={`${use.by} ${use.usedAs ?? ''} ${use.name}`}>
            <th scope="row">
              {use.by === 'colour' ? (
                <>
                  <span className="swatch" style={{ background: use.name }} aria-hidden="true" />{' '}
                </>
              ) : null}
              <PhraseView
                of={use.by === 'colour' ? 'use.colour-row' : 'use.layer-row'}
                places={{ name: use.name, amount: amount(use, say) }}
              />
            </th>
            <td>
              <ChoicePlace
                label={say.t(use.by === 'layer' ? 'use.layer-label' : 'use.colour-label', { name: use.name })}
                value={use.process}
                choices={[...(use.process === 'mixed' ? (['mixed'] as const) : []), ...CHOICES].map((value) => ({
                  value,
                  words: say.t(USE_WORDS[value]),
                }))}
                onChange={(process) => {
                  if (process !== 'mixed') onChange(use, process);
                }}
              />{' '}
              {use.toldBy === 'user' ? (
                <button type="button" className="quiet" onClick={() => onForget(use)}>
                  {say.t('use.as-drawn')}
                </button>
              ) : (
                <small>{use.reason}</small>
              )}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function amount({ shapes: n, usedAs }: Use, say: Say): string {
  if (usedAs === null) return say.t('use.shapes', { n });
  return say.t(usedAs === 'fill' ? 'use.areas' : 'use.lines', { n });
}

function kinds(uses: readonly Use[], say: Say): string {
  const colours = uses.filter(({ by }) => by === 'colour').length;
  const layers = uses.length - colours;
  return say.list([
    ...(colours > 0 ? [say.t('use.colours', { n: colours })] : []),
    ...(layers > 0 ? [say.t('use.layers', { n: layers })] : []),
  ]);
}
