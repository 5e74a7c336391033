import { memo, useDeferredValue } from 'react';
import type { Page } from '../start-page.ts';
import { useSession, useValue } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import { Cautions } from './cautions.tsx';
import { DropZone } from './drop-zone.tsx';
import { Header } from './header.tsx';
import { NoticeList } from './notice-list.tsx';
import { Shelf } from './shelf.tsx';
import { StagePanel } from './stage-panel.tsx';
import { Strip } from './strip.tsx';
import { Welcome } from './welcome.tsx';

/** The whole page: header, strip, the chosen stage, the shelf. */
export function App({ page }: { readonly page: Page }) {
  const session = useSession();
  const history = useValue(session.history);
  // the strip answers a choice at once; the stage is put together in small steps
  const stage = useDeferredValue(useValue(session.gaze).stage);
  const say = useSay();
  return (
    <DropZone page={page}>
      <a className="skip" href="#stage">
        {say.t('page.skip')}
      </a>
      <Header page={page} />
      <Welcome page={page} />
      <NoticeList />
      <main>
        <Strip />
        {history === null ? null : <ChosenStage stage={stage} desk={history.present} />}
        {history === null ? null : <Shelf desk={history.present} />}
      </main>
      <Cautions />
    </DropZone>
  );
}

const ChosenStage = memo(StagePanel);
