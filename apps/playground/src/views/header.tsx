import { memo, useEffect, useRef } from 'react';
import { WordsPlace } from '../sentence/places.tsx';
import type { Page } from '../start-page.ts';
import { useSession, useValue } from '../state/page-context.ts';
import { JobsMenu } from './jobs-menu.tsx';
import { saveBytes } from './save-bytes.ts';

/** Name of the job, undo and redo, files in and out, units and look. */
export const Header = memo(function Header({ page }: { readonly page: Page }) {
  const session = useSession();
  const history = useValue(session.history);
  const preferences = useValue(session.preferences);
  const file = useRef<HTMLInputElement>(null);
  useUndoKeys();
  const past = history?.past.at(-1);
  const future = history?.future[0];
  const job = history?.present.job;

  return (
    <header className="header">
      <h1>
        <svg viewBox="0 0 30 24" width="30" height="24" aria-hidden="true">
          <path d="M1 15c4-3 9-3 14 0v-2a2.500 2.500 0 1 1 0 .1V22H1z" fill="var(--wood)" />
          <path d="M17 15c4-2.500 8-2.500 12 0v7H17z" fill="var(--edge)" />
          <path d="M4 6c6-4 16-4 22 0v7c-6-4-16-4-22 0z" fill="var(--ink)" />
        </svg>
        Underlap
      </h1>
      {job === undefined ? null : (
        <div className="header-job">
          <WordsPlace
            label="Name of the job"
            value={job.name ?? job.artwork.name ?? 'Sign'}
            onChange={(name) =>
              session.actOnJob(`name ${name}`, (before) => ({ ...before, name: name === '' ? null : name }))
            }
          />
          <KeepingWords page={page} />
        </div>
      )}
      <div className="header-tools">
        <button
          type="button"
          disabled={past === undefined}
          onClick={session.undo}
          title={past === undefined ? '' : past.name}
        >
          Undo
        </button>
        <button
          type="button"
          disabled={future === undefined}
          onClick={session.redo}
          title={future === undefined ? '' : future.name}
        >
          Redo
        </button>
        <button type="button" onClick={() => file.current?.click()}>
          Open a file
        </button>
        <input
          ref={file}
          hidden
          type="file"
          aria-label="File to open: artwork (SVG, DXF) or a saved job"
          accept=".svg,.dxf,.json,image/svg+xml,application/json"
          onChange={(event) => {
            void page.openFiles([...(event.target.files ?? [])]);
            event.target.value = '';
          }}
        />
        <button
          type="button"
          disabled={job === undefined}
          onClick={() => {
            if (job === undefined) return;
            const name = `${job.name ?? job.artwork.name ?? 'sign'}.job.json`.replace(/[^\w.-]+/g, '-');
            saveBytes(name, 'application/json', new TextEncoder().encode(JSON.stringify(job, null, 1)));
          }}
        >
          Save the job
        </button>
        <JobsMenu page={page} />
        <label className="only-read" htmlFor="unit">
          Lengths in
        </label>
        <select
          id="unit"
          className="quiet-choice"
          value={preferences.unit}
          onChange={(event) =>
            session.preferences.update((before) => ({ ...before, unit: event.target.value === 'in' ? 'in' : 'mm' }))
          }
        >
          <option value="mm">mm</option>
          <option value="in">inches</option>
        </select>
        <label className="only-read" htmlFor="look">
          Look of the page
        </label>
        <select
          id="look"
          className="quiet-choice"
          value={preferences.look}
          onChange={(event) => {
            const look = event.target.value;
            session.preferences.update((before) => ({
              ...before,
              look: look === 'light' || look === 'dark' ? look : 'system',
            }));
          }}
        >
          <option value="system">system look</option>
          <option value="light">light</option>
          <option value="dark">dark</option>
        </select>
      </div>
    </header>
  );
});

function KeepingWords({ page }: { readonly page: Page }) {
  const autosave = useValue(page.autosave);
  return autosave === null ? null : <KeepingState autosave={autosave} />;
}

function KeepingState({ autosave }: { readonly autosave: NonNullable<ReturnType<Page['autosave']['get']>> }) {
  const keeping = useValue(autosave.keeping);
  const words = {
    starting: '',
    kept: 'kept in this browser',
    saving: 'saving',
    refused: keeping.kind === 'refused' ? `not kept: ${keeping.why}` : '',
  }[keeping.kind];
  return <span className={keeping.kind === 'refused' ? 'keeping look' : 'keeping'}>{words}</span>;
}

/** Ctrl+Z and Ctrl+Shift+Z (or Ctrl+Y), except while typing, where the field has its own undo. */
function useUndoKeys(): void {
  const session = useSession();
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      if (event.target instanceof HTMLInputElement && event.target.type === 'text') return;
      const key = event.key.toLowerCase();
      if (key === 'z') (event.shiftKey ? session.redo : session.undo)();
      else if (key === 'y') session.redo();
      else return;
      event.preventDefault();
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, [session]);
}
