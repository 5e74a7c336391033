import type { Job, JobDesign } from './document.ts';
import { type RuleField, rulesFor } from './shared-rules.ts';

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
  /** Rules that it takes from the job: they may name parts of other designs. */
  readonly shared: readonly RuleField[];
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
  return { id: '', prefix: '', order: '', count: job.batch, shared: [], job };
}

function listed(job: Job, own: JobDesign, at: number): Design {
  const { id, order, artwork } = own;
  const count = own.count * job.batch;
  const { shared, rules } = rulesFor(own, job);
  return {
    id,
    prefix: `${id}/`,
    order,
    count,
    shared,
    job: {
      ...job,
      name: id,
      artwork,
      batch: count,
      ...rules,
      landing: own.landing ?? job.landing,
      marks: { ...(own.marks ?? job.marks), before: `${own.mark ?? at + 1}-` },
      designs: [],
      pinned: [],
      done: [],
    },
  };
}
