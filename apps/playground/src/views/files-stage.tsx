import { useDeferredValue, useMemo, useState } from 'react';
import { boardsPicture, PLAIN_LOOK } from '../picture/boards-picture.ts';
import { stackPicture } from '../picture/pictures.ts';
import { Scene } from '../scene/scene.tsx';
import type { Desk } from '../state/desk.ts';
import { useSession, useValue } from '../state/page-context.ts';
import type { FileContent } from '../workers/api.ts';
import type { FilesView, FileView } from '../workers/views.ts';
import { FaultNote } from './fault-note.tsx';
import { CostSentences, FormatSentence } from './files-sentences.tsx';
import { saveBytes } from './save-bytes.ts';
import { More, NoScene, StageFrame } from './stage-frame.tsx';
import { count, useSay } from './use-say.ts';

/** Exactly what will be written, with the check's verdict. */
export function FilesStage({ desk }: { readonly desk: Desk }) {
  const session = useSession();
  const results = useValue(session.planning.results);
  const { unit } = useValue(session.preferences);
  const say = useSay();
  const [shown, setShown] = useState<string | null>(null);
  const view = useDeferredValue(results.files.view);
  const boards = useDeferredValue(results.boards.view);
  const artwork = useDeferredValue(results.artwork.view);
  const stack = useDeferredValue(results.stack.view);
  const picture = useMemo(() => {
    const sheet = shown === null ? 0 : view?.files.find((file) => file.name === shown)?.sheet;
    if (shown?.startsWith('sign-') === true && artwork !== null && stack !== null) {
      return stackPicture(
        artwork,
        stack,
        { peeled: 0, apart: shown.includes('exploded') ? 1 : 0, showsGuides: false },
        null,
      );
    }
    const one = boards?.sheets[sheet ?? 0];
    return boards === null || one === undefined
      ? null
      : boardsPicture({ ...boards, sheets: [one] }, { ...PLAIN_LOOK, showsMarks: true, say });
  }, [shown, view, boards, artwork, stack, say]);

  return (
    <StageFrame
      title="Files"
      scene={
        picture === null ? (
          <NoScene words="No files yet" />
        ) : (
          <Scene
            picture={picture}
            label={shown ?? 'The first sheet as it will be written'}
            unit={unit}
            selected={null}
            onSelect={() => undefined}
          />
        )
      }
    >
      <FaultNote state={results.files} />
      {view === null ? (
        <p className="hint">The files come once every piece lies on a board and the check has found no fault.</p>
      ) : (
        <Ready view={view} shown={shown} onShow={setShown} />
      )}
      <FormatSentence desk={desk} />
      <CostSentences desk={desk} view={view} />
    </StageFrame>
  );
}

function Ready({
  view,
  shown,
  onShow,
}: {
  readonly view: FilesView;
  readonly shown: string | null;
  onShow(name: string): void;
}) {
  const session = useSession();
  const say = useSay();
  const sheets = view.files.filter((file) => file.kind === 'sheet');
  const take = (content: () => Promise<FileContent>): void =>
    void session.attempt(async () => {
      const { name, mime, bytes } = await content();
      saveBytes(name, mime, bytes);
      session.notices.say(`${name} is saved. Never leave a running laser; see "Before you cut" below.`);
    });
  const group = (title: string, kind: FileView['kind']) => (
    <FileGroup
      key={kind}
      title={title}
      files={view.files.filter((file) => file.kind === kind)}
      shown={shown}
      onShow={onShow}
      onTake={(name) => take(() => session.client.ask((api) => api.file(name)))}
    />
  );
  return (
    <>
      {view.verdict.ok ? (
        <p className="good">
          <span aria-hidden="true">&#10003;</span> Checked: {count(sheets.length, 'sheet file')} read back and found as
          meant; least gap {say.length(view.verdict.smallestGapMm, 2)}.
        </p>
      ) : (
        <ul className="told">
          {view.verdict.violations.slice(0, 5).map((violation) => (
            <li key={violation.message} className="look">
              <strong>Look here: </strong>
              {violation.message}
            </li>
          ))}
        </ul>
      )}
      <div className="buttons">
        <button type="button" className="strong" onClick={() => take(() => session.client.ask((api) => api.archive()))}>
          Take everything in one archive
        </button>
      </div>
      {group('Sheets', 'sheet')}
      {group('Report and job', 'report')}
      {group('The finished sign', 'picture')}
      {view.messages.length === 0 ? null : (
        <More label={`${count(view.messages.length, 'thing')} to know`}>
          <ul className="told">
            {view.messages.map((message) => (
              <li key={message}>{message}</li>
            ))}
          </ul>
        </More>
      )}
    </>
  );
}

function FileGroup({
  title,
  files,
  shown,
  onShow,
  onTake,
}: {
  readonly title: string;
  readonly files: readonly FileView[];
  readonly shown: string | null;
  onShow(name: string): void;
  onTake(name: string): void;
}) {
  const say = useSay();
  if (files.length === 0) return null;
  return (
    <section className="files">
      <h3>{title}</h3>
      <ul>
        {files.map((file) => (
          <li key={file.name} className={file.name === shown ? 'is-shown' : ''}>
            {file.kind === 'report' ? (
              <span className="file-name">{file.name}</span>
            ) : (
              <button type="button" className="file-name quiet" onClick={() => onShow(file.name)} title="Show it">
                {file.name}
              </button>
            )}
            <small>{say.number(Math.max(file.bytes / 1024, 1))} kB</small>
            {file.notes.length === 0 ? null : <small className="file-notes">{file.notes.join('; ')}</small>}
            <button type="button" aria-label={`Save ${file.name}`} onClick={() => onTake(file.name)}>
              Save
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
