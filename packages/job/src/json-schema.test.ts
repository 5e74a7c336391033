import { readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { jobJsonSchema, reportJsonSchema } from './json-schema.ts';

const SCHEMAS = [
  ['job.schema.json', jobJsonSchema],
  ['report.schema.json', reportJsonSchema],
] as const;

describe('published schemas', () => {
  // UPDATE_SCHEMAS=1 npx vitest run ... writes them anew.
  it.each(SCHEMAS)('%s is what the code says', (name, schema) => {
    const file = new URL(`../schema/${name}`, import.meta.url);
    if (process.env.UPDATE_SCHEMAS === '1') writeFileSync(file, `${JSON.stringify(schema(), null, 2)}\n`);
    expect(JSON.parse(readFileSync(file, 'utf8'))).toEqual(schema());
  });
});
