import { type ReactNode, useState } from 'react';
import { ProblemSlot } from '../sentence/problem-slot.ts';
import { useSession, useValue } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import { STAGES } from '../workers/views.ts';
import { FaultNote } from './fault-note.tsx';
import { stageLead } from './stage-lead.ts';
import { StopWork } from './stop-work.tsx';
import { Upstream } from './upstream.tsx';
import { useShow } from './use-show.ts';

/** A stage: what came out in one large sentence, the drawing, and beside it the conditions as sentences. */
export function StageFrame({
  scene,
  title,
  children,
}: {
  readonly scene: ReactNode;
  readonly title: string;
  readonly children: ReactNode;
}) {
  const session = useSession();
  const results = useValue(session.planning.results);
  const { stage } = useValue(session.gaze);
  const show = useShow();
  const lead = stageLead(stage, results, useSay());
  // whoever looks at a later stage learns why nothing comes
  const failed = STAGES.slice(0, STAGES.indexOf(stage)).find((earlier) => results[earlier].fault !== null);
  return (
    <>
      <header className={`stage-lead is-${lead.tone}`}>
        <h2>{title}</h2>
        <p>{lead.words}</p>
      </header>
      <div className="stage-scene">{scene}</div>
      <div className="stage-words">
        {stage === 'boards' ? null : <StopWork />}
        {failed === undefined ? (
          <Upstream stage={stage} />
        ) : (
          <FaultNote state={results[failed]} onShow={() => show({ stage: failed, spot: null })} />
        )}
        {children}
      </div>
    </>
  );
}

/** A sentence with editable places. What is wrong with something typed is said below it, so that the sentence stays whole. */
export function Sentence({ children }: { readonly children: ReactNode }) {
  const [slot, setSlot] = useState<HTMLElement | null>(null);
  return (
    <div className="sentence-block">
      <p className="sentence">
        <ProblemSlot value={slot}>{children}</ProblemSlot>
      </p>
      <div ref={setSlot} className="sentence-problems" />
    </div>
  );
}

/** What is rarely needed. */
export function More({ label, children }: { readonly label: string; readonly children: ReactNode }) {
  return (
    <details className="more">
      <summary>{label}</summary>
      {children}
    </details>
  );
}

/** An empty scene with words, while there is nothing to draw. */
export function NoScene({ words }: { readonly words: string }) {
  return (
    <div className="scene-frame">
      <p className="scene no-scene">{words}</p>
    </div>
  );
}
