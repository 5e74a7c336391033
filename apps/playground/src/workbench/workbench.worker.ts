import type { Job } from '@underlap/job/document';
import { jobFrom, parseJob } from '@underlap/job/parse-job';
import { expose, transfer } from 'comlink';
import type { WorkbenchApi } from '../workers/api.ts';
import { carryFaults } from '../workers/fault.ts';
import { searchPool } from './search-pool.ts';
import { openShelf } from './shelf-run.ts';
import { Workbench } from './workbench.ts';

carryFaults();

const bench = new Workbench(searchPool(navigator.hardwareConcurrency || 2));

/** What a new drawing takes over from the job before: the shop's conditions, not what belonged to the old drawing. */
function newJob(text: string, name: string, like: Job | null): Job {
  const artwork = { text, name };
  if (like === null) return jobFrom({ artwork, bed: '520x320', boards: ['508x305'], batch: 1 }, name);
  const { seams, turns } = like;
  return jobFrom(
    {
      ...like,
      name: name.replace(/\.(svg|dxf)$/i, ''),
      artwork: { ...artwork, colourKey: like.artwork.colourKey },
      seams: { ...seams, parts: {}, pins: [], forbidden: [], plan: null },
      turns: { ...turns, parts: {}, mirror: [], keepGrain: [] },
      together: Array.isArray(like.together) ? 'free' : like.together,
      pinned: [],
      designs: [],
      done: [],
      stockOf: { ...like.stockOf, parts: {} },
    },
    name,
  );
}

/** A job file with its artwork inside; a sample brings the two apart. */
function readJob(text: string, artworkText: string | null): Job {
  const job = parseJob(text, 'the job file');
  if (artworkText !== null) return { ...job, artwork: { ...job.artwork, text: artworkText } };
  return job;
}

const api: WorkbenchApi = {
  ping: async () => true,
  newJob: async (text, name, like) => newJob(text, name, like),
  readJob: async (text, artworkText) => readJob(text, artworkText),
  plan: (job, known, found, tell, looksAt) => bench.plan(job, known, found, tell, looksAt),
  stopSearch: async () => bench.stopSearch(),
  forgetLayout: async (job) => bench.forgetLayout(job),
  cancel: async () => bench.cancel(),
  layOut: (job) => bench.layOut(job),
  stopTrying: async () => bench.stopTrying(),
  batches: (job, sizes, tell) => bench.batches(job, sizes, tell),
  previewSeam: async (partId, seamId, to) =>
    bench.job === null ? null : bench.hands.seam(bench.job, partId, seamId, to),
  settleSeam: async (partId, seamId, to, pins) =>
    bench.job === null ? null : bench.hands.settle(bench.job, partId, { seamId, to, pins }),
  touch: (question) => bench.touch(question),
  file: async (name) => handOver(await bench.file(name)),
  coupon: async () => handOver(await bench.coupon()),
  packs: async (job, beds, tell) => handOver(await bench.packs(job, beds, tell)),
  openShelf: async (text, name) => openShelf(text, name),
  shelfHelp: (job, shelf) => bench.shelfHelp(job, shelf),
  bookShelf: (shelf, name) => bench.bookShelf(shelf, name),
  archive: async () => handOver(await bench.archive()),
};

/** A copy whose bytes move to the page without being copied again. */
function handOver<T extends { readonly bytes: Uint8Array<ArrayBuffer> }>(content: T): T {
  const bytes = content.bytes.slice();
  return transfer({ ...content, bytes }, [bytes.buffer]);
}

expose(api);
