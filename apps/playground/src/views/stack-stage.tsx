import { useDeferredValue, useMemo, useState } from 'react';
import { stackPicture } from '../picture/pictures.ts';
import { Scene } from '../scene/scene.tsx';
import { ChoicePlace, LengthPlace, TickPlace } from '../sentence/places.tsx';
import type { Desk } from '../state/desk.ts';
import { useSession, useValue } from '../state/page-context.ts';
import type { ArtworkView, StackView } from '../workers/views.ts';
import { FaultNote } from './fault-note.tsx';
import { PartList } from './part-list.tsx';
import { NoScene, Sentence, StageFrame } from './stage-frame.tsx';
import { usePartChoice } from './use-part-choice.ts';
import { useSay } from './use-say.ts';

/** The assembled sign: layers to peel, what hides what, pulled apart, guides. */
export function StackStage({ desk }: { readonly desk: Desk }) {
  const session = useSession();
  const results = useValue(session.planning.results);
  const { unit } = useValue(session.preferences);
  const choice = usePartChoice();
  const [peeled, setPeeled] = useState(0);
  const [apart, setApart] = useState(0);
  const artwork = useDeferredValue(results.artwork.view);
  const stack = useDeferredValue(results.stack.view);
  const { guides, guideInset, numbers } = desk.job.marks;
  const picture = useMemo(
    () =>
      artwork === null || stack === null
        ? null
        : stackPicture(artwork, stack, { peeled, apart, showsGuides: guides }, choice.partId),
    [artwork, stack, peeled, apart, guides, choice.partId],
  );
  const setMarks = (name: string, change: Partial<Desk['job']['marks']>): void =>
    session.actOnJob(name, (job) => ({ ...job, marks: { ...job.marks, ...change } }));

  return (
    <StageFrame
      title="Stack"
      scene={
        picture === null ? (
          <NoScene
            words={results.stack.fault === null ? 'Putting the sign together' : 'The sign cannot be put together yet'}
          />
        ) : (
          <Scene
            picture={picture}
            label="The sign, put together"
            unit={unit}
            selected={choice.selected}
            onSelect={choice.select}
          />
        )
      }
    >
      <FaultNote state={results.stack} />
      {artwork === null || stack === null ? null : (
        <>
          <div className="sliders">
            <label>
              <span>Peel off</span>
              <input
                type="range"
                min={0}
                max={artwork.parts.length - 1}
                value={Math.min(peeled, artwork.parts.length - 1)}
                onChange={(event) => setPeeled(Number(event.target.value))}
              />
              <output>{peeled === 0 ? 'nothing' : `${peeled} of ${artwork.parts.length} parts`}</output>
            </label>
            <label>
              <span>Pull apart</span>
              <input
                type="range"
                min={0}
                max={100}
                value={apart * 100}
                onChange={(event) => setApart(Number(event.target.value) / 100)}
              />
              <output>{apart === 0 ? 'put together' : `${Math.round(apart * 100)} %`}</output>
            </label>
          </div>
          <Supports desk={desk} artwork={artwork} stack={stack} />
          <Chosen artwork={artwork} stack={stack} partId={choice.partId} />
          <Sentence>
            <TickPlace
              words="Guides are burnt where upper parts go"
              value={guides}
              onChange={(value) => setMarks(value ? 'guides' : 'no guides', { guides: value })}
            />
            {guides ? (
              <>
                ,{' '}
                <LengthPlace
                  label="How far guides lie inside the upper part"
                  value={guideInset}
                  least={0}
                  most={20}
                  onChange={(inset) => setMarks('inset of the guides', { guideInset: inset })}
                />{' '}
                inside its edge.
              </>
            ) : (
              '.'
            )}
          </Sentence>
          <Sentence>
            Piece numbers are burnt{' '}
            <ChoicePlace
              label="Where piece numbers are burnt"
              value={numbers}
              choices={[
                { value: 'hidden', words: 'where another part hides them' },
                { value: 'all', words: 'on every piece' },
                { value: 'off', words: 'nowhere' },
              ]}
              onChange={(value) => setMarks('piece numbers', { numbers: value })}
            />
            .
          </Sentence>
          <PartList artwork={artwork} />
        </>
      )}
    </StageFrame>
  );
}

