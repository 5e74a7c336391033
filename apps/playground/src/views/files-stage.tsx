import { useDeferredValue, useMemo, useState } from 'react';
import { boardsPicture, PLAIN_LOOK } from '../picture/boards-picture.ts';
import { stackPicture } from '../picture/stack-picture.ts';
import { Scene } from '../scene/scene.tsx';
import type { Desk } from '../state/desk.ts';
import { mattersOf, mattersUpTo } from '../state/matters.ts';
import { useSession, useValue } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import type { FileContent } from '../workers/api.ts';
import type { BoardsView, FilesView, FileView } from '../workers/views.ts';
import { BedPacks } from './bed-packs.tsx';
import { FaultNote } from './fault-note.tsx';
import { BridgeSentence, CostSentences, FormatSentence, MaskSentence } from './files-sentences.tsx';
import { FinishFigures, SheetRow } from './finish-line.tsx';
import { loadingWords } from './loading-words.ts';
import { LookHere } from './look-here.tsx';
import { ProcessStyles } from './process-styles.tsx';
import { saveBytes } from './save-bytes.ts';
import { ShopPapers } from './shop-papers.tsx';
import { More, NoScene, StageFrame } from './stage-frame.tsx';
import { usePictureWords } from './use-picture-words.ts';

/** Exactly what will be written, with the check's verdict. */
export function FilesStage({ desk }: { readonly desk: Desk }) {
  const session = useSession();
  const results = useValue(session.planning.results);
  const { unit } = useValue(session.preferences);
  const say = useSay();
  const words = usePictureWords();
  const [shown, setShown] = useState<string | null>(null);
  const view = useDeferredValue(results.files.view);
  const boards = useDeferredValue(results.boards.view);
  const artwork = useDeferredValue(results.artwork.view);
  const stack = useDeferredValue(results.stack.view);
  const isWell = useMemo(() => mattersUpTo('files', results, say).length === 0, [results, say]);
  const picture = useMemo(() => {
    const sheet = view?.files.find((file) => file.name === shown)?.sheet ?? null;
    if (sheet === null) {
      // the sign itself is what all of this is for
      if (artwork === null || stack === null) return null;
      const apart = shown?.includes('exploded') === true ? 1 : 0;
      return stackPicture(artwork, stack, { peeled: 0, apart, showsGuides: false }, null, words);
    }
    const one = boards?.sheets[sheet];
    return boards === null || one === undefined
      ? null
      : boardsPicture({ ...boards, sheets: [one] }, { ...PLAIN_LOOK, showsMarks: true, words });
  }, [shown, view, boards, artwork, stack, words]);

  return (
    <StageFrame
      title={say.t('files.title')}
      scene={
        picture === null ? (
          <NoScene words={say.t('files.none-yet')} />
        ) : (
          <Scene
            stage="files"
            picture={picture}
            label={shown ?? say.t('finish.sign')}
            unit={unit}
            selected={null}
            onSelect={() => undefined}
          />
        )
      }
    >
      <FaultNote state={results.files} />
      {view === null ? (
        <p className="hint">{say.t('files.when')}</p>
      ) : (
        // what is no longer asked for is seen, but not handed over
        <fieldset className="bare" disabled={results.files.status !== 'done'}>
          <Ready view={view} boards={boards} isWell={isWell} shown={shown} onShow={setShown} />
        </fieldset>
      )}
      <FormatSentence desk={desk} />
      {view === null ? null : (
        <More label={say.t('packs.title')}>
          <BedPacks desk={desk} />
        </More>
      )}
      <BridgeSentence desk={desk} />
      <MaskSentence desk={desk} />
      <ProcessStyles desk={desk} />
      <More label={say.t('cost.from')}>
        <CostSentences desk={desk} />
      </More>
    </StageFrame>
  );
}

