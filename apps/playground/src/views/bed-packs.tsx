import { parseSize, type Size } from '@underlap/job/units';
import { useState } from 'react';
import { PhraseView } from '../sentence/phrase-view.tsx';
import { WordsPlace } from '../sentence/places.tsx';
import { TypedPlace } from '../sentence/typed-place.tsx';
import { type Desk, jobToPlan } from '../state/desk.ts';
import { useSession } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import { proxy } from '../workers/client.ts';
import { saveBytes } from './save-bytes.ts';
import { Sentence } from './stage-frame.tsx';

/** Beds that are common among small machines, mm (common practice, no source). */
const USUAL_BEDS = '300x200, 400x400, 600x300';

/** The same design for other beds: a folder a bed with everything a buyer of the files needs. */
export function BedPacks({ desk }: { readonly desk: Desk }) {
  const session = useSession();
  const say = useSay();
  const [beds, setBeds] = useState(USUAL_BEDS);
  const [at, setAt] = useState<number | null>(null);
  const { output } = desk.job;
  const sizes = sizesIn(beds) ?? [];
  const make = (): void => {
    setAt(1);
    void session
      .attempt(async () => {
        const { name, mime, bytes } = await session.client.ask((api) =>
          api.packs(
            jobToPlan(desk),
            sizes,
            proxy((bed: number) => setAt(bed)),
          ),
        );
        saveBytes(name, mime, bytes);
        session.notices.say(say.t('notice.saved', { file: name }));
      })
      .finally(() => setAt(null));
  };
  return (
    <>
      <Sentence>
        <PhraseView
          of="packs.beds"
          places={{
            beds: (
              <TypedPlace<string>
                label={say.t('packs.beds-label')}
                value={beds}
                format={(text) => text}
                parse={(text) =>
                  sizesIn(text) === null ? { problem: say.t('packs.not-beds') } : { value: text.trim() }
                }
                onChange={setBeds}
              />
            ),
          }}
        />
      </Sentence>
      <Sentence>
        <PhraseView
          of="packs.licence"
          places={{
            licence: (
              <WordsPlace
                label={say.t('packs.licence-label')}
                value={output.licence}
                placeholder={say.t('packs.licence-none')}
                onChange={(licence) =>
                  session.actOnJob(say.t('step.licence'), (job) => ({ ...job, output: { ...job.output, licence } }))
                }
              />
            ),
          }}
        />
      </Sentence>
      <p className="hint">{say.t('packs.hold')}</p>
      <div className="buttons">
        <button type="button" disabled={at !== null} onClick={make}>
          {at === null ? say.t('packs.make') : say.t('packs.busy', { n: at, all: sizes.length })}
        </button>
        {at === null ? null : (
          <button type="button" onClick={() => void session.attempt(session.stopTrying)}>
            {say.t('try.stop')}
          </button>
        )}
      </div>
    </>
  );
}

/** "300x200, 12x8in"; null when one of them is no size, or there are none or too many. */
function sizesIn(text: string): Size[] | null {
  const sizes = text
    .split(/[,;]/)
    .map((part) => part.trim())
    .filter((part) => part !== '')
    .map((part) => parseSize(part));
  const known = sizes.filter((size) => size !== null);
  return known.length === sizes.length && known.length > 0 && known.length <= 8 ? known : null;
}
