import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { keepOfflineCopy } from './offline/register.ts';
import { pagePainter } from './picture/painter.ts';
import { startPage } from './start-page.ts';
import { followBrowserSteps } from './state/browser-steps.ts';
import { SessionContext } from './state/page-context.ts';
import { startSession } from './state/session.ts';
import { startOffcutShelf } from './storage/offcut-shelf.ts';
import './style/tokens.css';
import './style/base.css';
import './style/header.css';
import './style/welcome.css';
import './style/page.css';
import './style/strip.css';
import './style/scene.css';
import './style/sentence.css';
import './style/papers.css';
import './style/shelf.css';
import './style/print.css';
import { App } from './views/app.tsx';
import { WorkClient } from './workers/client.ts';

pagePainter.prepare();
const client = new WorkClient(
  () => new Worker(new URL('./workbench/workbench.worker.ts', import.meta.url), { type: 'module' }),
);
const session = startSession(client, startOffcutShelf());
followBrowserSteps(session.gaze, window);
const page = startPage(session);
const root = document.getElementById('page');
if (root !== null) {
  createRoot(root).render(
    <StrictMode>
      <SessionContext value={session}>
        <App page={page} />
      </SessionContext>
    </StrictMode>,
  );
}
keepOfflineCopy();
