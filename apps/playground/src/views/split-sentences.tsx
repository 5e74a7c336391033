import { chosenPlan, splitParts } from '../picture/pictures.ts';
import { ChoicePlace, LengthPlace, NumberPlace, TickPlace } from '../sentence/places.tsx';
import type { Desk } from '../state/desk.ts';
import { useSession } from '../state/page-context.ts';
import { seamWishOf, withSeamWish } from '../state/seam-wish.ts';
import type { ArtworkView, PartSplitView, SplitView } from '../workers/views.ts';
import { SIDE } from './common-choices.ts';
import { More, Sentence } from './stage-frame.tsx';
import { count, useSay } from './use-say.ts';

/** The machine and the stock's thickness, and what follows from them. */
export function BedSentences({
  desk,
  split,
  artwork,
}: {
  readonly desk: Desk;
  readonly split: SplitView | null;
  readonly artwork: ArtworkView | null;
}) {
  const session = useSession();
  const say = useSay();
  const { job } = desk;
  const setBed = (name: string, change: Partial<Desk['job']['bed']>): void =>
    session.actOnJob(name, (before) => ({ ...before, bed: { ...before.bed, ...change } }));
  const setLoading = (way: Desk['job']['loading']['way']): void =>
    session.actOnJob('how larger boards are cut', (before) => ({ ...before, loading: { ...before.loading, way } }));
  const wanting = split === null ? [] : splitParts(split);
  const names = wanting.map(
    (part) => artwork?.parts.find((candidate) => candidate.id === part.partId)?.name ?? part.partId,
  );
  return (
    <>
      <Sentence>
        I cut on a bed of{' '}
        <LengthPlace
          label="Width of the bed"
          value={job.bed.width}
          {...SIDE}
          isBare
          onChange={(width) => setBed(`bed ${say.size(width, job.bed.height)}`, { width })}
        />{' '}
        &times;{' '}
        <LengthPlace
          label="Height of the bed"
          value={job.bed.height}
          {...SIDE}
          onChange={(height) => setBed(`bed ${say.size(job.bed.width, height)}`, { height })}
        />
        ; boards{' '}
        <ChoicePlace
          label="How boards lie on the bed"
          value={job.bed.passThrough}
          choices={[
            { value: 'none', words: 'lie on the bed' },
            { value: 'width', words: 'pass through along its width' },
            { value: 'height', words: 'pass through along its height' },
          ]}
          onChange={(passThrough) => setBed('how boards lie', { passThrough })}
        />
        ; boards larger than that{' '}
        <ChoicePlace
          label="How boards larger than the bed are cut"
          value={job.loading.way}
          choices={[
            { value: 'move-board', words: 'are moved, one file a loading' },
            { value: 'cut-down', words: 'are cut down to panels first' },
          ]}
          onChange={(way) => setLoading(way)}
        />
        .{' '}
        {split === null ? null : wanting.length === 0 ? (
          <span className="follows">So every part fits whole.</span>
        ) : (
          <span className="follows">
            So {names.join(', ')} {names.length === 1 ? 'has' : 'have'} to be cut in pieces.
          </span>
        )}
      </Sentence>
      <Sentence>
        The cut removes{' '}
        <LengthPlace
          label="Width that a cut removes"
          value={job.kerf}
          least={0}
          most={3}
          onChange={(kerf) => session.actOnJob('kerf', (before) => ({ ...before, kerf }))}
        />{' '}
        of stock{' '}
        <LengthPlace
          label="Thickness of the stock"
          value={job.thickness}
          least={0.5}
          most={50}
          onChange={(thickness) => session.actOnJob('thickness', (before) => ({ ...before, thickness }))}
        />{' '}
        thick; edges that meet should{' '}
        <ChoicePlace
          label="How edges that meet should fit"
          value={fitWord(job.fit)}
          choices={[
            { value: 'press', words: 'press together' },
            { value: 'touch', words: 'touch' },
            { value: 'slide', words: 'slide' },
            { value: 'own', words: 'leave a gap of my own' },
          ]}
          onChange={(word) => session.actOnJob('fit', (before) => ({ ...before, fit: FITS[word] ?? before.fit }))}
        />
        .
      </Sentence>
      <More label="More about the machine and the fit">
        <Sentence>
          Edges that meet leave a gap of{' '}
          <LengthPlace
            label="Gap between edges that meet"
            value={job.fit}
            least={-1}
            most={2}
            onChange={(fit) => session.actOnJob('gap between edges', (before) => ({ ...before, fit }))}
          />{' '}
          (below zero presses).
        </Sentence>
        <Sentence>
          Kerf is taken into account{' '}
          <ChoicePlace
            label="Where kerf is taken into account"
            value={job.compensate}
            choices={[
              { value: 'all', words: 'on every edge' },
              { value: 'seams', words: 'on seams only' },
              { value: 'none', words: 'by the machine' },
            ]}
            onChange={(compensate) => session.actOnJob('where kerf counts', (before) => ({ ...before, compensate }))}
          />
          .
        </Sentence>
        <Sentence>
          An edge of{' '}
          <LengthPlace
            label="Edge of the bed that is not used"
            value={job.bed.margin}
            least={0}
            most={100}
            onChange={(margin) => setBed('unused edge of the bed', { margin })}
          />{' '}
          round the bed is not used.
        </Sentence>
      </More>
    </>
  );
}

