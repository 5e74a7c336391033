import { designsOf } from '@underlap/job/designs';
import { PhraseView } from '../sentence/phrase-view.tsx';
import { ChoicePlace } from '../sentence/places.tsx';
import { useSession, useValue } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import { Sentence } from './stage-frame.tsx';

/** Which design of a job with several is shown in drawing, stack and seams. */
export function DesignChoice() {
  const session = useSession();
  const say = useSay();
  const history = useValue(session.history);
  const looksAt = useValue(session.planning.looksAt);
  const designs = designIds(history?.present.job);
  const [first] = designs;
  if (first === undefined || designs.length < 2) return null;
  return (
    <Sentence>
      <PhraseView
        of="design.shown"
        places={{
          design: (
            <ChoicePlace
              label={say.t('design.shown-label')}
              value={looksAt !== null && designs.includes(looksAt) ? looksAt : first}
              choices={designs.map((id) => ({ value: id, words: id }))}
              onChange={session.lookAt}
            />
          ),
          n: designs.length,
        }}
      />
    </Sentence>
  );
}

/** Ids of the designs of a job; of a faulty table of names none, the stage says what is wrong with it. */
function designIds(job: Parameters<typeof designsOf>[0] | undefined): string[] {
  if (job === undefined) return [];
  try {
    return designsOf(job).map(({ id }) => id);
  } catch {
    return [];
  }
}
