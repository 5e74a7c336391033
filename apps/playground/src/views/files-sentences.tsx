import { NumberPlace, TickPlace, WordsPlace } from '../sentence/places.tsx';
import type { Desk } from '../state/desk.ts';
import { useSession } from '../state/page-context.ts';
import type { FilesView } from '../workers/views.ts';
import { More, Sentence } from './stage-frame.tsx';
import { useSay } from './use-say.ts';

/** Which kinds of sheet files are written. */
export function FormatSentence({ desk }: { readonly desk: Desk }) {
  const session = useSession();
  const { output } = desk.job;
  const toggle = (format: 'svg' | 'dxf' | 'pdf', isOn: boolean): void => {
    const formats = isOn ? [...output.formats, format] : output.formats.filter((other) => other !== format);
    if (formats.length === 0) {
      session.notices.say('At least one kind of sheet file has to be written.', 'look');
      return;
    }
    session.actOnJob(`${isOn ? '' : 'no '}${format.toUpperCase()} sheets`, (job) => ({
      ...job,
      output: { ...job.output, formats },
    }));
  };
  return (
    <Sentence>
      Sheets are written as{' '}
      {(['svg', 'dxf', 'pdf'] as const).map((format) => (
        <TickPlace
          key={format}
          words={format.toUpperCase()}
          value={output.formats.includes(format)}
          onChange={(isOn) => toggle(format, isOn)}
        />
      ))}
    </Sentence>
  );
}

/** What a sign costs and sells at, and what that is reckoned from. */
export function CostSentences({ desk, view }: { readonly desk: Desk; readonly view: FilesView | null }) {
  const session = useSession();
  const say = useSay();
  const { costs } = desk.job;
  const set = (name: string, change: Partial<typeof costs>): void =>
    session.actOnJob(name, (job) => ({ ...job, costs: { ...job.costs, ...change } }));
  return (
    <>
      {view === null ? null : (
        <Sentence>
          One sign costs{' '}
          <strong>
            {say.number(view.costPerSign, 2)} {view.currency}
          </strong>{' '}
          and sells at{' '}
          <strong>
            {say.number(view.pricePerSign, 2)} {view.currency}
          </strong>
          ; the batch keeps the machine for about <strong>{say.number(view.machineSeconds / 60)} minutes</strong>.
        </Sentence>
      )}
      <More label="What this is reckoned from">
        <Sentence>
          A machine hour costs{' '}
          <NumberPlace
            label="Cost of a machine hour"
            value={costs.machineHour}
            least={0}
            most={1e5}
            decimals={2}
            onChange={(machineHour) => set('machine hour', { machineHour })}
          />
          , an hour of hand work{' '}
          <NumberPlace
            label="Cost of an hour of hand work"
            value={costs.labourHour}
            least={0}
            most={1e5}
            decimals={2}
            onChange={(labourHour) => set('hand hour', { labourHour })}
          />{' '}
          <WordsPlace
            label="Currency"
            value={costs.currency}
            onChange={(currency) =>
              currency === '' || currency.length > 8 ? undefined : set('currency', { currency })
            }
          />
          .
        </Sentence>
        <Sentence>
          Painting and gluing one sign takes{' '}
          <NumberPlace
            label="Minutes of hand work for one sign"
            value={costs.handMinutesPerSign}
            least={0}
            most={1e5}
            onChange={(handMinutesPerSign) => set('hand minutes', { handMinutesPerSign })}
            suffix="minutes"
          />
          , loading a sheet{' '}
          <NumberPlace
            label="Minutes of hand work for one sheet"
            value={costs.handMinutesPerSheet}
            least={0}
            most={1e4}
            onChange={(handMinutesPerSheet) => set('minutes for a sheet', { handMinutesPerSheet })}
            suffix="minutes"
          />
          .
        </Sentence>
        <Sentence>
          Paint, glue and packing cost{' '}
          <NumberPlace
            label="Paint, glue and packing for one sign"
            value={costs.extrasPerSign}
            least={0}
            most={1e6}
            decimals={2}
            onChange={(extrasPerSign) => set('paint, glue and packing', { extrasPerSign })}
          />{' '}
          a sign, rent and power{' '}
          <NumberPlace
            label="Rent and power for one sign"
            value={costs.overheadPerSign}
            least={0}
            most={1e6}
            decimals={2}
            onChange={(overheadPerSign) => set('rent and power', { overheadPerSign })}
          />
          ; profit is{' '}
          <NumberPlace
            label="Profit in percent"
            value={costs.markUp * 100}
            least={0}
            most={10000}
            onChange={(percent) => set('profit', { markUp: percent / 100 })}
            suffix="%"
          />
          .
        </Sentence>
        <Sentence>
          The beam cuts{' '}
          <NumberPlace
            label="Cutting speed in mm per second"
            value={costs.speeds.cut}
            least={0.1}
            most={5000}
            decimals={1}
            onChange={(cut) => set('cutting speed', { speeds: { ...costs.speeds, cut } })}
            suffix="mm/s"
          />{' '}
          and scores{' '}
          <NumberPlace
            label="Scoring speed in mm per second"
            value={costs.speeds.score}
            least={0.1}
            most={5000}
            decimals={1}
            onChange={(score) => set('scoring speed', { speeds: { ...costs.speeds, score } })}
            suffix="mm/s"
          />
          . This serves the estimate of time only.
        </Sentence>
      </More>
    </>
  );
}
