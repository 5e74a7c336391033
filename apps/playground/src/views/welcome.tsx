import { useRef } from 'react';
import { isSample } from '../samples.ts';
import { PhraseView } from '../sentence/phrase-view.tsx';
import type { Page } from '../start-page.ts';
import { useSession, useValue } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import { OpenFile } from './open-file.tsx';

/** For newcomers: what this is, that it is a sample, and three steps to a first sign of their own. */
export function Welcome({ page }: { readonly page: Page }) {
  const session = useSession();
  const say = useSay();
  const history = useValue(session.history);
  const { isNewcomer } = useValue(session.preferences);
  const file = useRef<HTMLInputElement>(null);
  if (!isNewcomer || history === null || !isSample(history.present.job)) return null;
  return (
    <section className="welcome" aria-label={say.t('welcome.section')}>
      <div className="welcome-what">
        <p className="welcome-sentence">{say.t('welcome.what')}</p>
        <p>{say.t('welcome.sample')}</p>
        <button
          type="button"
          className="quiet"
          onClick={() => session.preferences.update((before) => ({ ...before, isNewcomer: false }))}
        >
          {say.t('welcome.hide')}
        </button>
      </div>
      <ol className="welcome-steps">
        <li>
          <span>
            <PhraseView of="welcome.step-drawing" />
          </span>
        </li>
        <li>
          <span>
            <PhraseView of="welcome.step-bed" />
          </span>
        </li>
        <li>
          <span>
            <PhraseView of="welcome.step-files" />
          </span>
        </li>
      </ol>
      <button type="button" className="drop-place" onClick={() => file.current?.click()}>
        <strong>{say.t('welcome.drop')}</strong>
        <span>{say.t('welcome.choose')}</span>
      </button>
      <OpenFile page={page} input={file} />
    </section>
  );
}