/** Common practice, no source: a tenth presses by hand, a tenth and a half slides. mm. */
const FITS: Readonly<Record<string, number>> = { press: -0.05, touch: 0, slide: 0.15 };

function fitWord(fit: number): 'press' | 'touch' | 'slide' | 'own' {
  if (fit === FITS.press) return 'press';
  if (fit === FITS.touch) return 'touch';
  return fit === FITS.slide ? 'slide' : 'own';
}

/** How much of the chosen plan's seams is held, and what plates would do for it. */
function HeldWords({ part }: { readonly part: PartSplitView }) {
  const say = useSay();
  const plan = chosenPlan(part);
  if (plan === null || !(plan.lengthMm > 0)) return null;
  const share = (mm: number): string => say.percent(Math.min(1, mm / plan.lengthMm));
  const glue = share(plan.heldByGlueMm);
  if (plan.plates.length === 0) return <span className="follows">Glue holds {glue} of the seam.</span>;
  return (
    <span className="follows">
      Glue holds {glue} of the seam; {plan.isPlated ? 'with' : 'it would be'}{' '}
      {plan.isPlated
        ? `${count(plan.plates.length, 'plate')} ${share(plan.heldWithPlatesMm)} is held.`
        : `${share(plan.heldWithPlatesMm)} with ${count(plan.plates.length, 'plate')}.`}
    </span>
  );
}

/** Wishes for the seams of one part. */
export function SeamSentences({ desk, part }: { readonly desk: Desk; readonly part: PartSplitView }) {
  const session = useSession();
  const wish = seamWishOf(desk.job, part.partId);
  const set = (name: string, change: Partial<typeof wish>): void =>
    session.actOnJob(name, (job) => withSeamWish(job, part.partId, { ...wish, ...change }));
  return (
    <>
      <Sentence>
        Its knobs are{' '}
        <ChoicePlace
          label="Shape of the knobs"
          value={wish.knob}
          choices={[
            { value: 'auto', words: 'whatever holds best' },
            { value: 'round', words: 'round' },
            { value: 'dovetail', words: 'dovetails' },
            { value: 'step', words: 'plain steps' },
          ]}
          onChange={(knob) => set('shape of the knobs', { knob, plan: null })}
        />{' '}
        and I want{' '}
        <NumberPlace
          label="Pieces more than the fewest"
          value={wish.morePieces}
          least={0}
          most={8}
          onChange={(morePieces) => set('pieces more', { morePieces, plan: null })}
        />{' '}
        pieces more than the fewest.
      </Sentence>
      <Sentence>
        <TickPlace
          words="Where no glued part holds a seam, a plate is glued behind it."
          value={wish.plates}
          onChange={(plates) => set(plates ? 'plates' : 'no plates', { plates })}
        />{' '}
        <HeldWords part={part} />
      </Sentence>
      {wish.pins.length + wish.forbidden.length === 0 ? null : (
        <Sentence>
          {wish.pins.length > 0
            ? `Seams are led through ${wish.pins.length === 1 ? 'a point' : `${wish.pins.length} points`}`
            : ''}
          {wish.pins.length > 0 && wish.forbidden.length > 0 ? ' and ' : ''}
          {wish.forbidden.length > 0
            ? `kept out of ${wish.forbidden.length === 1 ? 'one zone' : `${wish.forbidden.length} zones`}`
            : ''}
          .{' '}
          <button
            type="button"
            className="quiet"
            onClick={() => set('seams as the planner likes', { pins: [], forbidden: [] })}
          >
            Let the planner choose
          </button>
        </Sentence>
      )}
    </>
  );
}
