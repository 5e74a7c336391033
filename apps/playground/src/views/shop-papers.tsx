import { useEffect, useRef, useState } from 'react';
import { useSession } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import type { Say } from '../words/say.ts';
import type { FilesView } from '../workers/views.ts';

/** A page of the shop's own, made by the worker with the files. */
interface Paper {
  readonly name: string;
  readonly html: string;
}

/**
 * The shop sheet and the build guide, to look at here and to print: what comes out of the printer is the very file that is saved,
 * light whatever the page looks like. Ctrl-P (or Cmd-P) prints the shop sheet, not the page around it.
 */
export function ShopPapers({ view }: { readonly view: FilesView }) {
  const session = useSession();
  const say = useSay();
  const [paper, setPaper] = useState<Paper | null>(null);
  const [printing, setPrinting] = useState<Paper | null>(null);
  const names = view.files.map(({ name }) => name).filter((name) => name.endsWith('.html'));
  const load = async (name: string): Promise<Paper> => {
    const { bytes } = await session.client.ask((api) => api.file(name));
    return { name, html: new TextDecoder().decode(bytes) };
  };
  const attempt = (work: () => Promise<void>): void => void session.attempt(work);
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== 'p' || !names.includes('report.html'))
        return;
      event.preventDefault();
      attempt(async () => setPrinting(await load('report.html')));
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  });
  return (
    <section className="files papers">
      <h3>{say.t('paper.title')}</h3>
      <ul>
        {names.map((name) => (
          <li key={name}>
            <span className="file-name">{titleOf(name, say)}</span>
            <button
              type="button"
              aria-expanded={paper?.name === name}
              aria-label={say.t(paper?.name === name ? 'paper.close-it' : 'paper.look-at', {
                paper: titleOf(name, say),
              })}
              onClick={() => attempt(async () => setPaper(paper?.name === name ? null : await load(name)))}
            >
              {say.t(paper?.name === name ? 'page.close' : 'paper.look')}
            </button>
            <button
              type="button"
              aria-label={say.t('paper.print-it', { paper: titleOf(name, say) })}
              onClick={() => attempt(async () => setPrinting(await load(name)))}
            >
              {say.t('paper.print')}
            </button>
          </li>
        ))}
      </ul>
      {paper === null ? null : (
        <iframe className="paper" title={titleOf(paper.name, say)} srcDoc={paper.html} sandbox="allow-same-origin" />
      )}
      {printing === null ? null : <Printed key={printing.name} paper={printing} onDone={() => setPrinting(null)} />}
    </section>
  );
}

/** A frame that nobody sees, printed as soon as it is there. */
function Printed({ paper, onDone }: { readonly paper: Paper; onDone(): void }) {
  const say = useSay();
  const frame = useRef<HTMLIFrameElement>(null);
  const print = (): void => {
    const inner = frame.current?.contentWindow;
    if (inner === null || inner === undefined) return;
    inner.addEventListener('afterprint', onDone, { once: true });
    inner.focus();
    inner.print();
  };
  return (
    <iframe
      ref={frame}
      className="paper-printed"
      title={say.t('paper.printing', { paper: titleOf(paper.name, say) })}
      aria-hidden="true"
      tabIndex={-1}
      srcDoc={paper.html}
      sandbox="allow-same-origin allow-modals"
      onLoad={print}
    />
  );
}

function titleOf(name: string, say: Say): string {
  if (name === 'report.html') return say.t('paper.shop-sheet');
  const design = /^(.*)-build-guide\.html$/.exec(name)?.[1];
  return design === undefined ? say.t('paper.build-guide') : say.t('paper.build-guide-of', { design });
}
