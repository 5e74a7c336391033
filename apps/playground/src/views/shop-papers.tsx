import { useEffect, useRef, useState } from 'react';
import { useSession } from '../state/page-context.ts';
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
      <h3>To look at and to print</h3>
      <ul>
        {names.map((name) => (
          <li key={name}>
            <span className="file-name">{titleOf(name)}</span>
            <button
              type="button"
              aria-expanded={paper?.name === name}
              aria-label={`${paper?.name === name ? 'Close' : 'Look at'} the ${titleOf(name)}`}
              onClick={() => attempt(async () => setPaper(paper?.name === name ? null : await load(name)))}
            >
              {paper?.name === name ? 'Close' : 'Look at it'}
            </button>
            <button
              type="button"
              aria-label={`Print the ${titleOf(name)}`}
              onClick={() => attempt(async () => setPrinting(await load(name)))}
            >
              Print
            </button>
          </li>
        ))}
      </ul>
      {paper === null ? null : (
        <iframe className="paper" title={titleOf(paper.name)} srcDoc={paper.html} sandbox="allow-same-origin" />
      )}
      {printing === null ? null : <Printed key={printing.name} paper={printing} onDone={() => setPrinting(null)} />}
    </section>
  );
}

/** A frame that nobody sees, printed as soon as it is there. */
function Printed({ paper, onDone }: { readonly paper: Paper; onDone(): void }) {
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
      title={`${titleOf(paper.name)}, printing`}
      aria-hidden="true"
      tabIndex={-1}
      srcDoc={paper.html}
      sandbox="allow-same-origin allow-modals"
      onLoad={print}
    />
  );
}

function titleOf(name: string): string {
  if (name === 'report.html') return 'shop sheet';
  return name === 'build-guide.html' ? 'build guide' : name.replace(/-build-guide\.html$/, ' build guide');
}
