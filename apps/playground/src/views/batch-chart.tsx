import type { BatchRow } from '@underlap/job/batch-study';
import type { Job } from '@underlap/job/document';
import { handWorkPaysFrom, type PriceRow } from '@underlap/shop/price';
import { useState } from 'react';
import { PhraseView } from '../sentence/phrase-view.tsx';
import { NumberPlace } from '../sentence/places.tsx';
import type { Desk } from '../state/desk.ts';
import { useSession } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import { proxy } from '../workers/client.ts';
import { UprightAxis } from './chart-axis.tsx';
import { PriceChart } from './price-chart.tsx';
import { Sentence } from './stage-frame.tsx';

const CHART = { width: 620, height: 280, left: 40, right: 50, bottom: 64, top: 46 } as const;

/** How many boards a batch needs: boards, the proven least, boards a sign, and the batches that use boards best. */
export function BatchChart({ desk }: { readonly desk: Desk }) {
  const session = useSession();
  const say = useSay();
  const [most, setMost] = useState(8);
  const [reckoned, setReckoned] = useState<{
    readonly job: Job;
    readonly rows: readonly BatchRow[];
    readonly prices: readonly PriceRow[];
  } | null>(null);
  const [isBusy, setBusy] = useState(false);
  // figures of another drawing say nothing about this one
  const isOfThisSign = reckoned?.job.artwork.text === desk.job.artwork.text;
  const rows = isOfThisSign ? (reckoned?.rows ?? []) : [];
  const prices = isOfThisSign ? (reckoned?.prices ?? []) : [];
  const { currency, labourHour } = (reckoned?.job ?? desk.job).costs;
  const paysFrom = handWorkPaysFrom(prices, labourHour);
  const spots = rows.flatMap((row) => (row.isSweetSpot ? [row.batch] : []));

  const reckon = (): void => {
    const { job } = desk;
    setReckoned(null);
    setBusy(true);
    const tell = proxy((now: readonly BatchRow[], money: readonly PriceRow[]) =>
      setReckoned({ job, rows: now, prices: money }),
    );
    const sizes = Array.from({ length: most }, (_, index) => index + 1);
    void session
      .attempt(() => session.client.ask((api) => api.batches(job, sizes, tell)))
      .finally(() => setBusy(false));
  };

  return (
    <div className="shelf-part">
      <h2>{say.t('batch.title')}</h2>
      <Sentence>
        <PhraseView
          of="batch.question"
          places={{
            most: <NumberPlace label={say.t('batch.most-label')} value={most} least={1} most={60} onChange={setMost} />,
            reckon: (
              <button type="button" disabled={isBusy} onClick={reckon}>
                {isBusy ? say.t('batch.reckoning', { n: rows.length + 1, all: most }) : say.t('batch.reckon')}
              </button>
            ),
          }}
        />
        {isBusy ? (
          <>
            {' '}
            <button type="button" onClick={() => void session.attempt(session.stopTrying)}>
              {say.t('batch.stop')}
            </button>
          </>
        ) : null}
      </Sentence>
      {rows.length === 0 ? null : (
        <>
          <Chart rows={rows} spots={spots} />
          {reckoned?.job === desk.job ? null : <p className="hint">{say.t('batch.changed')}</p>}
          <p className="sentence">
            {spots.length === 0
              ? ''
              : `${say.t('batch.best', { sizes: say.list(spots.map(String)), n: Math.max(...spots) })} `}
            {say.t('batch.key')} {say.t('batch.note')}
          </p>
          <PriceChart prices={prices} currency={currency} />
          <p className="sentence">
            {say.t('batch.price-key')}{' '}
            {prices.every((row) => row.leftForHandHour === null)
              ? ''
              : paysFrom === null
                ? say.t('batch.pays-never')
                : say.t('batch.pays', { n: paysFrom })}
          </p>
          <details className="more">
            <summary>{say.t('batch.figures')}</summary>
            {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a table that scrolls must be reachable by keys */}
            <section className="table-scroll" aria-label={say.t('batch.table')} tabIndex={0}>
              <table>
                <thead>
                  <tr>
                    <th scope="col">{say.t('batch.signs')}</th>
                    <th scope="col">{say.t('compare.figure-boards')}</th>
                    <th scope="col">{say.t('compare.figure-boardsLowerBound')}</th>
                    <th scope="col">{say.t('compare.figure-boardsPerSign')}</th>
                    <th scope="col">{say.t('compare.figure-yield')}</th>
                    <th scope="col">{say.t('compare.figure-waste')}</th>
                    <th scope="col">{say.t('batch.cost')}</th>
                    <th scope="col">{say.t('batch.price')}</th>
                    <th scope="col">{say.t('compare.figure-minutesPerSign')}</th>
                  </tr>
                </thead>
                <tbody>
                  {rows.map((row) => (
                    <tr key={row.batch}>
                      <th scope="row">{row.batch}</th>
                      <td>{row.boards}</td>
                      <td>{row.boardsLowerBound}</td>
                      <td>{say.number(row.boards / row.batch, 2)}</td>
                      <td>{say.percent(row.yield, 1)}</td>
                      <td>{say.percent(1 - row.yield, 1)}</td>
                      <PriceCells price={prices.find(({ batch }) => batch === row.batch)} />
                    </tr>
                  ))}
                </tbody>
              </table>
            </section>
          </details>
        </>
      )}
    </div>
  );
}

