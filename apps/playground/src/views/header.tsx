import { memo, useEffect, useRef } from 'react';
import { isSample } from '../samples.ts';
import { WordsPlace } from '../sentence/places.tsx';
import type { Page } from '../start-page.ts';
import { useSession, useValue } from '../state/page-context.ts';
import { inLanguage } from '../state/preferences.ts';
import { useSay } from '../state/use-say.ts';
import { isLengthUnit, UNIT_NAMES } from '../units/length.ts';
import { LANGUAGES } from '../words/phrase.ts';
import { JobsMenu } from './jobs-menu.tsx';
import { OpenFile } from './open-file.tsx';
import { saveBytes } from './save-bytes.ts';

/** The name of the page is the same in every language. */
const PRODUCT = 'Underlap';

/** Name of the job, undo and redo, files in and out, units and look. */
export const Header = memo(function Header({ page }: { readonly page: Page }) {
  const session = useSession();
  const say = useSay();
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
        {PRODUCT}
      </h1>
      {job === undefined ? null : (
        <div className="header-job">
          <WordsPlace
            label={say.t('header.job-name')}
            value={job.name ?? job.artwork.name ?? say.t('header.sign')}
            onChange={(name) =>
              session.actOnJob(say.t('step.name', { name }), (before) => ({
                ...before,
                name: name === '' ? null : name,
              }))
            }
          />
          {isSample(job) ? <span className="sample-word">{say.t('welcome.is-sample')}</span> : null}
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
          {say.t('header.undo')}
        </button>
        <button
          type="button"
          disabled={future === undefined}
          onClick={session.redo}
          title={future === undefined ? '' : future.name}
        >
          {say.t('header.redo')}
        </button>
        <button type="button" onClick={() => file.current?.click()}>
          {say.t('header.open')}
        </button>
        <OpenFile page={page} input={file} />
        <button
          type="button"
          disabled={job === undefined}
          onClick={() => {
            if (job === undefined) return;
            const name = `${job.name ?? job.artwork.name ?? 'sign'}.job.json`.replace(/[^\w.-]+/g, '-');
            saveBytes(name, 'application/json', new TextEncoder().encode(JSON.stringify(job, null, 1)));
          }}
        >
          {say.t('header.save')}
        </button>
        <JobsMenu page={page} />
        <label className="only-read" htmlFor="unit">
          {say.t('header.unit')}
        </label>
        <select
          id="unit"
          className="quiet-choice"
          value={preferences.unit}
          onChange={(event) => {
            const unit = event.target.value;
            if (isLengthUnit(unit)) session.preferences.update((before) => ({ ...before, unit }));
          }}
        >
          {UNIT_NAMES.map((unit) => (
            <option key={unit} value={unit}>
              {say.t(`unit.name-${unit}`)}
            </option>
          ))}
        </select>
        <label className="only-read" htmlFor="look">
          {say.t('header.look')}
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
          <option value="system">{say.t('header.look-system')}</option>
          <option value="light">{say.t('header.look-light')}</option>
          <option value="dark">{say.t('header.look-dark')}</option>
        </select>
        <LanguageChoice />
      </div>
    </header>
  );
});

const LANGUAGE_WORDS = { en: 'header.language-en', de: 'header.language-de' } as const;

function LanguageChoice() {
  const session = useSession();
  const say = useSay();
  return (
    <>
      <label className="only-read" htmlFor="language">
        {say.t('header.language')}
      </label>
      <select
        id="language"
        className="quiet-choice"
        value={say.language}
        onChange={(event) => {
          const wanted = LANGUAGES.find((language) => language === event.target.value);
          if (wanted !== undefined) session.preferences.update((before) => ({ ...before, ...inLanguage(wanted) }));
        }}
      >
        {LANGUAGES.map((language) => (
          <option key={language} value={language} lang={language}>
            {say.t(LANGUAGE_WORDS[language])}
          </option>
        ))}
      </select>
    </>
  );
}

function KeepingWords({ page }: { readonly page: Page }) {
  const autosave = useValue(page.autosave);
  return autosave === null ? null : <KeepingState autosave={autosave} />;
}

function KeepingState({ autosave }: { readonly autosave: NonNullable<ReturnType<Page['autosave']['get']>> }) {
  const say = useSay();
  const keeping = useValue(autosave.keeping);
  const words = {
    starting: '',
    kept: say.t('header.kept'),
    saving: say.t('header.saving'),
    refused: keeping.kind === 'refused' ? say.t('header.not-kept', { why: keeping.why }) : '',
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
