import type { ReactNode } from 'react';

/** A stage: the drawing, and beside it the conditions as sentences. */
export function StageFrame({
  scene,
  title,
  children,
}: {
  readonly scene: ReactNode;
  readonly title: string;
  readonly children: ReactNode;
}) {
  return (
    <>
      <div className="stage-scene">{scene}</div>
      <div className="stage-words">
        <h2>{title}</h2>
        {children}
      </div>
    </>
  );
}

/** A sentence with editable places. */
export function Sentence({ children }: { readonly children: ReactNode }) {
  return <p className="sentence">{children}</p>;
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
