/** Round steps of an axis from 0, at most five or so: 1, 2 or 5 times a power of ten. */
export function axisSteps(most: number): readonly number[] {
  const rough = Math.max(most, 1e-9) / 4;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((times) => times * power).find((size) => size >= rough) ?? 10 * power;
  const steps = [];
  for (let at = 0; at <= most + step * 1e-6; at += step) steps.push(Number(at.toPrecision(6)));
  return steps;
}

interface AxisProps {
  /** Where the axis stands, and from where to where it runs, in the chart's own units. */
  readonly at: number;
  readonly from: number;
  readonly to: number;
  readonly most: number;
  readonly title: string;
  say(value: number): string;
}

/** An upright axis from 0 at `from` (below) to `most` at `to`, with its title above it. */
export function UprightAxis({
  at,
  from,
  to,
  most,
  title,
  say,
  isRight,
}: AxisProps & {
  /** Figures stand right of it; also no lines across. */
  readonly isRight?: boolean;
}) {
  const side = isRight === true ? 1 : -1;
  return (
    <g>
      <path d={`M${at} ${from}V${to}`} className="axis" />
      {axisSteps(most).map((value) => {
        const y = from + (to - from) * (value / most);
        return (
          <g key={value}>
            <path d={`M${at} ${y}h${side * 5}`} className="axis" />
            <text x={at + side * 8} y={y} textAnchor={side === 1 ? 'start' : 'end'} dominantBaseline="central">
              {say(value)}
            </text>
          </g>
        );
      })}
      <text x={at + side * 34} y={to - 18} textAnchor={side === 1 ? 'end' : 'start'} className="axis-title">
        {title}
      </text>
    </g>
  );
}

/** A lying axis from 0 at `from` (left) to `most` at `to`, with its title below it. */
export function LyingAxis({ at, from, to, most, title, say }: AxisProps) {
  return (
    <g>
      <path d={`M${from} ${at}H${to}`} className="axis" />
      {axisSteps(most).map((value) => {
        const x = from + (to - from) * (value / most);
        return (
          <g key={value}>
            <path d={`M${x} ${at}v5`} className="axis" />
            <text x={x} y={at + 18} textAnchor="middle">
              {say(value)}
            </text>
          </g>
        );
      })}
      <text x={to} y={at + 36} textAnchor="end" className="axis-title">
        {title}
      </text>
    </g>
  );
}
