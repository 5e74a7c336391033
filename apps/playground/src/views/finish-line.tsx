import { memo, useMemo } from 'react';
import { boardsPicture, PLAIN_LOOK } from '../picture/boards-picture.ts';
import { Thumbnail } from '../scene/thumbnail.tsx';
import { PhraseView } from '../sentence/phrase-view.tsx';
import { useSay } from '../state/use-say.ts';
import type { Say } from '../words/say.ts';
import type { BoardsView, FilesView, FileView } from '../workers/views.ts';

/** Price, cost and time, large. */
export function FinishFigures({ view }: { readonly view: FilesView }) {
  const say = useSay();
  const { currency } = view;
  return (
    <ul className="finish-figures">
      {view.costPerSign > 0 ? (
        <>
          <li>
            <PhraseView of="finish.price" places={{ sum: say.number(view.pricePerSign, 2), currency }} />
          </li>
          <li>
            <PhraseView of="finish.cost" places={{ sum: say.number(view.costPerSign, 2), currency }} />
          </li>
        </>
      ) : (
        // nothing costs nothing: no price was given yet
        <li>
          <small>{say.t('finish.no-prices')}</small>
        </li>
      )}
      <li>
        <PhraseView of="finish.time" places={{ n: Math.round(view.machineSeconds / 60) }} />
      </li>
    </ul>
  );
}

const THUMB = { width: 132, height: 84 } as const;

/** The sheets in the order in which they are cut, each once, with how often. */
export function SheetRow({
  view,
  boards,
  shown,
  onShow,
}: {
  readonly view: FilesView;
  readonly boards: BoardsView;
  readonly shown: string | null;
  onShow(name: string): void;
}) {
  const say = useSay();
  const sheets = oneOfEach(view.files);
  if (sheets.length === 0) return null;
  return (
    <ol className="sheet-row">
      {sheets.map((file, index) => (
        <li key={file.name}>
          <button
            type="button"
            className={file.name === shown ? 'sheet-card is-chosen' : 'sheet-card'}
            aria-pressed={file.name === shown}
            onClick={() => onShow(file.name)}
          >
            <SheetPicture boards={boards} sheet={file.sheet ?? 0} />
            <span>{loadingWords(file, index, sheets, say)}</span>
          </button>
        </li>
      ))}
    </ol>
  );
}

/** 'Sheet 2 × 3', or 'Sheet 1, loading 2' of a sheet that is loaded more than once. */
function loadingWords(file: FileView, index: number, sheets: readonly FileView[], say: Say): string {
  const n = (file.sheet ?? 0) + 1;
  const isSame = (other: FileView): boolean => other.sheet === file.sheet;
  const loading = sheets.slice(0, index + 1).filter(isSame).length;
  const words =
    sheets.filter(isSame).length > 1 ? say.t('finish.loading', { n, loading }) : say.t('finish.sheet', { n });
  return file.times > 1 ? say.t('finish.times', { words, times: file.times }) : words;
}

/** Of files that differ in their format only, the first. */
function oneOfEach(files: readonly FileView[]): FileView[] {
  const plain = (name: string): string => name.slice(0, name.lastIndexOf('.'));
  const sheets = files.filter((file) => file.kind === 'sheet');
  return sheets.filter((file, at) => sheets.findIndex(({ name }) => plain(name) === plain(file.name)) === at);
}

const SheetPicture = memo(function SheetPicture({
  boards,
  sheet,
}: {
  readonly boards: BoardsView;
  readonly sheet: number;
}) {
  const picture = useMemo(() => {
    const one = boards.sheets[sheet];
    return boardsPicture({ ...boards, sheets: one === undefined ? [] : [one] }, PLAIN_LOOK);
  }, [boards, sheet]);
  return <Thumbnail picture={picture} width={THUMB.width} height={THUMB.height} />;
});
