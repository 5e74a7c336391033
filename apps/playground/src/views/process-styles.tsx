import { DEFAULT_SHEET_STYLE } from '@underlap/artwork/process-style';
import type { Job } from '@underlap/job/document';
import { PhraseView } from '../sentence/phrase-view.tsx';
import { WordsPlace } from '../sentence/places.tsx';
import type { Desk } from '../state/desk.ts';
import { useSession } from '../state/page-context.ts';
import { useSay } from '../state/use-say.ts';
import type { WordKey } from '../words/catalogue.ts';
import { More, Sentence } from './stage-frame.tsx';

type ProcessName = keyof Job['output']['layers'];

const PROCESSES = {
  engrave: 'process.engrave',
  score: 'process.score',
  'deep-score': 'process.deep-score',
  'cut-inner': 'process.cut-inner',
  'cut-outer': 'process.cut-outer',
  numbers: 'process.numbers',
} as const satisfies Readonly<Record<ProcessName, WordKey>>;

/** Colour and layer of each process in the sheet files, as the maker's machine wants them. */
export function ProcessStyles({ desk }: { readonly desk: Desk }) {
  const session = useSession();
  const say = useSay();
  const own = desk.job.output.layers;
  const setLayers = (layers: Job['output']['layers']): void =>
    session.actOnJob(say.t('step.process'), (job) => ({ ...job, output: { ...job.output, layers } }), 'process-style');
  return (
    <More label={say.t('process.title')}>
      <ul className="rows">
        {(Object.keys(PROCESSES) as ProcessName[]).map((name) => {
          const process = say.t(PROCESSES[name]);
          const usual = name === 'numbers' ? DEFAULT_SHEET_STYLE.numbers : DEFAULT_SHEET_STYLE.layers[name];
          const { colour = usual.colour, layer = usual.layer } = own[name] ?? {};
          const change = (style: { colour?: string; layer?: string }): void =>
            setLayers({ ...own, [name]: { ...own[name], ...style } });
          return (
            <li key={name}>
              <Sentence>
                <PhraseView
                  of="process.row"
                  places={{
                    process,
                    colour: (
                      <input
                        type="color"
                        className="colour-place"
                        aria-label={say.t('process.colour-label', { process })}
                        value={colour}
                        onChange={(event) => change({ colour: event.target.value })}
                      />
                    ),
                    layer: (
                      <WordsPlace
                        label={say.t('process.layer-label', { process })}
                        value={layer}
                        onChange={(words) => {
                          if (words !== '' && words.length <= 80) change({ layer: words });
                        }}
                      />
                    ),
                  }}
                />
              </Sentence>
            </li>
          );
        })}
      </ul>
      {Object.keys(own).length === 0 ? null : (
        <button type="button" className="quiet" onClick={() => setLayers({})}>
          {say.t('process.reset')}
        </button>
      )}
    </More>
  );
}
