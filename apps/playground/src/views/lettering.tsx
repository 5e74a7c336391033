import { designsOf } from '@underlap/job/designs';
import type { Job } from '@underlap/job/document';
import { namedSigns } from '@underlap/job/names-table';
import { jobOfStock } from '@underlap/job/stock-of';
import { type DragEvent, useId, useState } from 'react';
import { TickPlace } from '../sentence/places.tsx';
import type { Desk } from '../state/desk.ts';
import { useSession } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import { More, Sentence } from './stage-frame.tsx';

/** Bytes turned into text at a time: more would overflow the call. */
const CHUNK = 0x8000;

/** Fonts and names for the texts of the drawing; what is made of several designs and stocks, as a list. */
export function Lettering({ desk, hasText }: { readonly desk: Desk; readonly hasText: boolean }) {
  const session = useSession();
  const say = useSay();
  const { lettering, stocks, designs } = desk.job;
  const set = (name: string, change: Partial<Job['lettering']>): void =>
    session.actOnJob(name, (job) => ({ ...job, lettering: { ...job.lettering, ...change } }));
  const signs = designsOf(desk.job).filter(({ id }) => id !== '');
  if (!hasText && lettering.fonts.length === 0 && signs.length === 0 && stocks.length === 0) return null;
  return (
    <>
      {signs.length === 0 ? null : <SignList signs={signs} />}
      {stocks.map(({ id }) => {
        const { thickness, boards } = jobOfStock(desk.job, id);
        return (
          <Sentence key={id}>
            {say.t('lettering.stock', { name: id, thickness: say.length(thickness, 1), n: boards.length })}
          </Sentence>
        );
      })}
      <More label={say.t('lettering.more')}>
        <Sentence>
          {lettering.fonts.length === 0
            ? say.t('lettering.no-font')
            : say.t('lettering.fonts', { files: lettering.fonts.map(({ file }) => file ?? '').join(', ') })}
        </Sentence>
        <FontPlace
          onFonts={(fonts) => set(say.t('step.font'), { fonts: [...lettering.fonts, ...fonts] })}
          onForget={lettering.fonts.length === 0 ? null : () => set(say.t('step.font'), { fonts: [] })}
        />
        <p className="caution">{say.t('lettering.caution')}</p>
        <Sentence>
          <TickPlace
            words={say.t('lettering.joined')}
            value={lettering.letters === 'joined'}
            onChange={(joined) => set(say.t('step.joined'), { letters: joined ? 'joined' : 'apart' })}
          />
        </Sentence>
        {designs.length > 0 ? null : (
          <NamesTable
            key={lettering.names.text ?? ''}
            text={lettering.names.text ?? ''}
            onText={(text) =>
              set(say.t('step.names'), { names: { file: null, text: text === '' ? null : text, rows: [] } })
            }
          />
        )}
      </More>
    </>
  );
}

function SignList({ signs }: { readonly signs: ReturnType<typeof designsOf> }) {
  const say = useSay();
  const count = signs.reduce((sum, sign) => sum + sign.count, 0);
  return (
    <>
      <Sentence>{say.t('lettering.signs', { n: count })}</Sentence>
      <ul>
        {signs.map(({ id, count: n, order }) => (
          <li key={id}>
            {order === ''
              ? say.t('lettering.sign', { n, name: id })
              : say.t('lettering.sign-for', { n, name: id, order })}
          </li>
        ))}
      </ul>
    </>
  );
}

interface FontPlaceProps {
  onFonts(fonts: Job['lettering']['fonts']): void;
  readonly onForget: (() => void) | null;
}

/** Font files are chosen or dropped; their bytes go into the job, as the drawing does. */
function FontPlace({ onFonts, onForget }: FontPlaceProps) {
  const say = useSay();
  const id = useId();
  const take = async (files: Iterable<File>): Promise<void> =>
    onFonts(
      await Promise.all(
        [...files].map(async (file) => ({ file: file.name, data: base64Of(new Uint8Array(await file.arrayBuffer())) })),
      ),
    );
  const drop = (event: DragEvent): void => {
    event.preventDefault();
    event.stopPropagation();
    void take(event.dataTransfer.files);
  };
  return (
    <p onDrop={drop} onDragOver={(event) => event.preventDefault()}>
      <label htmlFor={id}>{say.t('lettering.add')}</label>{' '}
      <input
        id={id}
        type="file"
        multiple
        accept=".ttf,.otf,.woff,.woff2"
        onChange={(event) => void take(event.target.files ?? [])}
      />
      {onForget === null ? null : (
        <button type="button" onClick={onForget}>
          {say.t('lettering.forget')}
        </button>
      )}
    </p>
  );
}

/** A small table, typed or pasted from a spreadsheet; its fault stands below it, and only a good one is taken. */
function NamesTable({ text, onText }: { readonly text: string; onText(text: string): void }) {
  const say = useSay();
  const id = useId();
  const [draft, setDraft] = useState(text);
  const [problem, setProblem] = useState<string | null>(null);
  const use = (): void => {
    const words = draft.trim();
    try {
      if (words !== '') namedSigns({ file: null, text: words, rows: [] }, say.t('step.names'));
      setProblem(null);
      onText(words);
    } catch (error) {
      setProblem(error instanceof Error ? error.message : String(error));
    }
  };
  return (
    <div>
      <label htmlFor={id}>{say.t('lettering.names')}</label>
      <textarea
        id={id}
        rows={4}
        value={draft}
        aria-describedby={problem === null ? undefined : `${id}-problem`}
        onChange={(event) => setDraft(event.target.value)}
      />
      <button type="button" onClick={use}>
        {say.t('lettering.use-names')}
      </button>
      {problem === null ? null : (
        <p id={`${id}-problem`} role="alert">
          {problem}
        </p>
      )}
    </div>
  );
}

function base64Of(bytes: Uint8Array): string {
  let text = '';
  for (let from = 0; from < bytes.length; from += CHUNK)
    text += String.fromCharCode(...bytes.subarray(from, from + CHUNK));
  return btoa(text);
}
