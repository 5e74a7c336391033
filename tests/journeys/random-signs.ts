import { jobFrom } from '@underlap/job/parse-job';
import { planJob } from '@underlap/job/plan-job';
import SnapIfNeededOverlayOp from 'jsts/org/locationtech/jts/operation/overlay/snap/SnapIfNeededOverlayOp.js';
import seedrandom from 'seedrandom';
import { randomSign } from '../support/random-sign.ts';
import { geometryOf, recheckSheet } from '../support/recheck-sheets.ts';

/** A re-check by libraries steps along curves, so its distances are a little off, mm. */
const STEP_ERROR_MM = 0.004;

/** What planning one random sign came to. */
export interface RandomPlan {
  readonly outcome: 'written' | 'does not fit' | 'refused';
  readonly words: string;
  readonly faults: readonly string[];
}

/**
 * Plan one random sign for a random bed and board and re-check everything that was written from outside.
 * @returns what came of it; `faults` is empty when every promise was kept.
 */
export async function planRandomSign(seed: number): Promise<RandomPlan> {
  const random = seedrandom(`bed-${seed}`);
  const between = (low: number, high: number) => Math.round(low + (high - low) * random());
  const bed = { width: between(260, 620), height: between(220, 420) };
  const board = { width: between(bed.width - 60, bed.width + 10), height: between(bed.height - 40, bed.height + 10) };
  const sign = randomSign(seed, between(240, 620), between(220, 460));
  const document = {
    artwork: { text: sign.svg, name: `random sign ${seed}` },
    bed,
    boards: [board],
    thickness: [3, 4, 6, 9][Math.floor(random() * 4)]!,
    kerf: Math.round(random() * 30) / 100,
    spacing: between(1, 4),
    margin: between(2, 6),
    batch: between(1, 3),
    effort: 'quick' as const,
    seed: 1,
  };
  const job = jobFrom(document, `random sign ${seed}`);
  try {
    const result = await planJob(job);
    const { report, files } = result;
    const faults: string[] = [];
    const sheets = [...files].filter(([name]) => name.endsWith('.svg'));
    if (report.notFitting.length > 0) {
      if (sheets.length > 0) faults.push('sheets were written although something does not fit');
      return { outcome: 'does not fit', words: report.notFitting.map((entry) => entry.message).join('; '), faults };
    }
    const placed = new Map<string, number>();
    for (const [name, text] of sheets) {
      const found = recheckSheet(text as string);
      if (found.leastGapMm < job.spacing - STEP_ERROR_MM) faults.push(`${name}: gap ${found.leastGapMm}`);
      if (found.leastMarginMm < job.margin - STEP_ERROR_MM) faults.push(`${name}: margin ${found.leastMarginMm}`);
      if (found.widthMm > bed.width && found.heightMm > bed.width) faults.push(`${name}: larger than the bed`);
      for (const piece of found.pieces) placed.set(piece.id, (placed.get(piece.id) ?? 0) + 1);
    }
    const expected = report.check.piecesExpected;
    if (placed.size !== expected) faults.push(`${placed.size} pieces cut, ${expected} expected`);
    for (const [id, times] of placed) if (times !== 1) faults.push(`${id} is cut ${times} times`);
    faults.push(...splitFaults(report));
    return { outcome: 'written', words: `${report.boards} boards`, faults };
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.message.length > 20) {
      return { outcome: 'refused', words: error.message, faults: [] };
    }
    return { outcome: 'refused', words: String(error), faults: [`an error without a sentence: ${String(error)}`] };
  }
}

type Report = Awaited<ReturnType<typeof planJob>>['report'];

/** Pieces of a split part tile it: same area, no overlap, nothing outside. */
export function splitFaults(report: Report): string[] {
  const faults: string[] = [];
  for (const split of report.splits) {
    const part = report.parts.find((candidate) => candidate.id === split.part)!;
    const pieces = report.pieces.filter((piece) => piece.part === split.part);
    if (pieces.length < 2) continue;
    const whole = geometryOf(part.outline, part.holes);
    const shapes = pieces.map((piece) => geometryOf(piece.outline, piece.holes));
    const sum = shapes.reduce((total, shape) => total + shape.getArea(), 0);
    if (Math.abs(sum / whole.getArea() - 1) > 2e-5)
      faults.push(`${part.id}: pieces have ${sum / whole.getArea()} of its area`);
    shapes.forEach((shape, i) => {
      if (!shape.isValid()) faults.push(`${pieces[i]!.id}: outline crosses itself`);
      for (const other of shapes.slice(0, i)) {
        const both = SnapIfNeededOverlayOp.intersection(shape, other).getArea();
        if (both > 0.5) faults.push(`${pieces[i]!.id} overlaps another piece by ${both} mm2`);
      }
    });
  }
  return faults;
}
