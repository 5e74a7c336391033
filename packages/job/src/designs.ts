import type { Job, JobDesign } from './document.ts';

/**
 * One design of a job with everything that is said of it: `job` is the job as if the design stood in it alone, so that every
 * stage up to the cut pieces is made from it.
 */
export interface Design {
  /** Empty in a job that holds one artwork and no list. */
  readonly id: string;
  /** What stands before the ids of its parts and pieces: "lighthouse/", or nothing. */
  readonly prefix: string;
  readonly order: string;
  /** Signs of it in the job. */
  readonly count: number;
  readonly job: Job;
}

/** Jobs are never changed in place: equal designs are the same object each time, and so are their keys. */
const known = new WeakMap<Job, readonly Design[]>();

/** The designs of a job in their order; one without name for a job that holds a single artwork. */
export function designsOf(job: Job): readonly Design[] {
  const before = known.get(job);
  if (before !== undefined) return before;
  const designs = job.designs.length === 0 ? [loneDesign(job)] : job.designs.map((own, at) => listed(job, own, at));
  known.set(job, designs);
  return designs;
}

function loneDesign(job: Job): Design {
  return { id: '', prefix: '', order: '', count: job.batch, job };
}

function listed(job: Job, own: JobDesign, at: number): Design {
  const { id, order, artwork } = own;
  const count = own.count * job.batch;
  return {
    id,
    prefix: `${id}/`,
    order,
    count,
    job: {
      ...job,
      name: id,
      artwork,
      batch: count,
      turns: own.turns ?? job.turns,
      together: own.together ?? job.together,
      landing: own.landing ?? job.landing,
      seams: own.seams ?? job.seams,
      marks: { ...(own.marks ?? job.marks), before: `${own.mark ?? at + 1}-` },
      stockOf: own.stockOf ?? job.stockOf,
      designs: [],
      pinned: [],
      done: [],
    },
  };
}
