import { figuresOf } from '../state/comparison.ts';
import type { KeptLayout } from '../state/desk.ts';
import { useSay } from '../state/use-say.ts';

const BAR = { height: 18, gap: 10, left: 150, width: 420 } as const;

/** Boards a sign (bars, with the proven least as a mark) and what is used of them. */
export function CompareChart({ layouts }: { readonly layouts: readonly KeptLayout[] }) {
  const say = useSay();
  if (layouts.length < 2) return null;
  const figures = layouts.map(figuresOf);
  const most = Math.max(...figures.map((figure) => figure.boardsPerSign));
  const height = layouts.length * (BAR.height + BAR.gap);
  const words = layouts.map((layout, index) =>
    say.t('compare.chart-row', {
      name: layout.name,
      boards: figures[index]?.boardsPerSign ?? 0,
      share: say.percent(figures[index]?.yield ?? 0),
    }),
  );
  return (
    <svg
      className="chart"
      viewBox={`0 0 ${BAR.left + BAR.width + 150} ${height}`}
      role="img"
      aria-label={say.t('compare.chart', { rows: words.join('; ') })}
    >
      {layouts.map((layout, index) => {
        const figure = figures[index];
        if (figure === undefined) return null;
        const y = index * (BAR.height + BAR.gap);
        const width = (figure.boardsPerSign / most) * BAR.width;
        const bound = (figure.bound / Math.max(layout.conditions.batch, 1) / most) * BAR.width;
        return (
          <g key={layout.id}>
            <text x={BAR.left - 8} y={y + BAR.height / 2} textAnchor="end" dominantBaseline="central">
              {layout.name.length > 20 ? `${layout.name.slice(0, 19)}\u2026` : layout.name}
            </text>
            <rect x={BAR.left} y={y} width={width} height={BAR.height} className="bar-all" />
            <rect x={BAR.left} y={y} width={width * figure.yield} height={BAR.height} className="bar-used" />
            <path d={`M${BAR.left + bound} ${y - 3}v${BAR.height + 6}`} className="bar-bound" />
            <text x={BAR.left + width + 8} y={y + BAR.height / 2} dominantBaseline="central">
              {say.t('compare.bar', { boards: say.number(figure.boardsPerSign, 2), share: say.percent(figure.yield) })}
            </text>
          </g>
        );
      })}
    </svg>
  );
}
