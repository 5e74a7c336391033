import { memo, useState } from 'react';
import { conditionWords } from '../state/comparison.ts';
import { conditionsOf, type Desk, jobToPlan, type KeptLayout } from '../state/desk.ts';
import { useSession, useValue } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import type { Say } from '../words/say.ts';
import type { FilesView, RunFigures } from '../workers/views.ts';
import { BatchChart } from './batch-chart.tsx';
import { CompareTable } from './compare-table.tsx';
import { TryAnother } from './try-another.tsx';

/** Layouts worth remembering, side by side, and what a batch needs. */
export const Shelf = memo(function Shelf({ desk }: { readonly desk: Desk }) {
  const session = useSession();
  const { boards, split, files } = useValue(session.planning.results);
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
      name: nameFor(desk, conditionWords(conditions, 'boards', say), say),
      conditions,
      boards: view,
      seconds: trace.at(-1)?.seconds ?? null,
      run: files.status === 'done' ? runOf(files.view) : null,
    };
    session.act(say.t('step.layout-kept', { layout: layout.name }), (before) => ({
      ...before,
      kept: [...before.kept, layout],
    }));
  };

  return (
    <section className={desk.kept.length > 0 ? 'shelf has-kept' : 'shelf'} aria-label={say.t('compare.section')}>
      <div className="shelf-part">
        <h2>{say.t('compare.title')}</h2>
        <div className="buttons">
          <button type="button" className="strong" disabled={!canKeep} onClick={keep}>
            {say.t('compare.keep')}
          </button>
          <button type="button" aria-expanded={isTrying} onClick={() => setTrying(!isTrying)}>
            {say.t('compare.try')}
          </button>
        </div>
        {isTrying ? <TryAnother desk={desk} nameFor={(name) => nameFor(desk, name, say)} /> : null}
        {desk.kept.length === 0 ? <p className="hint">{say.t('compare.hint')}</p> : <CompareTable desk={desk} />}
      </div>
      <BatchChart desk={desk} />
    </section>
  );
});

/** A name that no kept layout has. */
function nameFor(desk: Desk, wish: string, say: Say): string {
  const taken = new Set(desk.kept.map((layout) => layout.name));
  if (!taken.has(wish)) return wish;
  let number = 2;
  const numbered = (n: number): string => say.t('compare.nth', { name: wish, n });
  while (taken.has(numbered(number))) number += 1;
  return numbered(number);
}

function runOf(view: FilesView | null): RunFigures | null {
  if (view === null) return null;
  const { costPerSign, currency, machineSeconds } = view;
  return { costPerSign, currency, machineSeconds };
}
