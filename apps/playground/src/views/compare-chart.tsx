import { figuresOf } from '../state/comparison.ts';
import type { KeptLayout } from '../state/desk.ts';
import { useSay } from '../state/use-say.ts';
import { LyingAxis } from './chart-axis.tsx';

const BAR = { height: 18, row: 46, left: 4, width: 500, right: 190, top: 4, bottom: 46 } as const;

/** Boards a sign (bars, with the proven least as a mark) and what is used of them; names stand whole above their bars. */
export function CompareChart({ layouts }: { readonly layouts: readonly KeptLayout[] }) {
  const say = useSay();
  if (layouts.length < 2) return null;
  const figures = layouts.map(figuresOf);
  const most = Math.max(...figures.map((figure) => figure.boardsPerSign));
  const ground = BAR.top + layouts.length * BAR.row;
  const words = layouts.map((layout, index) =>
    say.t('compare.chart-row', {
      name: layout.name,
      boards: figures[index]?.boardsPerSign ?? 0,
      share: say.percent(figures[index]?.yield ?? 0, 1),
    }),
  );
  return (
    <svg
      className="chart"
      viewBox={`0 0 ${BAR.left + BAR.width + BAR.right} ${ground + BAR.bottom}`}
      role="img"
      aria-label={say.t('compare.chart', { rows: words.join('; ') })}
    >
      {layouts.map((layout, index) => {
        const figure = figures[index];
        if (figure === undefined) return null;
        const y = BAR.top + index * BAR.row + 20;
        const width = (figure.boardsPerSign / most) * BAR.width;
        const bound = (figure.boardsLowerBound / Math.max(layout.conditions.batch, 1) / most) * BAR.width;
        return (
          <g key={layout.id}>
            <text x={BAR.left} y={y - 7}>
              {layout.name}
            </text>
            <rect x={BAR.left} y={y} width={width} height={BAR.height} className="bar-all" />
            <rect x={BAR.left} y={y} width={width * figure.yield} height={BAR.height} className="bar-used" />
            <path d={`M${BAR.left + bound} ${y - 3}v${BAR.height + 6}`} className="bar-bound" />
            <text x={BAR.left + width + 8} y={y + BAR.height / 2} dominantBaseline="central">
              {say.t('compare.bar', {
                boards: say.number(figure.boardsPerSign, 2),
                share: say.percent(figure.yield, 1),
              })}
            </text>
          </g>
        );
      })}
      <LyingAxis
        at={ground}
        from={BAR.left}
        to={BAR.left + BAR.width}
        most={most}
        title={say.t('compare.figure-boardsPerSign')}
        say={(value) => say.number(value, 2)}
      />
    </svg>
  );
}
