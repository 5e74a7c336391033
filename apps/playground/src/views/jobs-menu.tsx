import { useRef } from 'react';
import { SAMPLES } from '../samples.ts';
import type { Page } from '../start-page.ts';
import { useSession, useValue } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import type { Autosave } from '../storage/autosave.ts';

/** Samples and the jobs kept by this browser, behind one word. */
export function JobsMenu({ page }: { readonly page: Page }) {
  const say = useSay();
  const session = useSession();
  const autosave = useValue(page.autosave);
  const menu = useRef<HTMLDetailsElement>(null);
  const close = (): void => menu.current?.removeAttribute('open');
  return (
    <details
      className="menu"
      ref={menu}
      onKeyDown={(event) => {
        if (event.key === 'Escape') close();
      }}
      onBlur={(event) => {
        if (!event.currentTarget.contains(event.relatedTarget)) close();
      }}
    >
      <summary>{say.t('header.jobs')}</summary>
      <div className="menu-body">
        <h2>{say.t('header.samples')}</h2>
        <ul>
          {SAMPLES.map((sample) => (
            <li key={sample.name}>
              <button
                type="button"
                onClick={() => {
                  close();
                  void page.openSample(sample);
                }}
              >
                {say.t(sample.name)}
              </button>
            </li>
          ))}
        </ul>
        <button
          type="button"
          className="quiet"
          onClick={() => {
            close();
            session.preferences.update((before) => ({ ...before, isNewcomer: true }));
            void page.openSample(SAMPLES[0]);
          }}
        >
          {say.t('welcome.section')}
        </button>
        {autosave === null ? null : <KeptJobs autosave={autosave} close={close} />}
      </div>
    </details>
  );
}

function KeptJobs({ autosave, close }: { readonly autosave: Autosave; close(): void }) {
  const say = useSay();
  const jobs = useValue(autosave.jobs);
  if (jobs.length === 0) return null;
  return (
    <>
      <h2>{say.t('header.kept-jobs')}</h2>
      <ul>
        {jobs.slice(0, 12).map((job) => (
          <li key={job.id}>
            <button
              type="button"
              onClick={() => {
                close();
                void autosave.openKept(job.id);
              }}
            >
              {job.name} <small>{say.date(job.savedAt)}</small>
            </button>
            <button
              type="button"
              className="quiet"
              aria-label={say.t('header.forget-job', { name: job.name })}
              onClick={() => void autosave.forget(job.id)}
            >
              {say.t('header.forget')}
            </button>
          </li>
        ))}
      </ul>
    </>
  );
}
