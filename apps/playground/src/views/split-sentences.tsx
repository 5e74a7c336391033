import { FIT_RANGE_MM } from '@underlap/job/choices';
import { LARGEST_KERF_MM } from '@underlap/seam/sizes';
import { splitParts } from '../picture/pictures.ts';
import { PhraseView } from '../sentence/phrase-view.tsx';
import { ChoicePlace, LengthPlace } from '../sentence/places.tsx';
import type { Desk } from '../state/desk.ts';
import { useSession } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import type { ArtworkView, SplitView } from '../workers/views.ts';
import { SIDE } from './common-choices.ts';
import { saveBytes } from './save-bytes.ts';
import { More, Sentence } from './stage-frame.tsx';

/** The machine, and what follows from it. */
export function BedSentence({
  desk,
  split,
  artwork,
}: {
  readonly desk: Desk;
  readonly split: SplitView | null;
  readonly artwork: ArtworkView | null;
}) {
  const session = useSession();
  const say = useSay();
  const { job } = desk;
  const setBed = (name: string, change: Partial<Desk['job']['bed']>): void =>
    session.actOnJob(name, (before) => ({ ...before, bed: { ...before.bed, ...change } }));
  const wanting = split === null ? [] : splitParts(split);
  const names = wanting.map(
    (part) => artwork?.parts.find((candidate) => candidate.id === part.partId)?.name ?? part.partId,
  );
  return (
    <Sentence>
      <PhraseView
        of="split.bed"
        places={{
          width: (
            <LengthPlace
              label={say.t('split.bed-width')}
              value={job.bed.width}
              {...SIDE}
              isBare
              onChange={(width) => setBed(say.t('step.bed', { size: say.size(width, job.bed.height) }), { width })}
            />
          ),
          height: (
            <LengthPlace
              label={say.t('split.bed-height')}
              value={job.bed.height}
              {...SIDE}
              onChange={(height) => setBed(say.t('step.bed', { size: say.size(job.bed.width, height) }), { height })}
            />
          ),
          lying: (
            <ChoicePlace
              label={say.t('split.lying-label')}
              value={job.bed.passThrough}
              choices={[
                { value: 'none', words: say.t('split.lie') },
                { value: 'width', words: say.t('split.through-width') },
                { value: 'height', words: say.t('split.through-height') },
              ]}
              onChange={(passThrough) => setBed(say.t('step.bed-lies'), { passThrough })}
            />
          ),
          larger: (
            <ChoicePlace
              label={say.t('split.larger-label')}
              value={job.loading.way}
              choices={[
                { value: 'move-board', words: say.t('split.move-board') },
                { value: 'cut-down', words: say.t('split.cut-down') },
              ]}
              onChange={(way) =>
                session.actOnJob(say.t('step.loading'), (before) => ({
                  ...before,
                  loading: { ...before.loading, way },
                }))
              }
            />
          ),
        }}
      />{' '}
      {split === null ? null : (
        <span className="follows">
          {wanting.length === 0
            ? say.t('split.so-whole')
            : say.t('split.so-pieces', { names: say.list(names), n: names.length })}
        </span>
      )}
    </Sentence>
  );
}

/** A sheet of small joints from which kerf and fit are read. */
function CouponSentence() {
  const session = useSession();
  const say = useSay();
  const take = (): void =>
    void session.attempt(async () => {
      const { name, mime, bytes } = await session.client.ask((api) => api.coupon());
      saveBytes(name, mime, bytes);
      session.notices.say(say.t('notice.saved', { file: name }));
    });
  return (
    <Sentence>
      <PhraseView
        of="coupon.sentence"
        places={{
          take: (
            <button type="button" className="quiet" onClick={take}>
              {say.t('coupon.take')}
            </button>
          ),
        }}
      />
    </Sentence>
  );
}

/** Common practice, no source: a tenth presses by hand, a tenth and a half slides. mm. */
const FITS: Readonly<Record<string, number>> = { press: -0.05, touch: 0, slide: 0.15 };

function fitWord(fit: number): 'press' | 'touch' | 'slide' | 'own' {
  if (fit === FITS.press) return 'press';
  if (fit === FITS.touch) return 'touch';
  return fit === FITS.slide ? 'slide' : 'own';
}

/** Kerf, thickness and how edges fit. */
export function CutSentences({ desk }: { readonly desk: Desk }) {
  const session = useSession();
  const say = useSay();
  const { job } = desk;
  return (
    <>
      <Sentence>
        <PhraseView
          of="split.cut"
          places={{
            kerf: (
              <LengthPlace
                label={say.t('split.kerf-label')}
                value={job.kerf}
                least={0}
                most={LARGEST_KERF_MM}
                onChange={(kerf) => session.actOnJob(say.t('step.kerf'), (before) => ({ ...before, kerf }))}
              />
            ),
            thickness: (
              <LengthPlace
                label={say.t('split.thickness-label')}
                value={job.thickness}
                least={0.5}
                most={50}
                onChange={(thickness) =>
                  session.actOnJob(say.t('step.thickness'), (before) => ({ ...before, thickness }))
                }
              />
            ),
            fit: (
              <ChoicePlace
                label={say.t('split.fit-label')}
                value={fitWord(job.fit)}
                choices={[
                  { value: 'press', words: say.t('split.press') },
                  { value: 'touch', words: say.t('split.touch') },
                  { value: 'slide', words: say.t('split.slide') },
                  { value: 'own', words: say.t('split.own-gap') },
                ]}
                onChange={(word) =>
                  session.actOnJob(say.t('step.fit'), (before) => ({ ...before, fit: FITS[word] ?? before.fit }))
                }
              />
            ),
          }}
        />
      </Sentence>
      <More label={say.t('split.more')}>
        <CouponSentence />
        <Sentence>
          <PhraseView
            of="split.gap"
            places={{
              gap: (
                <LengthPlace
                  label={say.t('split.gap-label')}
                  value={job.fit}
                  least={FIT_RANGE_MM[0]}
                  most={FIT_RANGE_MM[1]}
                  onChange={(fit) => session.actOnJob(say.t('step.gap'), (before) => ({ ...before, fit }))}
                />
              ),
            }}
          />
        </Sentence>
        <Sentence>
          <PhraseView
            of="split.compensate"
            places={{
              where: (
                <ChoicePlace
                  label={say.t('split.compensate-label')}
                  value={job.compensate}
                  choices={[
                    { value: 'all', words: say.t('split.every-edge') },
                    { value: 'seams', words: say.t('split.seams-only') },
                    { value: 'none', words: say.t('split.by-machine') },
                  ]}
                  onChange={(compensate) =>
                    session.actOnJob(say.t('step.compensate'), (before) => ({ ...before, compensate }))
                  }
                />
              ),
            }}
          />
        </Sentence>
        <Sentence>
          <PhraseView
            of="split.margin"
            places={{
              margin: (
                <LengthPlace
                  label={say.t('split.margin-label')}
                  value={job.bed.margin}
                  least={0}
                  most={100}
                  onChange={(margin) =>
                    session.actOnJob(say.t('step.bed-margin'), (before) => ({
                      ...before,
                      bed: { ...before.bed, margin },
                    }))
                  }
                />
              ),
            }}
          />
        </Sentence>
      </More>
    </>
  );
}
