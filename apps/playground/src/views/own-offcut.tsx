import { useState } from 'react';
import { rectanglePath } from '../picture/ink.ts';
import { PhraseView } from '../sentence/phrase-view.tsx';
import { WordsPlace } from '../sentence/places.tsx';
import type { Desk } from '../state/desk.ts';
import { useSession, useValue } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import { parseLength } from '../units/length.ts';
import { More, Sentence } from './stage-frame.tsx';

/** An offcut that lies in the workshop: by its size, or by an outline drawn elsewhere. */
export function OwnOffcut({ desk }: { readonly desk: Desk }) {
  const session = useSession();
  const say = useSay();
  const { unit, numbers } = useValue(session.preferences);
  const { offcuts } = desk.job;
  const [name, setName] = useState('');
  const [outline, setOutline] = useState('');
  const called = name === '' ? say.t('own-offcut.default-name', { n: offcuts.length + 1 }) : name;

  const add = (): void => {
    const path = outlinePath(outline, (text) => parseLength(text, unit, numbers));
    if (path === null) {
      session.notices.say(say.t('own-offcut.refused'), 'look');
      return;
    }
    session.actOnJob(say.t('step.offcut', { name: called }), (job) => ({
      ...job,
      offcuts: [
        ...job.offcuts.filter(({ id }) => id !== called),
        { id: called, outline: path, count: 1, grain: false },
      ],
    }));
    setName('');
    setOutline('');
  };

  return (
    <More label={say.t('own-offcut.title')}>
      <Sentence>
        <PhraseView
          of="own-offcut.sentence"
          places={{
            name: <WordsPlace label={say.t('own-offcut.name-label')} value={called} onChange={setName} />,
            outline: (
              <input
                className="place-input"
                aria-label={say.t('own-offcut.outline-label')}
                value={outline}
                size={14}
                onChange={(event) => setOutline(event.target.value)}
              />
            ),
          }}
        />
      </Sentence>
      <p className="hint">{say.t('own-offcut.hint')}</p>
      <button type="button" disabled={outline.trim() === ''} onClick={add}>
        {say.t('own-offcut.add')}
      </button>
    </More>
  );
}

/** A size ('300 x 200') or path data as path data; null when it is neither. Whether the path holds, the engine says. */
export function outlinePath(text: string, parse: (text: string) => number | null): string | null {
  const plain = text.trim();
  if (/^m/i.test(plain)) return /z\s*$/i.test(plain) ? plain : null;
  const [first = '', second = '', ...more] = plain.split(/\s*[x\u00d7*]\s*/i);
  const width = parse(first);
  const height = parse(second);
  if (more.length > 0 || width === null || height === null || width <= 0 || height <= 0) return null;
  return rectanglePath(0, 0, width, height);
}
