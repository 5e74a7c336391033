import { readsTheSame } from '@underlap/job/comparison-columns';
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
  figureWords,
  SHELF_COLUMNS,
} from '../state/comparison.ts';
import type { Desk, KeptLayout } from '../state/desk.ts';
import { useSession } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import { CompareChart } from './compare-chart.tsx';
import { saveBytes } from './save-bytes.ts';

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
      <section className="table-scroll" aria-label={say.t('compare.table')} tabIndex={0}>
        <table>
          <thead>
            <tr>
              <th scope="col">{say.t('compare.layout')}</th>
              {differing.map((name) => (
                <th key={name} scope="col">
                  {say.t(CONDITION_WORDS[name])}
                </th>
              ))}
              {SHELF_COLUMNS.map(({ name }) => (
                <th key={name} scope="col">
                  {say.t(`compare.figure-${name}`)}
                </th>
              ))}
              <th scope="col">
                <span className="only-read">{say.t('compare.actions')}</span>
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
          onClick={() => saveBytes('layouts.csv', 'text/csv', new TextEncoder().encode(comparisonCsv(kept, say)))}
        >
          {say.t('compare.csv')}
        </button>
        <button
          type="button"
          className="quiet"
          onClick={() => session.act(say.t('step.shelf-cleared'), (before) => ({ ...before, kept: [] }))}
        >
          {say.t('compare.clear')}
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
      {SHELF_COLUMNS.map((column) => {
        const words = figureWords(figures, column, layout.run?.currency ?? '', say);
        return <td key={column.name}>{readsTheSame(figures, first, column) ? words : <strong>{words}</strong>}</td>;
      })}
      <td>
        <button
          type="button"
          className="quiet"
          aria-label={say.t('compare.take-off-layout', { name: layout.name })}
          onClick={() =>
            session.act(say.t('step.layout-gone', { layout: layout.name }), (before) => ({
              ...before,
              kept: before.kept.filter((other) => other.id !== layout.id),
            }))
          }
        >
          {say.t('compare.take-off')}
        </button>
      </td>
    </tr>
  );
}

const KeptPicture = memo(function KeptPicture({ layout }: { readonly layout: KeptLayout }) {
  const picture = useMemo(() => boardsPicture(layout.boards, { ...PLAIN_LOOK, aspect: 1.6 }), [layout]);
  return <Thumbnail picture={picture} width={96} height={60} />;
});
