import { useDeferredValue, useMemo, useState } from 'react';
import { tellingSection } from '../picture/section-picture.ts';
import { stackPicture } from '../picture/stack-picture.ts';
import { Scene } from '../scene/scene.tsx';
import { PhraseView } from '../sentence/phrase-view.tsx';
import { ChoicePlace, LengthPlace, TickPlace } from '../sentence/places.tsx';
import type { Desk } from '../state/desk.ts';
import { useSession, useValue } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import type { ArtworkView, StackView } from '../workers/views.ts';
import { DesignChoice } from './design-choice.tsx';
import { FaultNote } from './fault-note.tsx';
import { PartList } from './part-list.tsx';
import { NoScene, Sentence, StageFrame } from './stage-frame.tsx';
import { Supports } from './supports.tsx';
import { usePartChoice } from './use-part-choice.ts';
import { usePictureWords } from './use-picture-words.ts';

/** The assembled sign: layers to peel, what hides what, pulled apart, guides. */
export function StackStage({ desk }: { readonly desk: Desk }) {
  const session = useSession();
  const results = useValue(session.planning.results);
  const { unit } = useValue(session.preferences);
  const say = useSay();
  const words = usePictureWords();
  const choice = usePartChoice();
  const [peeled, setPeeled] = useState(0);
  const [apart, setApart] = useState(0);
  const artwork = useDeferredValue(results.artwork.view);
  const stack = useDeferredValue(results.stack.view);
  const [ownSection, setSection] = useState<number | null>(null);
  const { guides } = desk.job.marks;
  const told = useMemo(() => (stack === null ? 0 : tellingSection(stack)), [stack]);
  const section = ownSection ?? told;
  const picture = useMemo(
    () =>
      artwork === null || stack === null
        ? null
        : stackPicture(artwork, stack, { peeled, apart, showsGuides: guides, section }, choice.partId, words),
    [artwork, stack, peeled, apart, guides, section, choice.partId, words],
  );

  return (
    <StageFrame
      title={say.t('stack.title')}
      scene={
        picture === null ? (
          <NoScene words={say.t(results.stack.fault === null ? 'stack.putting' : 'stack.cannot')} />
        ) : (
          <Scene
            stage="stack"
            picture={picture}
            label={say.t('stack.scene')}
            unit={unit}
            selected={choice.selected}
            onSelect={choice.select}
          />
        )
      }
    >
      <DesignChoice />
      <FaultNote state={results.stack} />
      {artwork === null || stack === null ? null : (
        <>
          <div className="sliders">
            <label>
              <span>{say.t('stack.peel')}</span>
              <input
                type="range"
                min={0}
                max={artwork.parts.length - 1}
                value={Math.min(peeled, artwork.parts.length - 1)}
                onChange={(event) => setPeeled(Number(event.target.value))}
              />
              <output>
                {peeled === 0
                  ? say.t('stack.peel-none')
                  : say.t('stack.peeled', { n: peeled, all: artwork.parts.length })}
              </output>
            </label>
            <label>
              <span>{say.t('stack.apart')}</span>
              <input
                type="range"
                min={0}
                max={100}
                value={apart * 100}
                onChange={(event) => setApart(Number(event.target.value) / 100)}
              />
              <output>{apart === 0 ? say.t('stack.together') : say.percent(apart)}</output>
            </label>
            {apart === 0 && stack.sections.length > 0 ? (
              <label>
                <span>{say.t('stack.section')}</span>
                <input
                  type="range"
                  min={0}
                  max={stack.sections.length - 1}
                  value={Math.min(section, stack.sections.length - 1)}
                  onChange={(event) => setSection(Number(event.target.value))}
                />
                <output>{say.t('stack.section-at', { y: say.length(stack.sections[section]?.y ?? 0, 0) })}</output>
              </label>
            ) : null}
          </div>
          <Supports desk={desk} artwork={artwork} stack={stack} />
          <Chosen artwork={artwork} stack={stack} partId={choice.partId} />
          <MarkSentences desk={desk} />
          <PartList artwork={artwork} />
        </>
      )}
    </StageFrame>
  );
}

