import { useRef } from 'react';
import { SAMPLES } from '../samples.ts';
import type { Page } from '../start-page.ts';
import { useValue } from '../state/page-context.ts';
import type { Autosave } from '../storage/autosave.ts';

/** Samples and the jobs kept by this browser, behind one word. */
export function JobsMenu({ page }: { readonly page: Page }) {
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
      <summary>Jobs</summary>
      <div className="menu-body">
        <h2>Samples</h2>
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
                {sample.name}
              </button>
            </li>
          ))}
        </ul>
        {autosave === null ? null : <KeptJobs autosave={autosave} close={close} />}
      </div>
    </details>
  );
}

function KeptJobs({ autosave, close }: { readonly autosave: Autosave; close(): void }) {
  const jobs = useValue(autosave.jobs);
  if (jobs.length === 0) return null;
  return (
    <>
      <h2>Kept in this browser</h2>
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
              {job.name} <small>{new Date(job.savedAt).toLocaleString()}</small>
            </button>
            <button
              type="button"
              className="quiet"
              aria-label={`Forget ${job.name}`}
              onClick={() => void autosave.forget(job.id)}
            >
              Forget
            </button>
          </li>
        ))}
      </ul>
    </>
  );
}
