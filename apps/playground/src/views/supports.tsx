import { PhraseView } from '../sentence/phrase-view.tsx';
import type { Desk } from '../state/desk.ts';
import { partName, restWords } from '../state/matters.ts';
import { useSession } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import type { ArtworkView, StackView } from '../workers/views.ts';
import { LookHere } from './look-here.tsx';
import { Sentence } from './stage-frame.tsx';

/** Parts that rest badly, and the fillers that would carry them. */
export function Supports({
  desk,
  artwork,
  stack,
}: {
  readonly desk: Desk;
  readonly artwork: ArtworkView;
  readonly stack: StackView;
}) {
  const session = useSession();
  const say = useSay();
  const { fillers } = desk.job.artwork;
  const faulty = stack.layers.filter((layer) => layer.fault !== null && layer.fault !== 'tips');
  const isFilled = (id: string): boolean => fillers === 'all' || (fillers !== 'none' && fillers.includes(id));
  const setFillers = (next: Desk['job']['artwork']['fillers']): void =>
    session.actOnJob(say.t('step.fillers'), (job) => ({ ...job, artwork: { ...job.artwork, fillers: next } }));
  const listed = fillers === 'none' || fillers === 'all' ? [] : fillers;
  const out = (
    <button type="button" className="quiet" onClick={() => setFillers('none')}>
      {say.t('stack.fillers-out')}
    </button>
  );
  return (
    <>
      {faulty.length === 0 ? null : (
        <ul className="told">
          {faulty.map((layer) => {
            return (
              <li key={layer.partId} className="look">
                <LookHere /> {restWords(layer.partId, layer.fault, artwork, say)}{' '}
                {layer.fillers.length === 0 || isFilled(layer.partId) ? null : (
                  <button type="button" className="quiet" onClick={() => setFillers([...listed, layer.partId])}>
                    {say.t('stack.filler')}
                  </button>
                )}
              </li>
            );
          })}
        </ul>
      )}
      {fillers === 'none' || fillers.length === 0 ? null : (
        <Sentence>
          {fillers === 'all' ? (
            <PhraseView of="stack.fillers-all" places={{ out }} />
          ) : (
            <PhraseView
              of="stack.fillers-some"
              places={{ names: say.list(fillers.map((id) => partName(id, artwork))), out }}
            />
          )}
        </Sentence>
      )}
    </>
  );
}
