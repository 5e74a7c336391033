import { DEFAULT_SHEET_STYLE } from '@underlap/artwork/process-style';
import { couponFiles } from '@underlap/job/coupon-files';
import type { Job } from '@underlap/job/document';
import { couponShapes, DEFAULT_CLEARANCES } from '@underlap/seam/coupon';
import { zipSync } from 'fflate';
import type { FileContent } from '../workers/api.ts';

/** The coupon for the stock of a job in one archive: sheets in the job's formats, and how to read it. */
export async function couponContent(job: Job): Promise<FileContent> {
  const options = { thickness: job.thickness, kerf: job.kerf, clearances: DEFAULT_CLEARANCES };
  const files = await couponFiles(couponShapes(options), options, job.output.formats, DEFAULT_SHEET_STYLE);
  const entries = Object.fromEntries(
    [...files].map(([name, content]) => [
      name,
      typeof content === 'string' ? new TextEncoder().encode(content) : new Uint8Array(content),
    ]),
  );
  return { name: 'coupon.zip', mime: 'application/zip', bytes: zipSync(entries, { level: 6 }) };
}
