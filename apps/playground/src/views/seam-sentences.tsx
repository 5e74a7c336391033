import { KNOB_WISHES } from '@underlap/seam/knob-kinds';
import { chosenPlan } from '../picture/pictures.ts';
import { PhraseView } from '../sentence/phrase-view.tsx';
import { ChoicePlace, NumberPlace, TickPlace } from '../sentence/places.tsx';
import type { Desk } from '../state/desk.ts';
import { useSession } from '../state/page-context.ts';
import { seamWishOf, withSeamWish } from '../state/seam-wish.ts';
import { useSay } from '../state/use-say.ts';
import type { PartSplitView } from '../workers/views.ts';
import { Sentence } from './stage-frame.tsx';

/** How much of the chosen plan's seams is held, and what plates would do for it. */
function HeldWords({ part }: { readonly part: PartSplitView }) {
  const say = useSay();
  const plan = chosenPlan(part);
  if (plan === null || !(plan.lengthMm > 0)) return null;
  const shareOf = (mm: number): string => say.percent(Math.min(1, mm / plan.lengthMm));
  const share = shareOf(plan.heldByGlueMm);
  const places = { share, plated: shareOf(plan.heldWithPlatesMm), n: plan.plates.length };
  return (
    <span className="follows">
      {plan.plates.length === 0
        ? say.t('split.held', { share })
        : say.t(plan.isPlated ? 'split.held-with' : 'split.held-would', places)}
    </span>
  );
}

/** Wishes for the seams of one part. */
export function SeamSentences({ desk, part }: { readonly desk: Desk; readonly part: PartSplitView }) {
  const session = useSession();
  const say = useSay();
  const wish = seamWishOf(desk.job, part.partId);
  const set = (name: string, change: Partial<typeof wish>): void =>
    session.actOnJob(name, (job) => withSeamWish(job, part.partId, { ...wish, ...change }));
  const n = wish.pins.length;
  const zones = wish.forbidden.length;
  const free = (
    <button
      type="button"
      className="quiet"
      onClick={() => set(say.t('step.planner-chooses'), { pins: [], forbidden: [] })}
    >
      {say.t('split.free')}
    </button>
  );
  return (
    <>
      <Sentence>
        <PhraseView
          of="split.knobs"
          places={{
            knob: (
              <ChoicePlace
                label={say.t('split.knob-label')}
                value={wish.knob}
                choices={KNOB_WISHES.map((value) => ({ value, words: say.t(`split.knob-${value}`) }))}
                onChange={(knob) => set(say.t('step.knobs'), { knob, plan: null })}
              />
            ),
            more: (
              <NumberPlace
                label={say.t('split.more-label')}
                value={wish.morePieces}
                least={0}
                most={8}
                onChange={(morePieces) => set(say.t('step.more-pieces'), { morePieces, plan: null })}
              />
            ),
            n: wish.morePieces,
          }}
        />
      </Sentence>
      <Sentence>
        <PhraseView
          of="split.lines"
          places={{
            lines: (
              <ChoicePlace
                label={say.t('split.lines-label')}
                value={wish.alongLines}
                choices={[
                  { value: 'long', words: say.t('split.lines-long') },
                  { value: 'all', words: say.t('split.lines-all') },
                  { value: 'none', words: say.t('split.lines-none') },
                ]}
                onChange={(alongLines) => set(say.t('step.lines'), { alongLines, plan: null })}
              />
            ),
          }}
        />
      </Sentence>
      <Sentence>
        <TickPlace
          words={say.t('split.plates')}
          value={wish.plates}
          onChange={(plates) => set(say.t(plates ? 'step.plates' : 'step.no-plates'), { plates })}
        />{' '}
        <HeldWords part={part} />
      </Sentence>
      {n + zones === 0 ? null : (
        <Sentence>
          {zones === 0 ? (
            <PhraseView of="split.led" places={{ n, free }} />
          ) : n === 0 ? (
            <PhraseView of="split.kept-out" places={{ zones, free }} />
          ) : (
            <PhraseView of="split.led-and-kept-out" places={{ n, zones, free }} />
          )}
        </Sentence>
      )}
    </>
  );
}