/** Guides and piece numbers. */
function MarkSentences({ desk }: { readonly desk: Desk }) {
  const session = useSession();
  const say = useSay();
  const { guides, guideInset, numbers, seamLabels, textHeight } = desk.job.marks;
  const set = (name: string, change: Partial<Desk['job']['marks']>): void =>
    session.actOnJob(name, (job) => ({ ...job, marks: { ...job.marks, ...change } }));
  const tick = (
    <TickPlace
      words={say.t('stack.guides-tick')}
      value={guides}
      onChange={(value) => set(say.t(value ? 'step.guides' : 'step.no-guides'), { guides: value })}
    />
  );
  const inset = (
    <LengthPlace
      label={say.t('stack.inset-label')}
      value={guideInset}
      least={0}
      most={20}
      onChange={(value) => set(say.t('step.guide-inset'), { guideInset: value })}
    />
  );
  return (
    <>
      <Sentence>
        {guides ? (
          <PhraseView of="stack.guides-on" places={{ tick, inset }} />
        ) : (
          <PhraseView of="stack.guides-off" places={{ tick }} />
        )}
      </Sentence>
      <Sentence>
        <PhraseView
          of="marks.height"
          places={{
            height: (
              <LengthPlace
                label={say.t('marks.height-label')}
                value={textHeight}
                least={1.5}
                most={50}
                onChange={(value) => set(say.t('step.text-height'), { textHeight: value })}
              />
            ),
          }}
        />{' '}
        <TickPlace
          words={say.t('marks.letters')}
          value={seamLabels}
          onChange={(value) => set(say.t(value ? 'step.letters' : 'step.no-letters'), { seamLabels: value })}
        />
      </Sentence>
      <Sentence>
        <PhraseView
          of="stack.numbers"
          places={{
            where: (
              <ChoicePlace
                label={say.t('stack.numbers-label')}
                value={numbers}
                choices={[
                  { value: 'hidden', words: say.t('stack.numbers-hidden') },
                  { value: 'all', words: say.t('stack.numbers-all') },
                  { value: 'off', words: say.t('stack.numbers-off') },
                ]}
                onChange={(value) => set(say.t('step.numbers'), { numbers: value })}
              />
            ),
          }}
        />
      </Sentence>
    </>
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
  const nameOf = (id: string): string => artwork.parts.find((part) => part.id === id)?.name ?? id;
  const layer = stack.layers.find((candidate) => candidate.partId === partId);
  if (layer === undefined) return <p className="hint">{say.t('stack.choose')}</p>;
  const name = nameOf(layer.partId);
  const below = say.list(layer.gluedTo.map((contact) => nameOf(contact.partId)));
  const glue = layer.gluedTo.reduce((sum, contact) => sum + contact.areaMm2, 0);
  const area = say.number(glue / 100, glue < 1000 ? 1 : 0);
  const carried = say.list(layer.carries.map(nameOf));
  const isBare = layer.carries.length === 0;
  const onlyHide = layer.coveredBy.filter((id) => !layer.carries.includes(id));
  return (
    <p className="sentence">
      {layer.gluedTo.length === 0 ? (
        isBare ? (
          <PhraseView of="stack.bottom-bare" places={{ name }} />
        ) : (
          <PhraseView of="stack.bottom-carries" places={{ name, carried }} />
        )
      ) : isBare ? (
        <PhraseView of="stack.glued-bare" places={{ name, below, area }} />
      ) : (
        <PhraseView of="stack.glued-carries" places={{ name, below, area, carried }} />
      )}
      {onlyHide.length === 0
        ? ''
        : ` ${say.t('stack.only-hide', { names: say.list(onlyHide.map(nameOf)), n: onlyHide.length })}`}
      {layer.coveredBy.length === 0 || layer.hiddenShare === null
        ? ''
        : ` ${say.t('stack.hidden-share', { share: say.percent(layer.hiddenShare) })}`}
    </p>
  );
}
