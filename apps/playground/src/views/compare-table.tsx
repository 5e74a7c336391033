import { memo, useMemo } from 'react';
import { boardsPicture, PLAIN_LOOK } from '../picture/boards-picture.ts';
import { Thumbnail } from '../scene/thumbnail.tsx';
import {
  CONDITION_WORDS,
  comparisonCsv,
  conclusion,
  conditionWords,
  differingConditions,
  figuresOf,
} from '../state/comparison.ts';
import type { Desk, KeptLayout } from '../state/desk.ts';
import { useSession } from '../state/page-context.ts';
import { CompareChart } from './compare-chart.tsx';
import { saveBytes } from './save-bytes.ts';
import { useSay } from './use-say.ts';

/** Kept layouts in one table; what differs from the first stands in bold. */
export function CompareTable({ desk }: { readonly desk: Desk }) {
  const session = useSession();
  const say = useSay();
  const { kept } = desk;
  const [front] = kept;
  const differing = differingConditions(kept);
  const sentence = conclusion(kept, say);
  if (front === undefined) return null;
  return (
    <>
      {sentence === '' ? null : <p className="conclusion">{sentence}</p>}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a table that scrolls must be reachable by keys */}
      <section className="table-scroll" aria-label="Kept layouts" tabIndex={0}>
        <table>
          <thead>
            <tr>
              <th scope="col">Layout</th>
              {differing.map((name) => (
                <th key={name} scope="col">
                  {CONDITION_WORDS[name]}
                </th>
              ))}
              <th scope="col">Boards</th>
              <th scope="col">At least</th>
              <th scope="col">Boards a sign</th>
              <th scope="col">Used</th>
              <th scope="col">Waste</th>
              <th scope="col">Largest offcut</th>
              <th scope="col">
                <span className="only-read">What to do with it</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {kept.map((layout) => (
              <Row key={layout.id} layout={layout} front={front} differing={differing} />
            ))}
          </tbody>
        </table>
      </section>
      <CompareChart layouts={kept} />
      <div className="buttons">
        <button
          type="button"
          onClick={() => saveBytes('layouts.csv', 'text/csv', new TextEncoder().encode(comparisonCsv(kept)))}
        >
          Save the table as CSV
        </button>
        <button
          type="button"
          className="quiet"
          onClick={() => session.act('shelf cleared', (before) => ({ ...before, kept: [] }))}
        >
          Clear the shelf
        </button>
      </div>
    </>
  );
}

function Row({
  layout,
  front,
  differing,
}: {
  readonly layout: KeptLayout;
  readonly front: KeptLayout;
  readonly differing: ReturnType<typeof differingConditions>;
}) {
  const session = useSession();
  const say = useSay();
  const figures = figuresOf(layout);
  const first = figuresOf(front);
  const cell = (words: string, isOther: boolean) => <td>{isOther ? <strong>{words}</strong> : words}</td>;
  return (
    <tr>
      <th scope="row">
        <span className="kept">
          <KeptPicture layout={layout} />
          {layout.name}
        </span>
      </th>
      {differing.map((name) => (
        <td key={name}>
          {JSON.stringify(layout.conditions[name]) === JSON.stringify(front.conditions[name]) ? (
            conditionWords(layout.conditions, name, say)
          ) : (
            <strong>{conditionWords(layout.conditions, name, say)}</strong>
          )}
        </td>
      ))}
      {cell(String(figures.boards), figures.boards !== first.boards)}
      {cell(figures.isProved ? `${figures.bound}, proved` : String(figures.bound), figures.bound !== first.bound)}
      {cell(say.number(figures.boardsPerSign, 2), Math.abs(figures.boardsPerSign - first.boardsPerSign) > 1e-9)}
      {cell(say.percent(figures.yield, 1), Math.abs(figures.yield - first.yield) > 5e-4)}
      {cell(say.percent(figures.waste, 1), Math.abs(figures.waste - first.waste) > 5e-4)}
      {cell(
        figures.offcutMm2 > 0 ? `${say.number(figures.offcutMm2 / 100)} cm\u00b2` : '\u2013',
        Math.abs(figures.offcutMm2 - first.offcutMm2) > 50,
      )}
      <td>
        <button
          type="button"
          className="quiet"
          aria-label={`Take off ${layout.name}`}
          onClick={() =>
            session.act(`${layout.name} off the shelf`, (before) => ({
              ...before,
              kept: before.kept.filter((other) => other.id !== layout.id),
            }))
          }
        >
          Take off
        </button>
      </td>
    </tr>
  );
}

const KeptPicture = memo(function KeptPicture({ layout }: { readonly layout: KeptLayout }) {
  const picture = useMemo(() => boardsPicture(layout.boards, { ...PLAIN_LOOK, aspect: 1.6 }), [layout]);
  return <Thumbnail picture={picture} width={96} height={60} />;
});