/** What the selected part rests on, hides and carries: the same that the build order says. */
function Chosen({
  artwork,
  stack,
  partId,
}: {
  readonly artwork: ArtworkView;
  readonly stack: StackView;
  readonly partId: string | null;
}) {
  const say = useSay();
  const name = (id: string): string => artwork.parts.find((part) => part.id === id)?.name ?? id;
  const layer = stack.layers.find((candidate) => candidate.partId === partId);
  if (layer === undefined) {
    return <p className="hint">Choose a part to see what it carries and what it lies on.</p>;
  }
  const glue = layer.gluedTo.reduce((sum, contact) => sum + contact.areaMm2, 0);
  const onlyHide = layer.coveredBy.filter((id) => !layer.carries.includes(id));
  return (
    <p className="sentence">
      <strong>{name(layer.partId)}</strong>{' '}
      {layer.gluedTo.length === 0
        ? 'lies at the bottom'
        : `is glued on ${layer.gluedTo.map((contact) => name(contact.partId)).join(', ')} (${areaWords(glue)})`}
      {layer.carries.length === 0 ? ' and carries nothing.' : ` and carries ${layer.carries.map(name).join(', ')}.`}
      {onlyHide.length === 0 ? '' : ` ${onlyHide.map(name).join(', ')} lie above it without touching it.`}
      {layer.coveredBy.length === 0 ? '' : ` ${say.percent(layer.hiddenShare)} of its face is hidden.`}
    </p>
  );
}

/** Parts that rest badly, and the fillers that would carry them. */
function Supports({
  desk,
  artwork,
  stack,
}: {
  readonly desk: Desk;
  readonly artwork: ArtworkView;
  readonly stack: StackView;
}) {
  const session = useSession();
  const { fillers } = desk.job.artwork;
  const faulty = stack.layers.filter((layer) => layer.fault !== null && layer.fault !== 'tips');
  const isFilled = (id: string): boolean => fillers === 'all' || (fillers !== 'none' && fillers.includes(id));
  const setFillers = (next: Desk['job']['artwork']['fillers']): void =>
    session.actOnJob('fillers', (job) => ({ ...job, artwork: { ...job.artwork, fillers: next } }));
  const listed = fillers === 'none' || fillers === 'all' ? [] : fillers;
  return (
    <>
      {faulty.length === 0 ? null : (
        <ul className="told">
          {faulty.map((layer) => {
            const told = artwork.complaints.find(
              (complaint) =>
                complaint.code === layer.fault &&
                complaint.place.element === artwork.parts.find((part) => part.id === layer.partId)?.drawnAt,
            );
            return (
              <li key={layer.partId} className="look">
                <strong>Look here: </strong>
                {told?.message ?? `${layer.partId} rests badly.`}{' '}
                {layer.fillers.length === 0 || isFilled(layer.partId) ? null : (
                  <button type="button" className="quiet" onClick={() => setFillers([...listed, layer.partId])}>
                    Put a filler below it
                  </button>
                )}
              </li>
            );
          })}
        </ul>
      )}
      {fillers === 'none' || fillers.length === 0 ? null : (
        <Sentence>
          Fillers are cut for {fillers === 'all' ? 'every part that hangs in the air' : fillers.join(', ')}.{' '}
          <button type="button" className="quiet" onClick={() => setFillers('none')}>
            Take them out
          </button>
        </Sentence>
      )}
    </>
  );
}

function areaWords(mm2: number): string {
  return `${(mm2 / 100).toFixed(mm2 < 1000 ? 1 : 0)} cm\u00b2 of glue`;
}
