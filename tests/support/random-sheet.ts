import type { SheetDrawing, SheetPath } from '@underlap/artwork/sheet-drawing';
import { strokeText } from '@underlap/artwork/stroke-font';
import { reversedContour } from '@underlap/geometry/contour';
import seedrandom from 'seedrandom';
import { type CurveKind, randomContour } from './random-contour.ts';

/** A made-up sheet: pieces in a grid, each with an outline, a hole, a score line and a number. */
export function randomSheet(seed: number, kinds?: readonly CurveKind[]): SheetDrawing {
  const random = seedrandom(`sheet-${seed}`);
  const cell = 20 + random() * 60;
  const columns = 4;
  const rows = 3;
  const paths: SheetPath[] = [];
  for (let i = 0; i < columns * rows; i++) {
    const pieceId = `gull-${i + 1}#1`;
    const centre = { x: ((i % columns) + 0.5) * cell, y: (Math.floor(i / columns) + 0.5) * cell };
    const outer = randomContour(random, centre, cell * 0.45, kinds);
    const hole = randomContour(random, centre, cell * 0.2, kinds);
    paths.push({ process: 'cut-outer', pieceId, contour: outer, role: 'part' });
    paths.push({ process: 'cut-inner', pieceId, contour: reversedContour(hole), role: 'part' });
    const start = { x: centre.x - cell * 0.3, y: centre.y };
    const guide = { start, segments: [{ kind: 'line' as const, to: { x: start.x, y: centre.y + 3 } }], closed: false };
    paths.push({ process: 'score', pieceId, contour: guide, role: 'guide' });
    for (const contour of strokeText(String(i + 1), { x: centre.x, y: centre.y - cell * 0.27 }, cell / 12)) {
      paths.push({ process: 'score', pieceId, contour, role: 'number' });
    }
  }
  return {
    title: `harbour, sheet 1`,
    job: 'harbour',
    sheetNumber: 1,
    sheetCount: 3,
    widthMm: columns * cell,
    heightMm: rows * cell,
    seed,
    kerfState: 'compensated',
    kerfMm: 0.2,
    toleranceMm: 0.01,
    fitMm: 0.05,
    paths,
  };
}
