import { DESIGNS_AND_SEARCH, designThreads } from '@underlap/job/design-threads';
import { Pipeline } from '@underlap/job/pipeline';
import { nest } from '@underlap/nest/nest';
import { NoFitCache } from '@underlap/nest/nfp/no-fit-cache';
import { nodePool } from '@underlap/nest/node-pool';
import { Command, CommanderError } from 'commander';
import { addCatalogue } from './commands/catalogue.ts';
import { addCompare } from './commands/compare.ts';
import { addCoupon } from './commands/coupon.ts';
import { addDone } from './commands/done.ts';
import { addEstimate } from './commands/estimate.ts';
import { addInspect } from './commands/inspect.ts';
import { addNew } from './commands/new.ts';
import { addPlan } from './commands/plan.ts';
import { addShelf } from './commands/shelf.ts';
import { addVariants } from './commands/variants.ts';
import { EXIT, type ExitCode, failureOf } from './exit.ts';
import { print, tell } from './print.ts';
import type { Session } from './session.ts';
import { removeUnfinished } from './write-files.ts';

/**
 * Run the command line.
 * @param args - without node and script.
 * @returns the exit code: 0 done, 1 unusable input, 2 wrong usage, 3 planned but something does not fit, 130 stopped.
 * @remarks One sentence on stderr for a failure; with --json also one object `{ error }` on stdout.
 */
export async function main(args: readonly string[]): Promise<ExitCode> {
  const stop = new AbortController();
  const onSignal = () => {
    if (stop.signal.aborted) {
      removeUnfinished();
      process.exit(EXIT.interrupted);
    }
    stop.abort();
  };
  process.on('SIGINT', onSignal);
  process.on('SIGTERM', onSignal);
  let exit: ExitCode = EXIT.done;
  const pool = nodePool(undefined, DESIGNS_AND_SEARCH);
  const noFits = new NoFitCache();
  const session: Session = {
    signal: stop.signal,
    pipeline: new Pipeline(
      (problem, effort, context) => nest(problem, effort, { ...context, pool, noFits }),
      designThreads(pool),
    ),
    leaveWith: (code) => {
      exit = code;
    },
  };
  try {
    await program(session).parseAsync([...args], { from: 'user' });
    return exit;
  } catch (error) {
    // Commander has said it already: help and version end with 0, everything else is wrong usage.
    if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.done : EXIT.wrongUsage;
    const failure = failureOf(error);
    tell(`underlap: ${failure.message}\n`);
    if (args.includes('--json')) {
      const { code, message, place } = failure;
      print(`${JSON.stringify({ error: { code, message, place } })}\n`);
    }
    return failure.exit;
  } finally {
    await pool.close();
    removeUnfinished();
    process.off('SIGINT', onSignal);
    process.off('SIGTERM', onSignal);
  }
}

function program(session: Session): Command {
  const root = new Command('underlap')
    .description(
      'From the artwork of a layered sign to cut files: hidden seams for what does not fit the bed, boards laid out, all proven.',
    )
    .version('0.1.0')
    .showHelpAfterError('(underlap --help tells more)')
    .exitOverride();
  addPlan(root, session);
  addDone(root);
  addNew(root);
  addInspect(root);
  addCatalogue(root, session);
  addVariants(root, session);
  addEstimate(root, session);
  addCompare(root, session);
  addShelf(root);
  addCoupon(root);
  for (const command of root.commands)
    command.exitOverride().showHelpAfterError(`(underlap ${command.name()} --help tells more)`);
  return root;
}
