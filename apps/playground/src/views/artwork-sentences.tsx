import { PhraseView } from '../sentence/phrase-view.tsx';
import { ChoicePlace, LengthPlace, TickPlace } from '../sentence/places.tsx';
import type { Desk } from '../state/desk.ts';
import { useSession } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import type { ArtworkView } from '../workers/views.ts';
import { More, Sentence } from './stage-frame.tsx';
import { USE_WORDS, UseTable } from './use-table.tsx';

/** Size, colours and reading of the drawing as sentences. */
export function ArtworkSentences({ view, desk }: { readonly view: ArtworkView; readonly desk: Desk }) {
  const session = useSession();
  const say = useSay();
  const { artwork } = desk.job;
  const set = (name: string, change: Partial<Desk['job']['artwork']>): void =>
    session.actOnJob(name, (job) => ({ ...job, artwork: { ...job.artwork, ...change } }));
  return (
    <>
      <SizeSentence view={view} desk={desk} />
      <Sentence>
        <PhraseView
          of="artwork.mode"
          places={{
            mode: (
              <ChoicePlace
                label={say.t('artwork.mode-label')}
                value={artwork.mode}
                choices={[
                  {
                    value: 'auto',
                    words: say.t(view.mode === 'stacked' ? 'artwork.seems-stacked' : 'artwork.seems-spread'),
                  },
                  { value: 'stacked', words: say.t('artwork.stacked') },
                  { value: 'spread', words: say.t('artwork.spread') },
                ]}
                onChange={(mode) => set(say.t('step.mode'), { mode })}
              />
            ),
          }}
        />
        {view.matches.length > 0 ? ` ${say.t('artwork.matches', { n: view.matches.length })}` : ''}
      </Sentence>
      <UseTable
        uses={view.uses}
        onChange={({ by, name }, process) =>
          set(
            say.t('step.use', { name, use: say.t(USE_WORDS[process]) }),
            by === 'layer'
              ? { layerKey: { ...artwork.layerKey, [name]: process } }
              : { colourKey: { ...artwork.colourKey, [name]: process } },
          )
        }
        onForget={({ by, name }) =>
          set(
            say.t('step.use-as-drawn', { name }),
            by === 'layer'
              ? { layerKey: without(artwork.layerKey, name) }
              : { colourKey: without(artwork.colourKey, name) },
          )
        }
      />
      <More label={say.t('artwork.more')}>
        <Sentence>
          <TickPlace
            words={say.t('artwork.repair')}
            value={artwork.repair}
            onChange={(repair) => set(say.t(repair ? 'step.repair' : 'step.no-repair'), { repair })}
          />
        </Sentence>
        <Sentence>
          <TickPlace
            words={say.t('artwork.keep-page')}
            value={artwork.keepBackground}
            onChange={(keepBackground) =>
              set(say.t(keepBackground ? 'step.keep-page' : 'step.drop-page'), { keepBackground })
            }
          />
        </Sentence>
        <Sentence>
          <PhraseView
            of="artwork.close-gap"
            places={{
              gap: (
                <LengthPlace
                  label={say.t('artwork.close-gap-label')}
                  value={artwork.closeGap}
                  least={0}
                  most={5}
                  onChange={(closeGap) => set(say.t('step.close-gap'), { closeGap })}
                />
              ),
            }}
          />
        </Sentence>
      </More>
    </>
  );
}

/** True size: told by the file, told by the user, or asked with the customary readings. */
function SizeSentence({ view, desk }: { readonly view: ArtworkView; readonly desk: Desk }) {
  const session = useSession();
  const say = useSay();
  const set = (name: string, change: { width: number | null; perInch: number | null }): void =>
    session.actOnJob(name, (job) => ({ ...job, artwork: { ...job.artwork, ...change } }));
  const widthPlace = (value: number) => (
    <LengthPlace
      label={say.t('artwork.width-label')}
      value={value}
      least={1}
      most={20000}
      onChange={(width) => set(say.t('step.width'), { width, perInch: null })}
    />
  );
  const { width: toldWidth, perInch } = desk.job.artwork;
  const isTold = toldWidth !== null || perInch !== null;
  // an answer counts at once: what is typed next must not go into a question that is about to leave
  if (view.size.kind === 'open' && !isTold) {
    return (
      <fieldset className="question">
        <legend>
          <PhraseView of="artwork.how-large" />
        </legend>
        {view.size.choices.map((choice) => (
          <button
            key={choice.perInch}
            type="button"
            onClick={() => set(say.t('step.per-inch', { n: choice.perInch }), { width: null, perInch: choice.perInch })}
          >
            <PhraseView of="artwork.choice" places={{ width: say.length(choice.widthMm), n: choice.perInch }} />
          </button>
        ))}
        <Sentence>
          <PhraseView of="artwork.or-wide" places={{ width: widthPlace(view.size.choices[0]?.widthMm ?? 100) }} />
        </Sentence>
      </fieldset>
    );
  }
  const isByFile = view.size.kind === 'known' && view.size.source === 'file';
  const widthMm =
    view.size.kind === 'known'
      ? view.widthMm
      : (toldWidth ?? view.size.choices.find((choice) => choice.perInch === perInch)?.widthMm ?? view.widthMm);
  const height = <strong>{say.length((view.heightMm / view.widthMm) * widthMm)}</strong>;
  return (
    <Sentence>
      {isByFile ? (
        <PhraseView of="artwork.size-by-file" places={{ width: <strong>{say.length(widthMm)}</strong>, height }} />
      ) : (
        <PhraseView of="artwork.size-by-user" places={{ width: widthPlace(widthMm), height }} />
      )}{' '}
      {isTold && !isByFile ? (
        <button
          type="button"
          className="quiet"
          onClick={() => set(say.t('step.size-untold'), { width: null, perInch: null })}
        >
          {say.t('artwork.ask-again')}
        </button>
      ) : null}
    </Sentence>
  );
}

/** A key without one of its names; letter case and outer spaces of names do not count, as in the reading. */
function without<T>(key: Readonly<Record<string, T>>, name: string): Record<string, T> {
  const plain = (text: string): string => text.trim().toLowerCase();
  return Object.fromEntries(Object.entries(key).filter(([own]) => plain(own) !== plain(name)));
}