/** Money and minutes of one sign; dashes for a batch that has no price. */
function PriceCells({ price }: { readonly price: PriceRow | undefined }) {
  const say = useSay();
  const figures =
    price === undefined
      ? [null, null, null]
      : [price.costPerSign, price.pricePerSign, price.machineMinutes + price.handMinutes];
  const [cost, money, minutes] = figures.map((figure, at) =>
    figure === null ? '\u2013' : say.number(figure, at < 2 ? 2 : 1),
  );
  return (
    <>
      <td>{cost}</td>
      <td>{money}</td>
      <td>{minutes}</td>
    </>
  );
}

function Chart({ rows, spots }: { readonly rows: readonly BatchRow[]; readonly spots: readonly number[] }) {
  const say = useSay();
  const most = Math.max(...rows.map((row) => row.boards), 1);
  const perSignMost = Math.max(...rows.map((row) => row.boards / row.batch), 1);
  const inner = { width: CHART.width - CHART.left - CHART.right, height: CHART.height - CHART.bottom - CHART.top };
  const step = inner.width / rows.length;
  const bar = Math.min(step * 0.6, 44);
  const x = (index: number): number => CHART.left + step * (index + 0.5);
  const y = (share: number): number => CHART.top + inner.height * (1 - share);
  const ground = CHART.top + inner.height;
  const line = rows
    .map((row, index) => `${index === 0 ? 'M' : 'L'}${x(index)} ${y(row.boards / row.batch / perSignMost)}`)
    .join('');
  const words = rows
    .map((row) => say.t('batch.chart-row', { n: row.batch, boards: row.boards, least: row.boardsLowerBound }))
    .join('; ');
  return (
    <svg
      className="chart"
      viewBox={`0 0 ${CHART.width} ${CHART.height}`}
      role="img"
      aria-label={say.t('batch.chart', { rows: words, best: say.list(spots.map(String)) })}
    >
      <path d={`M${CHART.left} ${ground}h${inner.width}`} className="axis" />
      <UprightAxis
        at={CHART.left}
        from={ground}
        to={CHART.top}
        most={most}
        title={say.t('compare.figure-boards')}
        say={(value) => say.number(value, 1)}
      />
      <UprightAxis
        at={CHART.left + inner.width}
        from={ground}
        to={CHART.top}
        most={perSignMost}
        title={say.t('compare.figure-boardsPerSign')}
        say={(value) => say.number(value, 2)}
        isRight
      />
      <text x={CHART.left + inner.width / 2} y={CHART.height - 6} textAnchor="middle" className="axis-title">
        {say.t('condition.batch')}
      </text>
      {rows.map((row, index) => {
        const isSpot = spots.includes(row.batch);
        const top = y(row.boards / most);
        return (
          <g key={row.batch}>
            <rect
              x={x(index) - bar / 2}
              y={top}
              width={bar}
              height={ground - top}
              className={isSpot ? 'bar-used' : 'bar-all'}
            />
            <path d={`M${x(index) - bar / 2 - 3} ${y(row.boardsLowerBound / most)}h${bar + 6}`} className="bar-bound" />
            <text x={x(index)} y={top - 9} textAnchor="middle">
              {row.boards}
            </text>
            <text x={x(index)} y={ground + 14} textAnchor="middle">
              {row.batch}
            </text>
            {isSpot ? (
              <text x={x(index)} y={ground + 30} textAnchor="middle" className="spot">
                {say.t('batch.a-sign', { boards: say.number(row.boards / row.batch, 2) })}
              </text>
            ) : null}
          </g>
        );
      })}
      <path d={line} className="per-sign" />
    </svg>
  );
}
