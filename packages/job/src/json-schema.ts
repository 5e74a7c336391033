import { z } from 'zod';
import { jobSchema } from './document.ts';
import { reportSchema } from './report-schema.ts';

/** JSON Schema (draft 2020-12) of a job as a person may write it: defaults may be left out, lengths may carry units. @public */
export function jobJsonSchema(): object {
  return z.toJSONSchema(jobSchema, {
    io: 'input',
    override: ({ zodSchema, jsonSchema }) => {
      // Not a field of the job: it tells an editor where this schema lies.
      if (zodSchema === jobSchema) jsonSchema.properties = { $schema: { type: 'string' }, ...jsonSchema.properties };
    },
  });
}

/** JSON Schema (draft 2020-12) of report.json. @public */
export function reportJsonSchema(): object {
  return z.toJSONSchema(reportSchema);
}
