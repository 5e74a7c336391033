import { memo, useDeferredValue, useMemo } from 'react';
import { artworkPicture } from '../picture/pictures.ts';
import { Scene } from '../scene/scene.tsx';
import type { Desk } from '../state/desk.ts';
import { useSession, useValue } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import type { ArtworkView } from '../workers/views.ts';
import { ArtworkSentences } from './artwork-sentences.tsx';
import { ComplaintList, ComplaintPins } from './complaints.tsx';
import { DesignChoice } from './design-choice.tsx';
import { FaultNote } from './fault-note.tsx';
import { Lettering } from './lettering.tsx';
import { PartList } from './part-list.tsx';
import { NoScene, StageFrame } from './stage-frame.tsx';
import { usePartChoice } from './use-part-choice.ts';
import { usePictureWords } from './use-picture-words.ts';

/** The drawing as it was read: true size, colours, parts, repairs and complaints. */
export function ArtworkStage({ desk }: { readonly desk: Desk }) {
  const session = useSession();
  const state = useValue(session.planning.results).artwork;
  const choice = usePartChoice();
  const { unit } = useValue(session.preferences);
  const view = useDeferredValue(state.view);
  const say = useSay();
  const words = usePictureWords();
  const picture = useMemo(
    () => (view === null ? null : artworkPicture(view, choice.partId, words)),
    [view, choice.partId, words],
  );
  return (
    <StageFrame
      title={say.t('artwork.title')}
      scene={
        picture === null || view === null ? (
          <NoScene words={say.t(state.fault === null ? 'artwork.reading' : 'artwork.unreadable')} />
        ) : (
          <Scene
            stage="artwork"
            picture={picture}
            label={say.t('artwork.scene', { n: view.parts.length })}
            unit={unit}
            selected={choice.selected}
            onSelect={choice.select}
            overlay={(project, hand) => (
              <ComplaintPins complaints={view.complaints} repairs={view.repairs} project={project} hand={hand} />
            )}
          />
        )
      }
    >
      <DesignChoice />
      <FaultNote state={state} />
      {view !== null ? (
        <Known view={view} desk={desk} />
      ) : state.fault === null ? null : (
        // what is wrong may be that a font is missing: here it is given
        <Lettering desk={desk} hasText={state.fault.code === 'no-font'} />
      )}
    </StageFrame>
  );
}

const Known = memo(function Known({ view, desk }: { readonly view: ArtworkView; readonly desk: Desk }) {
  return (
    <>
      <ArtworkSentences view={view} desk={desk} />
      <Lettering desk={desk} hasText={view.complaints.some(({ code }) => code === 'text')} />
      <ComplaintList view={view} />
      <PartList artwork={view} />
    </>
  );
});
