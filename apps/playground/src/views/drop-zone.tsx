import { type DragEvent, type ReactNode, useState } from 'react';
import type { Page } from '../start-page.ts';
import { useSay } from '../state/use-say.ts';

/** Artwork or a job may be dropped anywhere on the page. */
export function DropZone({ page, children }: { readonly page: Page; readonly children: ReactNode }) {
  const say = useSay();
  const [isOver, setOver] = useState(false);
  const hasFiles = (event: DragEvent): boolean => event.dataTransfer.types.includes('Files');
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping is an addition to the file button in the header
    <div
      className={isOver ? 'page is-over' : 'page'}
      onDragOver={(event) => {
        if (!hasFiles(event)) return;
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={(event) => {
        if (event.currentTarget === event.target) setOver(false);
      }}
      onDrop={(event) => {
        if (!hasFiles(event)) return;
        event.preventDefault();
        setOver(false);
        void page.openFiles([...event.dataTransfer.files]);
      }}
    >
      {children}
      {isOver ? <p className="drop-words">{say.t('page.drop')}</p> : null}
    </div>
  );
}
