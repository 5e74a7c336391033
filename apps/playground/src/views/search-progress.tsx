import { useSession, useValue } from '../state/page-context.ts';
import type { StageState } from '../state/results.ts';
import { isBusy } from '../state/results.ts';
import { useSay } from '../state/use-say.ts';
import type { BoardsView } from '../workers/views.ts';

/** How far the search is, its yield over time, and how to stop it. */
export function SearchProgress({ state }: { readonly state: StageState<BoardsView> }) {
  const session = useSession();
  const results = useValue(session.planning.results);
  const say = useSay();
  const isSearching = state.status === 'working';
  const hasLayout = useValue(session.planning.hasLayout);
  const canGoBack = useValue(session.canGoBack);
  const { view } = state;
  const percent = Math.round(state.done * 100);
  return (
    <div className="search">
      {isSearching ? (
        <>
          <div
            className="bar"
            role="progressbar"
            aria-label={say.t('search.laying-out')}
            aria-valuemin={0}
            aria-valuemax={100}
            aria-valuenow={percent}
          >
            <span style={{ transform: `scaleX(${Math.max(state.done, 0.02)})` }} />
          </div>
          <p className="sentence">
            {view === null || !hasLayout
              ? say.t('search.none-yet', { share: say.percent(state.done) })
              : say.t('search.best', {
                  share: say.percent(state.done),
                  n: view.sheets.length,
                  used: say.percent(view.yield, 1),
                })}
          </p>
        </>
      ) : null}
      <YieldCurve />
      {isSearching || view === null ? null : <Gained />}
      <div className="buttons">
        {isSearching && hasLayout ? (
          <button type="button" className="strong" onClick={() => void session.attempt(session.planning.stopSearch)}>
            {say.t('search.stop-keep')}
          </button>
        ) : null}
        {isSearching && !hasLayout && canGoBack ? (
          <button type="button" className="strong" onClick={() => void session.attempt(session.goBack)}>
            {say.t('search.stop-back')}
          </button>
        ) : null}
        {isBusy(results) ? (
          <button type="button" onClick={() => void session.planning.cancel()}>
            {say.t('search.stop-all')}
          </button>
        ) : null}
        {!isSearching && view !== null && view.endedBy === 'cancelled' ? (
          <button
            type="button"
            onClick={() =>
              void session.attempt(async () => {
                await session.searchAgain();
              })
            }
          >
            {say.t('search.on')}
          </button>
        ) : null}
      </div>
    </div>
  );
}

/** A shorter search is not spoken of, seconds. */
const LEAST_SEARCH_S = 2;

/** What the search has brought over its first layout. */
function Gained() {
  const trace = useValue(useSession().planning.trace);
  const say = useSay();
  const first = trace[0];
  const last = trace.at(-1);
  if (first === undefined || last === undefined || last.seconds < LEAST_SEARCH_S) return null;
  const n = first.boards - last.boards;
  return (
    <p className="hint">
      {n > 0 ? say.t('search.gained', { n, from: first.boards, to: last.boards }) : say.t('search.gained-none')}
    </p>
  );
}

const CURVE = { width: 300, height: 44 } as const;

/** Yield over the seconds of the search, as a small curve. */
function YieldCurve() {
  const trace = useValue(useSession().planning.trace);
  const say = useSay();
  const last = trace.at(-1);
  if (trace.length < 3 || last === undefined || last.seconds < 0.5) return null;
  if (Math.abs(last.yield - (trace[0]?.yield ?? 0)) < 5e-4) return null;
  const least = Math.min(...trace.map((point) => point.yield)) - 0.01;
  const most = Math.max(...trace.map((point) => point.yield)) + 0.005;
  const at = (seconds: number, share: number): string =>
    `${((seconds / Math.max(last.seconds, 0.01)) * CURVE.width).toFixed(1)} ${(CURVE.height - ((share - least) / (most - least)) * CURVE.height).toFixed(1)}`;
  const steps = trace.map(
    (point, index) =>
      `${index === 0 ? 'M' : 'L'}${at(point.seconds, (trace[index - 1] ?? point).yield)}L${at(point.seconds, point.yield)}`,
  );
  return (
    <svg
      className="curve"
      preserveAspectRatio="none"
      viewBox={`0 0 ${CURVE.width} ${CURVE.height}`}
      role="img"
      aria-label={say.t('search.curve', {
        from: say.percent(trace[0]?.yield ?? 0, 1),
        to: say.percent(last.yield, 1),
        n: say.number(last.seconds, 1),
      })}
    >
      <path d={steps.join('')} fill="none" stroke="var(--good)" strokeWidth={2} />
    </svg>
  );
}
