import { memo, useState } from 'react';
import { conditionWords } from '../state/comparison.ts';
import { conditionsOf, type Desk, jobToPlan, type KeptLayout } from '../state/desk.ts';
import { useSession, useValue } from '../state/page-context.ts';
import { BatchChart } from './batch-chart.tsx';
import { CompareTable } from './compare-table.tsx';
import { TryAnother } from './try-another.tsx';
import { useSay } from './use-say.ts';

/** Layouts worth remembering, side by side, and what a batch needs. */
export const Shelf = memo(function Shelf({ desk }: { readonly desk: Desk }) {
  const session = useSession();
  const { boards, split } = useValue(session.planning.results);
  const trace = useValue(session.planning.trace);
  const say = useSay();
  const [isTrying, setTrying] = useState(false);
  const { view } = boards;
  const canKeep = boards.status === 'done' && view !== null && split.status === 'done';

  const keep = (): void => {
    if (view === null) return;
    const conditions = conditionsOf(jobToPlan(desk));
    const layout: KeptLayout = {
      id: crypto.randomUUID(),
      name: nameFor(desk, conditionWords(conditions, 'boards', say)),
      conditions,
      boards: view,
      seconds: trace.at(-1)?.seconds ?? null,
    };
    session.act(`${layout.name} kept`, (before) => ({ ...before, kept: [...before.kept, layout] }));
  };

  return (
    <section className={desk.kept.length > 0 ? 'shelf has-kept' : 'shelf'} aria-label="Compare and batch">
      <div className="shelf-part">
        <h2>Compare</h2>
        <div className="buttons">
          <button type="button" className="strong" disabled={!canKeep} onClick={keep}>
            Keep this layout
          </button>
          <button type="button" aria-expanded={isTrying} onClick={() => setTrying(!isTrying)}>
            Try it another way
          </button>
        </div>
        {isTrying ? <TryAnother desk={desk} nameFor={(name) => nameFor(desk, name)} /> : null}
        {desk.kept.length === 0 ? (
          <p className="hint">
            Keep a layout, change the boards, the turning or the batch, keep that one too, and see what makes the
            difference.
          </p>
        ) : (
          <CompareTable desk={desk} />
        )}
      </div>
      <BatchChart desk={desk} />
    </section>
  );
});

/** A name that no kept layout has. */
function nameFor(desk: Desk, wish: string): string {
  const taken = new Set(desk.kept.map((layout) => layout.name));
  if (!taken.has(wish)) return wish;
  let number = 2;
  while (taken.has(`${wish} (${number})`)) number += 1;
  return `${wish} (${number})`;
}
