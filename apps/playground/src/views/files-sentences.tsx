import { FORMATS, MASKS, MOST_BRIDGES } from '@underlap/job/choices';
import { PhraseView } from '../sentence/phrase-view.tsx';
import { ChoicePlace, LengthPlace, NumberPlace, TickPlace, WordsPlace } from '../sentence/places.tsx';
import type { Desk } from '../state/desk.ts';
import { useSession } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import { Sentence } from './stage-frame.tsx';

type Format = (typeof FORMATS)[number];

/** Which kinds of sheet files are written. */
export function FormatSentence({ desk }: { readonly desk: Desk }) {
  const session = useSession();
  const say = useSay();
  const { output } = desk.job;
  const toggle = (format: Format, isOn: boolean): void => {
    const formats = isOn ? [...output.formats, format] : output.formats.filter((other) => other !== format);
    if (formats.length === 0) {
      session.notices.say(say.t('notice.one-format'), 'look');
      return;
    }
    const name = say.t(isOn ? 'step.format' : 'step.no-format', { format: nameOf(format) });
    session.actOnJob(name, (job) => ({ ...job, output: { ...job.output, formats } }));
  };
  const formats = FORMATS.map((format) => (
    <TickPlace
      key={format}
      words={nameOf(format)}
      value={output.formats.includes(format)}
      onChange={(isOn) => toggle(format, isOn)}
    />
  ));
  return (
    <Sentence>
      <PhraseView of="files.formats" places={{ formats }} />
    </Sentence>
  );
}

/** A format's name is the same in every language. */
function nameOf(format: Format): string {
  return format.toUpperCase();
}

/** Uncut stretches that keep pieces in their board. */
export function BridgeSentence({ desk }: { readonly desk: Desk }) {
  const session = useSession();
  const say = useSay();
  const { bridges } = desk.job;
  const set = (change: Partial<typeof bridges>): void =>
    session.actOnJob(say.t('step.bridges'), (job) => ({ ...job, bridges: { ...job.bridges, ...change } }));
  return (
    <Sentence>
      <PhraseView
        of="bridges.sentence"
        places={{
          number: (
            <NumberPlace
              label={say.t('bridges.number-label')}
              value={bridges.number}
              least={0}
              most={MOST_BRIDGES}
              onChange={(number) => set({ number })}
            />
          ),
          width: (
            <LengthPlace
              label={say.t('bridges.width-label')}
              value={bridges.width}
              least={0.1}
              most={10}
              onChange={(width) => set({ width })}
            />
          ),
        }}
      />
    </Sentence>
  );
}

/** Whether masks of glued faces are written. */
export function MaskSentence({ desk }: { readonly desk: Desk }) {
  const session = useSession();
  const say = useSay();
  return (
    <Sentence>
      <PhraseView
        of="masks.sentence"
        places={{
          masks: (
            <ChoicePlace
              label={say.t('masks.label')}
              value={desk.job.output.masks}
              choices={MASKS.map((value) => ({ value, words: say.t(`masks.${value}`) }))}
              onChange={(masks) =>
                session.actOnJob(say.t('step.masks'), (job) => ({ ...job, output: { ...job.output, masks } }))
              }
            />
          ),
        }}
      />
    </Sentence>
  );
}

/** What cost, price and time are reckoned from. */
export function CostSentences({ desk }: { readonly desk: Desk }) {
  const session = useSession();
  const say = useSay();
  const { costs } = desk.job;
  const set = (name: string, change: Partial<typeof costs>): void =>
    session.actOnJob(name, (job) => ({ ...job, costs: { ...job.costs, ...change } }));
  const money = { least: 0, most: 1e6, decimals: 2 } as const;
  const minutes = { least: 0, most: 1e5, suffix: say.t('unit.minutes') } as const;
  const speed = { least: 0.1, most: 5000, decimals: 1, suffix: say.t('unit.mm-per-second') } as const;
  return (
    <>
      <Sentence>
        <PhraseView
          of="cost.hours"
          places={{
            machine: (
              <NumberPlace
                label={say.t('cost.machine-label')}
                value={costs.machineHour}
                {...money}
                onChange={(machineHour) => set(say.t('step.machine-hour'), { machineHour })}
              />
            ),
            hand: (
              <NumberPlace
                label={say.t('cost.hand-label')}
                value={costs.labourHour}
                {...money}
                onChange={(labourHour) => set(say.t('step.hand-hour'), { labourHour })}
              />
            ),
            currency: (
              <WordsPlace
                label={say.t('cost.currency-label')}
                value={costs.currency}
                onChange={(currency) => {
                  if (currency !== '' && currency.length <= 8) set(say.t('step.currency'), { currency });
                }}
              />
            ),
          }}
        />
      </Sentence>
      <Sentence>
        <PhraseView
          of="cost.minutes"
          places={{
            sign: (
              <NumberPlace
                label={say.t('cost.sign-label')}
                value={costs.handMinutesPerSign}
                {...minutes}
                onChange={(handMinutesPerSign) => set(say.t('step.hand-minutes'), { handMinutesPerSign })}
              />
            ),
            sheet: (
              <NumberPlace
                label={say.t('cost.sheet-label')}
                value={costs.handMinutesPerSheet}
                {...minutes}
                onChange={(handMinutesPerSheet) => set(say.t('step.sheet-minutes'), { handMinutesPerSheet })}
              />
            ),
          }}
        />
      </Sentence>
      <Sentence>
        <PhraseView
          of="cost.extras"
          places={{
            extras: (
              <NumberPlace
                label={say.t('cost.extras-label')}
                value={costs.extrasPerSign}
                {...money}
                onChange={(extrasPerSign) => set(say.t('step.extras'), { extrasPerSign })}
              />
            ),
            overhead: (
              <NumberPlace
                label={say.t('cost.overhead-label')}
                value={costs.overheadPerSign}
                {...money}
                onChange={(overheadPerSign) => set(say.t('step.overhead'), { overheadPerSign })}
              />
            ),
            profit: (
              <NumberPlace
                label={say.t('cost.profit-label')}
                value={costs.markUp * 100}
                least={0}
                most={10000}
                suffix={say.t('unit.percent')}
                onChange={(percent) => set(say.t('step.profit'), { markUp: percent / 100 })}
              />
            ),
          }}
        />
      </Sentence>
      <Sentence>
        <PhraseView
          of="cost.speeds"
          places={{
            cut: (
              <NumberPlace
                label={say.t('cost.cut-label')}
                value={costs.speeds.cut}
                {...speed}
                onChange={(cut) => set(say.t('step.cut-speed'), { speeds: { ...costs.speeds, cut } })}
              />
            ),
            score: (
              <NumberPlace
                label={say.t('cost.score-label')}
                value={costs.speeds.score}
                {...speed}
                onChange={(score) => set(say.t('step.score-speed'), { speeds: { ...costs.speeds, score } })}
              />
            ),
          }}
        />
      </Sentence>
    </>
  );
}
