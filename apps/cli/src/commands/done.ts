import { basename } from 'node:path';
import { doneSheets, withDone } from '@underlap/job/done-sheets';
import { reportSchema } from '@underlap/job/report-schema';
import type { Command } from 'commander';
import { FileError } from '../exit.ts';
import { loadJob, readText } from '../load-job.ts';
import { print } from '../print.ts';
import { writeOne } from '../write-files.ts';

/** `underlap done`: sheets that are cut are written into the job, so that later plans leave them alone. */
export function addDone(root: Command): void {
  root
    .command('done')
    .description('write into a job which sheets are cut: later plans leave them alone and cut nothing of them again')
    .argument('<job>', 'JOB.json, which is changed')
    .argument('<report>', 'report.json of the plan that was cut from')
    .argument('<sheets...>', 'file names of the sheets that are cut (without ending will do), or "all"')
    .action((file: string, reportFile: string, names: readonly string[]) => {
      const report = reportSchema.safeParse(jsonOf(reportFile));
      if (!report.success)
        throw new FileError(`${reportFile} is no report of this version: plan the job again.`, { file: reportFile });
      const { done } = loadJob(file, {});
      const sheets = doneSheets(report.data, names);
      const before = readText(file);
      const after = withDone(before, done, sheets);
      if (after !== before) writeOne(file, after);
      const pieces = sheets.reduce((sum, sheet) => sum + sheet.pieces.length, 0);
      const boards = sheets.length === 1 ? 'One board' : `${sheets.length} boards`;
      const [verb, already] = sheets.length === 1 ? ['counts', 'counted'] : ['count', 'counted'];
      print(
        after === before
          ? `${boards} ${already} as cut in ${basename(file)} already: nothing is changed.\n`
          : `${boards} with ${pieces} pieces ${verb} as cut in ${basename(file)} now. Add designs at the end of the list if you like and plan it again: what is cut stays as it is.\n`,
      );
    });
}

/** @throws FileError. */
function jsonOf(file: string): unknown {
  try {
    return JSON.parse(readText(file));
  } catch (error) {
    if (error instanceof FileError) throw error;
    throw new FileError(`${file} is not valid JSON: name the report.json of the plan.`, { file });
  }
}
