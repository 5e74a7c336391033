import type { Job } from '@underlap/job/document';
import { useState } from 'react';
import { ChoicePlace, LengthPlace, NumberPlace } from '../sentence/places.tsx';
import { conditionsOf, type Desk, type KeptLayout, turnWords } from '../state/desk.ts';
import { useSession } from '../state/page-context.ts';
import { SIDE, TURN_CHOICES, type TurnWord } from './common-choices.ts';
import { Sentence } from './stage-frame.tsx';
import { useSay } from './use-say.ts';

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
        return { job: { ...free, boards }, name: `boards ${say.size(size.width, size.height)}` };
      }
      case 'bed':
        return { job: { ...free, bed: { ...job.bed, ...size } }, name: `bed ${say.size(size.width, size.height)}` };
      case 'turns':
        return { job: { ...free, turns: { ...job.turns, default: rule } }, name: turnWords(rule) };
      case 'batch':
        return { job: { ...free, batch }, name: `${batch} signs` };
      case 'spacing':
        return { job: { ...free, spacing }, name: `${say.length(spacing)} apart` };
    }
  };
  const layOut = (): void => {
    const { job: other, name } = variant();
    setBusy(true);
    void session
      .attempt(async () => {
        const started = performance.now();
        const boards = await session.client.ask((api) => api.layOut(other));
        const layout: KeptLayout = {
          id: crypto.randomUUID(),
          name: nameFor(name),
          conditions: conditionsOf(other),
          boards,
          seconds: (performance.now() - started) / 1000,
        };
        session.act(`${layout.name} kept`, (before) => ({ ...before, kept: [...before.kept, layout] }));
      })
      .finally(() => setBusy(false));
  };

  return (
    <div className="try">
      <Sentence>
        The same sign with{' '}
        <ChoicePlace<What>
          label="What is different"
          value={what}
          choices={[
            { value: 'boards', words: 'boards of' },
            { value: 'bed', words: 'a bed of' },
            { value: 'turns', words: 'pieces turned' },
            { value: 'batch', words: 'a batch of' },
            { value: 'spacing', words: 'pieces apart by' },
          ]}
          onChange={(value) => setWhat(value)}
        />{' '}
        {what === 'boards' || what === 'bed' ? (
          <>
            <LengthPlace
              label="Width to try"
              value={size.width}
              {...SIDE}
              isBare
              onChange={(width) => setSize({ ...size, width })}
            />{' '}
            &times;{' '}
            <LengthPlace
              label="Height to try"
              value={size.height}
              {...SIDE}
              onChange={(height) => setSize({ ...size, height })}
            />
          </>
        ) : null}
        {what === 'turns' ? (
          <ChoicePlace<TurnWord>
            label="Turning to try"
            value={rule}
            choices={TURN_CHOICES}
            onChange={(value) => setRule(value)}
          />
        ) : null}
        {what === 'batch' ? (
          <NumberPlace label="Batch to try" value={batch} least={1} most={500} onChange={setBatch} />
        ) : null}
        {what === 'spacing' ? (
          <LengthPlace label="Spacing to try" value={spacing} least={0} most={200} onChange={setSpacing} />
        ) : null}
        .
      </Sentence>
      <div className="buttons">
        <button type="button" className="strong" disabled={isBusy} onClick={layOut}>
          {isBusy ? 'Laying it out' : 'Lay it out and keep it'}
        </button>
        {isBusy ? (
          <button type="button" onClick={() => void session.attempt(session.stopTrying)}>
            Stop trying
          </button>
        ) : null}
      </div>
    </div>
  );
}
