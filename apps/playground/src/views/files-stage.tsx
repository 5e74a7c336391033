import { useMemo, useState } from 'react';
import { boardsPicture, PLAIN_LOOK } from '../picture/boards-picture.ts';
import { stackPicture } from '../picture/pictures.ts';
import { Scene } from '../scene/scene.tsx';
import { NumberPlace, TickPlace, WordsPlace } from '../sentence/places.tsx';
import type { Desk } from '../state/desk.ts';
import { useSession, useValue } from '../state/page-context.ts';
import type { FileContent } from '../work/api.ts';
import type { FilesView, FileView } from '../work/views.ts';
import { FaultNote } from './fault-note.tsx';
import { saveBytes } from './save-bytes.ts';
import { More, NoScene, Sentence, StageFrame } from './stage-frame.tsx';
import { count, useSay } from './use-say.ts';

/** Exactly what will be written, with the check's verdict. */
export function FilesStage({ desk }: { readonly desk: Desk }) {
  const session = useSession();
  const results = useValue(session.planning.results);
  const { unit } = useValue(session.preferences);
  const say = useSay();
  const [shown, setShown] = useState<string | null>(null);
  const { view } = results.files;
  const boards = results.boards.view;
  const artwork = results.artwork.view;
  const stack = results.stack.view;
  const picture = useMemo(() => {
    const sheet = shown === null ? 0 : sheetIndexOf(shown);
    if (shown?.startsWith('sign-') === true && artwork !== null && stack !== null) {
      return stackPicture(
        artwork,
        stack,
        { peeled: 0, apart: shown.includes('exploded') ? 1 : 0, showsGuides: false },
        null,
      );
    }
    const one = boards?.sheets[sheet ?? 0];
    return boards === null || one === undefined
      ? null
      : boardsPicture({ ...boards, sheets: [one] }, { ...PLAIN_LOOK, showsMarks: true, say });
  }, [shown, boards, artwork, stack, say]);

  return (
    <StageFrame
      title="Files"
      scene={
        picture === null ? (
          <NoScene words="No files yet" />
        ) : (
          <Scene
            picture={picture}
            label={shown ?? 'The first sheet as it will be written'}
            unit={unit}
            selected={null}
            onSelect={() => undefined}
          />
        )
      }
    >
      <FaultNote state={results.files} />
      {view === null ? (
        <p className="hint">The files come once every piece lies on a board and the check has found no fault.</p>
      ) : (
        <Ready view={view} shown={shown} onShow={setShown} />
      )}
      <FormatSentence desk={desk} />
      <CostSentences desk={desk} view={view} />
    </StageFrame>
  );
}

function Ready({
  view,
  shown,
  onShow,
}: {
  readonly view: FilesView;
  readonly shown: string | null;
  onShow(name: string): void;
}) {
  const session = useSession();
  const say = useSay();
  const sheets = view.files.filter((file) => file.kind === 'sheet');
  const take = (content: () => Promise<FileContent>): void =>
    void session.attempt(async () => {
      const { name, mime, bytes } = await content();
      saveBytes(name, mime, bytes);
      session.notices.say(`${name} is saved. Never leave a running laser; see "Before you cut" below.`);
    });
  const group = (title: string, kind: FileView['kind']) => (
    <FileGroup
      key={kind}
      title={title}
      files={view.files.filter((file) => file.kind === kind)}
      shown={shown}
      onShow={onShow}
      onTake={(name) => take(() => session.client.ask((api) => api.file(name)))}
    />
  );
  return (
    <>
      {view.verdict.ok ? (
        <p className="good">
          <span aria-hidden="true">&#10003;</span> Checked: {count(sheets.length, 'sheet file')} read back and found as
          meant; least gap {say.length(view.verdict.smallestGapMm, 2)}.
        </p>
      ) : (
        <ul className="told">
          {view.verdict.violations.slice(0, 5).map((violation) => (
            <li key={violation.message} className="look">
              <strong>Look here: </strong>
              {violation.message}
            </li>
          ))}
        </ul>
      )}
      <div className="buttons">
        <button type="button" className="strong" onClick={() => take(() => session.client.ask((api) => api.archive()))}>
          Take everything in one archive
        </button>
      </div>
      {group('Sheets', 'sheet')}
      {group('Report and job', 'report')}
      {group('The finished sign', 'picture')}
      {view.messages.length === 0 ? null : (
        <More label={`${count(view.messages.length, 'thing')} to know`}>
          <ul className="told">
            {view.messages.map((message) => (
              <li key={message}>{message}</li>
            ))}
          </ul>
        </More>
      )}
    </>
  );
}

function FileGroup({
  title,
  files,
  shown,
  onShow,
  onTake,
}: {
  readonly title: string;
  readonly files: readonly FileView[];
  readonly shown: string | null;
  onShow(name: string): void;
  onTake(name: string): void;
}) {
  const say = useSay();
  if (files.length === 0) return null;
  return (
    <section className="files">
      <h3>{title}</h3>
      <ul>
        {files.map((file) => (
          <li key={file.name} className={file.name === shown ? 'is-shown' : ''}>
            {file.kind === 'report' ? (
              <span className="file-name">{file.name}</span>
            ) : (
              <button type="button" className="file-name quiet" onClick={() => onShow(file.name)} title="Show it">
                {file.name}
              </button>
            )}
            <small>{say.number(Math.max(file.bytes / 1024, 1))} kB</small>
            <button type="button" aria-label={`Save ${file.name}`} onClick={() => onTake(file.name)}>
              Save
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** Which sheet a sheet file holds, from 0; null when it is none. */
function sheetIndexOf(name: string): number | null {
  const match = /-sheet-(\d+)\./.exec(name);
  return match === null ? null : Number(match[1]) - 1;
}

function FormatSentence({ desk }: { readonly desk: Desk }) {
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

function CostSentences({ desk, view }: { readonly desk: Desk; readonly view: FilesView | null }) {
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
