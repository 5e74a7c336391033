import { ArtworkError } from '@underlap/artwork/error';
import { readArtwork } from '@underlap/artwork/read-artwork';
import { JobError } from '@underlap/job/error';
import { inspectDrawing } from '@underlap/job/inspect';
import { jobFrom } from '@underlap/job/parse-job';
import { signOf } from '@underlap/job/sign-stage';
import { StackError } from '@underlap/stack/error';
import seedrandom from 'seedrandom';
import { everythingText, spoilt } from '../../packages/artwork/testing/dxf-mutations.ts';
import { spoiltSvg, svgSources } from './spoil-svg.ts';

const { artwork: ARTWORK } = jobFrom({ bed: '508x305', boards: ['508x305'], artwork: { file: 'drawing' } }, 'job');

/** How far a spoilt drawing came: refused by the reader, refused as a sign, or read into one. */
export type ChainOutcome = 'refused' | 'no sign' | 'sign';

/**
 * Take a drawing through reading, inspecting and finding its parts.
 * @throws whatever is not one of the documented errors, with a sentence that names the file.
 */
export function chainOutcome(text: string): ChainOutcome {
  let drawing: ReturnType<typeof readArtwork>;
  try {
    drawing = readArtwork(text, { name: 'spoilt' });
  } catch (error) {
    if (error instanceof ArtworkError && error.code !== 'internal' && error.message.includes('spoilt'))
      return 'refused';
    throw error;
  }
  let outcome: ChainOutcome = 'sign';
  for (const step of [() => inspectDrawing(drawing, ARTWORK), () => signOf(drawing, ARTWORK)]) {
    try {
      step();
    } catch (error) {
      const isTold = error instanceof StackError || error instanceof JobError;
      if (!isTold || !error.message.includes('spoilt')) throw error;
      outcome = 'no sign';
    }
  }
  return outcome;
}

/** What came of a run, and the seed and processor seconds of the slowest drawing. */
export interface ChainRun {
  readonly counts: Readonly<Record<ChainOutcome, number>>;
  readonly slowest: number;
  readonly slowestSeed: string;
}

/** So many spoilt drawings, every third of them a DXF. */
export function chainRun(prefix: string, count: number): ChainRun {
  const sources = svgSources();
  const dxf = everythingText();
  const counts: Record<ChainOutcome, number> = { refused: 0, 'no sign': 0, sign: 0 };
  let [slowest, slowestSeed] = [0, ''];
  for (let i = 0; i < count; i++) {
    const seed = `${prefix}-${i}`;
    const text = i % 3 === 0 ? spoilt(dxf, seedrandom(seed)) : spoiltSvg(seed, sources);
    const start = process.cpuUsage();
    try {
      counts[chainOutcome(text)]++;
    } catch (error) {
      throw new Error(`seed ${seed}: ${error instanceof Error ? error.stack : String(error)}`, { cause: error });
    }
    const { user, system } = process.cpuUsage(start);
    if ((user + system) / 1e6 > slowest) [slowest, slowestSeed] = [(user + system) / 1e6, seed];
  }
  return { counts, slowest, slowestSeed };
}
