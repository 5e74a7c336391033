import { memo } from 'react';
import { useSession, useValue } from '../state/page-context.ts';
import type { ArtworkView } from '../workers/views.ts';
import { More } from './stage-frame.tsx';
import { useSay } from './use-say.ts';

/** Every part in words; choosing one selects it in all pictures. */
export const PartList = memo(function PartList({ artwork }: { readonly artwork: ArtworkView }) {
  const session = useSession();
  const { partId } = useValue(session.gaze);
  const say = useSay();
  return (
    <More label={`The ${artwork.parts.length} parts, bottom first`}>
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
              <small>
                {say.size(part.box.maxX - part.box.minX, part.box.maxY - part.box.minY)}
                {part.holes > 0 ? `, ${part.holes} ${part.holes === 1 ? 'hole' : 'holes'}` : ''}
              </small>
            </button>
          </li>
        ))}
      </ul>
    </More>
  );
});
