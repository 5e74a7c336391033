import { memo } from 'react';
import { useSession, useValue } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import type { Say } from '../words/say.ts';
import type { ArtworkView, PartView } from '../workers/views.ts';
import { More } from './stage-frame.tsx';

/** Every part in words; choosing one selects it in all pictures. */
export const PartList = memo(function PartList({ artwork }: { readonly artwork: ArtworkView }) {
  const session = useSession();
  const { partId } = useValue(session.gaze);
  const say = useSay();
  return (
    <More label={say.t('parts.title', { n: artwork.parts.length })}>
      <ul className="parts">
        {artwork.parts.map((part) => (
          <li key={part.id}>
            <button
              type="button"
              className={part.id === partId ? 'part is-chosen' : 'part'}
              aria-pressed={part.id === partId}
              onClick={() =>
                session.gaze.update((gaze) => ({
                  ...gaze,
                  partId: part.id === gaze.partId ? null : part.id,
                  placementId: null,
                }))
              }
            >
              <span className="swatch" style={{ background: part.paint ?? 'var(--wood)' }} aria-hidden="true" />
              <span>{part.name}</span>
              <small>{sizeWords(part, say)}</small>
            </button>
          </li>
        ))}
      </ul>
    </More>
  );
});

function sizeWords({ box, holes }: PartView, say: Say): string {
  const size = say.size(box.maxX - box.minX, box.maxY - box.minY);
  return holes === 0 ? size : say.t('parts.size-holes', { size, n: holes });
}
