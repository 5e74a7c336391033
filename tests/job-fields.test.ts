import { jobJsonSchema } from '@underlap/job/json-schema';
import { jobFrom } from '@underlap/job/parse-job';
import { Pipeline } from '@underlap/job/pipeline';
import { planJob } from '@underlap/job/plan-job';
import { leafFields } from '@underlap/job/schema-fields';
import { describe, expect, it } from 'vitest';
import { BASES, PLATE_SHAPE } from './support/job-field-bases.ts';
import { CHANGES, type Change, ELSEWHERE, FOR_EDITORS } from './support/job-fields.ts';

/*
 * Every field of the job document does something: a change of it changes the sheets, the report or the page, or is refused with a
 * sentence. A field that does nothing would be a promise that nobody keeps.
 */

const pipeline = new Pipeline();
const outcomes = new Map<string, Promise<string>>();

let shapeKey: Promise<string> | undefined;

/** The key of the plate's outline, as JSON. */
function plateShape(): Promise<string> {
  shapeKey ??= planJob(jobFrom(BASES.day, 'fields'), { pipeline }).then(({ report }) => {
    const placed = report.sheets.flatMap(({ placements }) => placements);
    return JSON.stringify(placed.find(({ piece }) => piece === 'pier/plate')!.shape);
  });
  return shapeKey;
}

/** All that is written, or the sentence with which the job is refused. */
async function outcomeOf(document: object): Promise<string> {
  try {
    const job = JSON.parse(JSON.stringify(document).replaceAll(JSON.stringify(PLATE_SHAPE), await plateShape()));
    const { files } = await pipeline.write(jobFrom(job, 'fields'), { seconds: () => 0 });
    return [...files]
      .map(([name, content]) => `${name}\n${typeof content === 'string' ? content : content.length}`)
      .join('\n');
  } catch (error) {
    return `refused: ${error instanceof Error ? error.message : String(error)}`;
  }
}

function baseOutcome(name: keyof typeof BASES, common: object = {}): Promise<string> {
  const key = `${name} ${JSON.stringify(common)}`;
  const known = outcomes.get(key) ?? outcomeOf(merged(BASES[name], common) as object);
  outcomes.set(key, known);
  return known;
}

/** Objects are merged field by field; lists and values are replaced. */
function merged(base: unknown, patch: unknown): unknown {
  const isObject = (value: unknown): value is Record<string, unknown> =>
    typeof value === 'object' && value !== null && !Array.isArray(value);
  if (!isObject(base) || !isObject(patch)) return patch;
  return {
    ...base,
    ...Object.fromEntries(Object.entries(patch).map(([key, value]) => [key, merged(base[key], value)])),
  };
}

it('the table of changes names every field of the schema, and no other', () => {
  expect(Object.keys(CHANGES).sort()).toEqual(
    leafFields(jobJsonSchema())
      .filter((field) => ![...FOR_EDITORS, ...ELSEWHERE].includes(field))
      .sort(),
  );
});

it.each(Object.keys(BASES) as (keyof typeof BASES)[])('the job "%s" is planned, twice the same', async (name) => {
  const outcome = await baseOutcome(name);
  if (name !== 'lost') expect(outcome).not.toMatch(/^refused/);
  expect(await outcomeOf(structuredClone(BASES[name]))).toBe(outcome);
});

describe('changes what comes out, or is refused', () => {
  it.each(Object.entries(CHANGES) as [string, Change][])(
    '%s',
    async (_, [base, patch, common = {}]) => {
      const changed = merged(merged(BASES[base], common), patch);
      expect(await outcomeOf(changed as object)).not.toBe(await baseOutcome(base, common));
    },
    60_000,
  );
});

it('a field that says what is so already changes nothing (faulty twin)', async () => {
  expect(
    await outcomeOf(merged(BASES.small, { kerf: 0.2, spacing: '2', output: { rounds: 'nested-first' } }) as object),
  ).toBe(await baseOutcome('small'));
});

it.each(FOR_EDITORS)('%s is for editors and changes nothing', async (field) => {
  expect(await outcomeOf({ ...BASES.small, [field]: 'job.schema.json' })).toBe(await baseOutcome('small'));
});
