import type { Use } from '@underlap/stack/usage';
import { type Choice, ChoicePlace } from '../sentence/places.tsx';
import { More, Sentence } from './stage-frame.tsx';
import { count } from './use-say.ts';

/** What a colour or a layer may be taken for. */
type UseWord = Exclude<Use['process'], 'mixed'>;

const WORDS: readonly Choice<UseWord>[] = [
  { value: 'paint', words: 'paint of its part' },
  { value: 'cut', words: 'cut' },
  { value: 'score', words: 'scored' },
  { value: 'deep-score', words: 'scored deep' },
  { value: 'engrave', words: 'engraved' },
  { value: 'ignore', words: 'left out' },
];

const MIXED: Choice<Use['process']> = { value: 'mixed', words: 'several things' };

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
  const isAllPaint = uses.every(({ process }) => process === 'paint');
  const open = isAllPaint ? [] : uses.slice(0, ROWS_OPEN);
  const folded = isAllPaint ? uses : uses.slice(ROWS_OPEN);
  const table = (rows: readonly Use[]) => <Rows uses={rows} onChange={onChange} onForget={onForget} />;
  return (
    <>
      {isAllPaint ? <Sentence>Every shape is cut out; its colour is its paint.</Sentence> : table(open)}
      {folded.length === 0 ? null : (
        <More
          label={`What ${isAllPaint ? '' : 'the other '}${kinds(folded)} ${folded.length === 1 ? 'is' : 'are'} taken for`}
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
  return (
    <table className="uses">
      <thead>
        <tr>
          <th scope="col">Colour or layer</th>
          <th scope="col">Taken for</th>
        </tr>
      </thead>
      <tbody>
        {uses.map((use) => (
          <tr key={`${use.by} ${use.usedAs ?? ''} ${use.name}`}>
            <th scope="row">
              {use.by === 'colour' ? (
                <span className="swatch" style={{ background: use.name }} aria-hidden="true" />
              ) : (
                <small>layer </small>
              )}{' '}
              {use.name} <small>({amount(use)})</small>
            </th>
            <td>
              <ChoicePlace
                label={`What ${use.by === 'layer' ? 'the layer ' : ''}${use.name} is taken for`}
                value={use.process}
                choices={use.process === 'mixed' ? [MIXED, ...WORDS] : WORDS}
                onChange={(process) => {
                  if (process !== 'mixed') onChange(use, process);
                }}
              />{' '}
              {use.toldBy === 'user' ? (
                <button type="button" className="quiet" onClick={() => onForget(use)}>
                  As the drawing says
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

function amount({ shapes, usedAs }: Use): string {
  if (usedAs === null) return count(shapes, 'shape');
  return count(shapes, usedAs === 'fill' ? 'area' : 'line');
}

function kinds(uses: readonly Use[]): string {
  const colours = uses.filter(({ by }) => by === 'colour').length;
  const layers = uses.length - colours;
  return [colours > 0 ? count(colours, 'colour') : '', layers > 0 ? count(layers, 'layer') : '']
    .filter((words) => words !== '')
    .join(' and ');
}
