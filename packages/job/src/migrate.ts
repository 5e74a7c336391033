import { JobError } from './error.ts';
import { parseSize } from './units.ts';

/** A job as it stands in a file, before its fields are checked. */
export type RawJob = Readonly<Record<string, unknown>>;

/** Oldest version of the job document. One without a version, as people write them, takes every step from here. */
const OLDEST = 1;

type Step = (job: RawJob) => RawJob;

/**
 * Steps from one version of the job document to the next, by the version they start from. A step changes only what it knows to
 * have moved, leaves alone what has its new form already, and leaves faults to the schema, which names them.
 */
const STEPS: ReadonlyMap<number, Step> = new Map([
  // Version 2 adds lists of designs, stocks and finished sheets; a job of version 1 is one of version 2 that has none of them.
  [1, (job: RawJob) => job],
]);

/**
 * Raise a job to the newest version and to the long form of what may be said in short, so that options can be laid over it
 * field by field.
 * @param newest - the version that the schema knows.
 * @returns a new object; the given one is left as it is. Raising twice changes nothing more.
 * @throws JobError `job-invalid` for a version that is newer, or none at all.
 */
export function raise(job: RawJob, newest: number, name: string, steps = STEPS): RawJob {
  // Editors offer fields by it; it says nothing about the sign.
  const { $schema: _, ...plain } = job;
  const version = plain.version === undefined ? OLDEST : plain.version;
  if (typeof version !== 'number' || !Number.isInteger(version) || version < OLDEST) {
    throw new JobError(
      'job-invalid',
      `${name}: version is ${JSON.stringify(version)}, but must be a whole number from ${OLDEST} to ${newest}: leave it out or write ${newest}.`,
      { file: name, field: 'version' },
    );
  }
  if (version > newest) {
    throw new JobError(
      'job-invalid',
      `${name} was saved by a newer version (job version ${version}, this one knows ${newest}): update Underlap.`,
      { file: name, field: 'version' },
    );
  }
  let raised: RawJob = plain;
  for (let from = version; from < newest; from++) {
    const step = steps.get(from);
    if (step !== undefined) raised = { ...step(raised), version: from + 1 };
  }
  return inLongForm(withoutIdle(raised));
}

/** Fields that never had an effect and are gone: files that have them are read as before. */
function withoutIdle(job: RawJob): RawJob {
  const { artwork } = job;
  if (typeof artwork !== 'object' || artwork === null || !('format' in artwork)) return job;
  const { format: _, ...kept } = artwork as RawJob;
  return { ...job, artwork: kept };
}

/** "sign.svg" for the artwork and "520x320" for the bed stand for objects with one and two fields. */
function inLongForm(job: RawJob): RawJob {
  const { bed, designs } = job;
  const size = typeof bed === 'string' ? parseSize(bed) : null;
  return {
    ...withArtwork(job),
    ...(Array.isArray(designs) ? { designs: designs.map((design: unknown) => designInLongForm(design)) } : {}),
    ...(size === null ? {} : { bed: size }),
  };
}

function withArtwork(job: RawJob): RawJob {
  const { artwork } = job;
  return typeof artwork === 'string' && artwork !== '' ? { ...job, artwork: { file: artwork } } : job;
}

/** "door-round.svg" stands for a design that has only its artwork and is called by it; what has no id is called so too. */
function designInLongForm(design: unknown): unknown {
  const given = typeof design === 'string' ? { artwork: design } : design;
  if (typeof given !== 'object' || given === null || Array.isArray(given)) return design;
  const long = withArtwork(given as RawJob);
  const file = (long.artwork as { file?: unknown } | undefined)?.file;
  return long.id !== undefined || typeof file !== 'string' ? long : { id: stemOf(file), ...long };
}

function stemOf(file: string): string {
  return file.replace(/^.*[\\/]/, '').replace(/\.[^.]*$/, '');
}
