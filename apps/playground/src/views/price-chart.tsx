import type { PriceRow } from '@underlap/shop/price';
import { useSay } from '../state/use-say.ts';
import { UprightAxis } from './chart-axis.tsx';

const CHART = { width: 620, height: 240, left: 40, right: 70, bottom: 44, top: 46 } as const;

/** Half the side of a square, radius of a dot. */
const MARK = 4;

/** What one sign costs (dots) and sells at (squares), batch by batch: told apart by shape, and by words at the end. */
export function PriceChart({ prices, currency }: { readonly prices: readonly PriceRow[]; readonly currency: string }) {
  const say = useSay();
  const most = Math.max(1e-9, ...prices.map((row) => Math.max(row.pricePerSign, row.costPerSign)));
  const right = CHART.width - CHART.right;
  const ground = CHART.height - CHART.bottom;
  const step = (right - CHART.left) / prices.length;
  const x = (index: number): number => CHART.left + step * (index + 0.5);
  const y = (value: number): number => ground - ((ground - CHART.top) * value) / most;
  const line = (value: (row: PriceRow) => number): string =>
    prices.map((row, index) => `${index === 0 ? 'M' : 'L'}${x(index)} ${y(value(row))}`).join('');
  const words = prices
    .map((row) =>
      say.t('batch.price-row', {
        n: row.batch,
        cost: say.number(row.costPerSign, 2),
        price: say.number(row.pricePerSign, 2),
      }),
    )
    .join('; ');
  const last = prices.at(-1);
  if (last === undefined) return null;
  const priceAt = y(last.pricePerSign);
  return (
    <svg
      className="chart"
      viewBox={`0 0 ${CHART.width} ${CHART.height}`}
      role="img"
      aria-label={say.t('batch.price-chart', { rows: words })}
    >
      <path d={`M${CHART.left} ${ground}H${right}`} className="axis" />
      <UprightAxis
        at={CHART.left}
        from={ground}
        to={CHART.top}
        most={most}
        title={say.t('batch.money', { currency })}
        say={(value) => say.number(value, most < 10 ? 1 : 0)}
      />
      <path d={line((row) => row.costPerSign)} className="per-sign" />
      <path d={line((row) => row.pricePerSign)} className="per-sign is-price" />
      {prices.map((row, index) => (
        <g key={row.batch}>
          <circle cx={x(index)} cy={y(row.costPerSign)} r={MARK} className="chart-mark" />
          <rect
            x={x(index) - MARK}
            y={y(row.pricePerSign) - MARK}
            width={2 * MARK}
            height={2 * MARK}
            className="chart-mark"
          />
          <text x={x(index)} y={ground + 14} textAnchor="middle">
            {row.batch}
          </text>
        </g>
      ))}
      <text x={right + 4} y={priceAt} dominantBaseline="central">
        {say.t('batch.price')}
      </text>
      <text x={right + 4} y={Math.max(y(last.costPerSign), priceAt + 14)} dominantBaseline="central">
        {say.t('batch.cost')}
      </text>
      <text x={(CHART.left + right) / 2} y={CHART.height - 6} textAnchor="middle" className="axis-title">
        {say.t('condition.batch')}
      </text>
    </svg>
  );
}