function Ready({
  view,
  boards,
  isWell,
  shown,
  onShow,
}: {
  readonly view: FilesView;
  readonly boards: BoardsView | null;
  /** Nothing anywhere wants to be looked at. */
  readonly isWell: boolean;
  readonly shown: string | null;
  onShow(name: string | null): void;
}) {
  const session = useSession();
  const say = useSay();
  const results = useValue(session.planning.results);
  const own = mattersOf('files', results, say);
  const isHandedOver = own.length === 0 && boards?.unplaced.length === 0;
  const sheets = view.files.filter((file) => file.kind === 'sheet');
  const take = (content: () => Promise<FileContent>): void =>
    void session.attempt(async () => {
      const { name, mime, bytes } = await content();
      saveBytes(name, mime, bytes);
      session.notices.say(say.t('notice.saved', { file: name }));
    });
  const group = (title: string, kind: FileView['kind']) => (
    <FileGroup
      key={kind}
      title={title}
      files={view.files.filter((file) => file.kind === kind)}
      boards={boards}
      shown={shown}
      onShow={onShow}
      onTake={(name) => take(() => session.client.ask((api) => api.file(name)))}
    />
  );
  return (
    <>
      {isHandedOver ? (
        <p className={isWell ? 'good' : 'checked'}>
          {isWell ? <span aria-hidden="true">&#10003; </span> : null}
          {say.t('files.checked', { n: sheets.length, gap: say.length(view.verdict.smallestGapMm, 2) })}
        </p>
      ) : (
        <ul className="told">
          {own.slice(0, 5).map(({ words }) => (
            <li key={words} className="look">
              <LookHere /> {words}
            </li>
          ))}
          <li className="hint">{say.t('files.when')}</li>
        </ul>
      )}
      {isHandedOver ? (
        <>
          <FinishFigures view={view} />
          <div className="buttons">
            <button
              type="button"
              className="strong is-large"
              onClick={() => take(() => session.client.ask((api) => api.archive()))}
            >
              {say.t('files.take-all')}
            </button>
          </div>
        </>
      ) : null}
      <ShopPapers view={view} />
      {boards === null ? null : <SheetRow view={view} boards={boards} shown={shown} onShow={onShow} />}
      {shown === null ? null : (
        <button type="button" className="quiet" onClick={() => onShow(null)}>
          {say.t('finish.show-sign')}
        </button>
      )}
      <More label={say.t('finish.all-files', { n: view.files.length })}>
        {group(say.t('files.sheets'), 'sheet')}
        {group(say.t('files.report'), 'report')}
        {group(say.t('files.pictures'), 'picture')}
      </More>
      {view.messages.length === 0 ? null : (
        <More label={say.t('files.to-know', { n: view.messages.length })}>
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
  boards,
  shown,
  onShow,
  onTake,
}: {
  readonly title: string;
  readonly files: readonly FileView[];
  readonly boards: BoardsView | null;
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
              <button
                type="button"
                className="file-name quiet"
                onClick={() => onShow(file.name)}
                title={say.t('files.show')}
              >
                {file.name}
              </button>
            )}
            <small>{say.t('unit.kilobytes', { size: say.number(Math.max(file.bytes / 1024, 1)) })}</small>
            <FileNotes file={file} boards={boards} />
            <button
              type="button"
              aria-label={say.t('files.save-file', { name: file.name })}
              onClick={() => onTake(file.name)}
            >
              {say.t('files.save')}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** How often a file is cut and how its material is set. */
function FileNotes({ file, boards }: { readonly file: FileView; readonly boards: BoardsView | null }) {
  const say = useSay();
  const loadings = boards?.sheets[file.sheet ?? -1]?.loadings ?? [];
  const loading = loadings.find(({ number }) => number === file.loading);
  const words = [
    ...(file.times > 1 ? [say.t('files.times', { n: file.times })] : []),
    ...(loading === undefined ? [] : loadingWords(loading, say)),
  ];
  return words.length === 0 ? null : <small className="file-notes">{words.join(' ')}</small>;
}
