import { ChoicePlace, LengthPlace, TickPlace } from '../sentence/places.tsx';
import type { Desk } from '../state/desk.ts';
import { useSession } from '../state/page-context.ts';
import type { ArtworkView } from '../workers/views.ts';
import { More, Sentence } from './stage-frame.tsx';
import { count, useSay } from './use-say.ts';
import { UseTable } from './use-table.tsx';

/** Size, colours and reading of the drawing as sentences. */
export function ArtworkSentences({ view, desk }: { readonly view: ArtworkView; readonly desk: Desk }) {
  const session = useSession();
  const { artwork } = desk.job;
  const set = (name: string, change: Partial<Desk['job']['artwork']>): void =>
    session.actOnJob(name, (job) => ({ ...job, artwork: { ...job.artwork, ...change } }));
  return (
    <>
      <SizeSentence view={view} desk={desk} />
      <Sentence>
        Its shapes{' '}
        <ChoicePlace
          label="How the shapes lie"
          value={artwork.mode}
          choices={[
            {
              value: 'auto',
              words: view.mode === 'stacked' ? 'lie on one another, it seems' : 'lie side by side, it seems',
            },
            { value: 'stacked', words: 'lie on one another' },
            { value: 'spread', words: 'lie side by side' },
          ]}
          onChange={(mode) => set('how the shapes lie', { mode })}
        />
        .
        {view.matches.length > 0 ? ` ${count(view.matches.length, 'part')} found their place by a scored outline.` : ''}
      </Sentence>
      <UseTable
        uses={view.uses}
        onChange={({ by, name }, process) =>
          set(
            `${name}: ${process}`,
            by === 'layer'
              ? { layerKey: { ...artwork.layerKey, [name]: process } }
              : { colourKey: { ...artwork.colourKey, [name]: process } },
          )
        }
        onForget={({ by, name }) =>
          set(
            `${name}: as the drawing says`,
            by === 'layer'
              ? { layerKey: without(artwork.layerKey, name) }
              : { colourKey: without(artwork.colourKey, name) },
          )
        }
      />
      <More label="More about reading">
        <Sentence>
          <TickPlace
            words="Small faults are mended, and each is told."
            value={artwork.repair}
            onChange={(repair) => set(repair ? 'mend small faults' : 'mend nothing', { repair })}
          />
        </Sentence>
        <Sentence>
          <TickPlace
            words="A white rectangle as large as the page is a part."
            value={artwork.keepBackground}
            onChange={(keepBackground) =>
              set(keepBackground ? 'keep the page' : 'leave the page out', { keepBackground })
            }
          />
        </Sentence>
        <Sentence>
          Gaps up to{' '}
          <LengthPlace
            label="Largest gap that is closed"
            value={artwork.closeGap}
            least={0}
            most={5}
            onChange={(closeGap) => set('largest gap that is closed', { closeGap })}
          />{' '}
          are closed.
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
  if (view.size.kind === 'open') {
    return (
      <fieldset className="question">
        <legend>
          <strong>How large is it?</strong> The file does not say.
        </legend>
        {view.size.choices.map((choice) => (
          <button
            key={choice.perInch}
            type="button"
            onClick={() => set(`${choice.perInch} to the inch`, { width: null, perInch: choice.perInch })}
          >
            {say.length(choice.widthMm)} wide <small>({choice.perInch} to the inch)</small>
          </button>
        ))}
        <p className="sentence">
          or it is{' '}
          <LengthPlace
            label="Width of the drawing"
            value={view.size.choices[0]?.widthMm ?? 100}
            least={1}
            most={20000}
            onChange={(width) => set('true width', { width, perInch: null })}
          />{' '}
          wide.
        </p>
      </fieldset>
    );
  }
  const isTold = desk.job.artwork.width !== null || desk.job.artwork.perInch !== null;
  return (
    <Sentence>
      The drawing is{' '}
      {view.size.source === 'file' ? (
        <strong>{say.length(view.widthMm)}</strong>
      ) : (
        <LengthPlace
          label="Width of the drawing"
          value={view.widthMm}
          least={1}
          most={20000}
          onChange={(width) => set('true width', { width, perInch: null })}
        />
      )}{' '}
      wide and <strong>{say.length(view.heightMm)}</strong> high
      {view.size.source === 'file' ? ', as the file says' : ', as you said'}.{' '}
      {isTold && view.size.source === 'user' ? (
        <button type="button" className="quiet" onClick={() => set('size not told', { width: null, perInch: null })}>
          Ask again
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
