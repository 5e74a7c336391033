import { MOST_SIGNS, MOST_SPACING_MM } from '@underlap/job/choices';
import type { Job } from '@underlap/job/document';
import { useState } from 'react';
import { PhraseView } from '../sentence/phrase-view.tsx';
import { ChoicePlace, LengthPlace, NumberPlace } from '../sentence/places.tsx';
import { conditionWords } from '../state/comparison.ts';
import { conditionsOf, type Desk, type KeptLayout } from '../state/desk.ts';
import { useSession } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import { SIDE, type TurnWord, turnChoices } from './common-choices.ts';
import { Sentence } from './stage-frame.tsx';

type What = 'boards' | 'turns' | 'batch' | 'spacing' | 'bed';

/** The same sign under one other condition, laid out beside the one on the page and kept. */
export function TryAnother({ desk, nameFor }: { readonly desk: Desk; nameFor(wish: string): string }) {
  const session = useSession();
  const say = useSay();
  const { job } = desk;
  const [what, setWhat] = useState<What>('boards');
  const [size, setSize] = useState({ width: 610, height: 305 });
  const [rule, setRule] = useState<TurnWord>('any');
  const [batch, setBatch] = useState(job.batch * 2);
  const [spacing, setSpacing] = useState(job.spacing + 1);
  const [isBusy, setBusy] = useState(false);

  const variant = (): { job: Job; name: string } => {
    const free = { ...job, pinned: [] };
    switch (what) {
      case 'boards': {
        const [first] = job.boards;
        const boards = first === undefined ? [] : [{ ...first, ...size, id: null, forbidden: [] }];
        return {
          job: { ...free, boards },
          name: say.t('try.name-boards', { size: say.size(size.width, size.height) }),
        };
      }
      case 'bed':
        return {
          job: { ...free, bed: { ...job.bed, ...size } },
          name: say.t('try.name-bed', { size: say.size(size.width, size.height) }),
        };
      case 'turns':
        return {
          job: { ...free, turns: { ...job.turns, default: rule } },
          name: conditionWords({ ...conditionsOf(job), turns: rule }, 'turns', say),
        };
      case 'batch':
        return { job: { ...free, batch }, name: say.t('try.name-batch', { n: batch }) };
      case 'spacing':
        return { job: { ...free, spacing }, name: say.t('try.name-spacing', { length: say.length(spacing) }) };
    }
  };
  const layOut = (): void => {
    const { job: other, name } = variant();
    setBusy(true);
    void session
      .attempt(async () => {
        const started = performance.now();
        const { boards, run } = await session.client.ask((api) => api.layOut(other));
        const layout: KeptLayout = {
          id: crypto.randomUUID(),
          name: nameFor(name),
          conditions: conditionsOf(other),
          boards,
          run,
          seconds: (performance.now() - started) / 1000,
        };
        session.act(say.t('step.layout-kept', { layout: layout.name }), (before) => ({
          ...before,
          kept: [...before.kept, layout],
        }));
      })
      .finally(() => setBusy(false));
  };

  const sizePlaces = (
    <PhraseView
      of="try.size"
      places={{
        width: (
          <LengthPlace
            label={say.t('try.width-label')}
            value={size.width}
            {...SIDE}
            isBare
            onChange={(width) => setSize({ ...size, width })}
          />
        ),
        height: (
          <LengthPlace
            label={say.t('try.height-label')}
            value={size.height}
            {...SIDE}
            onChange={(height) => setSize({ ...size, height })}
          />
        ),
      }}
    />
  );
  const how = {
    boards: sizePlaces,
    bed: sizePlaces,
    turns: (
      <ChoicePlace<TurnWord>
        label={say.t('try.turns-label')}
        value={rule}
        choices={turnChoices(say)}
        onChange={(value) => setRule(value)}
      />
    ),
    batch: (
      <NumberPlace label={say.t('try.batch-label')} value={batch} least={1} most={MOST_SIGNS} onChange={setBatch} />
    ),
    spacing: (
      <LengthPlace
        label={say.t('try.spacing-label')}
        value={spacing}
        least={0}
        most={MOST_SPACING_MM}
        onChange={setSpacing}
      />
    ),
  }[what];

  return (
    <div className="try">
      <Sentence>
        <PhraseView
          of="try.sentence"
          places={{
            what: (
              <ChoicePlace<What>
                label={say.t('try.what-label')}
                value={what}
                choices={[
                  { value: 'boards', words: say.t('try.boards') },
                  { value: 'bed', words: say.t('try.bed') },
                  { value: 'turns', words: say.t('try.turns') },
                  { value: 'batch', words: say.t('try.batch') },
                  { value: 'spacing', words: say.t('try.spacing') },
                ]}
                onChange={(value) => setWhat(value)}
              />
            ),
            how,
          }}
        />
      </Sentence>
      <div className="buttons">
        <button type="button" className="strong" disabled={isBusy} onClick={layOut}>
          {say.t(isBusy ? 'try.busy' : 'try.go')}
        </button>
        {isBusy ? (
          <button type="button" onClick={() => void session.attempt(session.stopTrying)}>
            {say.t('try.stop')}
          </button>
        ) : null}
      </div>
    </div>
  );
}
