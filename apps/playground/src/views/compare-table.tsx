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
              <th scope="col">{say.t('compare.boards')}</th>
              <th scope="col">{say.t('compare.at-least')}</th>
              <th scope="col">{say.t('compare.per-sign')}</th>
              <th scope="col">{say.t('compare.used')}</th>
              <th scope="col">{say.t('compare.waste')}</th>
              <th scope="col">{say.t('compare.offcut')}</th>
              <th scope="col">{say.t('compare.cost')}</th>
              <th scope="col">{say.t('compare.minutes')}</th>
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
      {cell(
        figures.isProved ? say.t('compare.proved', { n: figures.bound }) : String(figures.bound),
        figures.bound !== first.bound,
      )}
      {cell(say.number(figures.boardsPerSign, 2), Math.abs(figures.boardsPerSign - first.boardsPerSign) > 1e-9)}
      {cell(say.percent(figures.yield, 1), Math.abs(figures.yield - first.yield) > 5e-4)}
      {cell(say.percent(figures.waste, 1), Math.abs(figures.waste - first.waste) > 5e-4)}
      {cell(
        figures.offcutMm2 > 0 ? say.t('unit.cm2', { area: say.number(figures.offcutMm2 / 100) }) : '\u2013',
        Math.abs(figures.offcutMm2 - first.offcutMm2) > 50,
      )}
      {cell(
        figures.costPerSign === null
          ? '\u2013'
          : say.t('compare.money', {
              sum: say.number(figures.costPerSign, 2),
              currency: layout.run?.currency ?? '',
            }),
        Math.abs((figures.costPerSign ?? 0) - (first.costPerSign ?? 0)) > 5e-3,
      )}
      {cell(
        figures.minutesPerSign === null ? '\u2013' : say.number(figures.minutesPerSign, 1),
        Math.abs((figures.minutesPerSign ?? 0) - (first.minutesPerSign ?? 0)) > 0.05,
      )}
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
