import { dxfText, type Groups, lightPolyline, line } from '@underlap/artwork/dxf/dxf-text';
import { readDxf } from '@underlap/artwork/dxf/read-dxf';
import { contourLength } from '@underlap/geometry/contour';
import seedrandom from 'seedrandom';

/**
 * How long reading a DXF takes at 1x, 2x and 4x the input, and how much memory: `tsx --expose-gc tests/bench/artwork-dxf.ts`.
 * The growth exponent is log2 of the last time over the one before it: 1 is linear, 2 quadratic. The checksum (total length
 * read) tells whether two runs read the same.
 */
interface Subject {
  readonly name: string;
  /** A drawing with this many segments. */
  make(segments: number): string;
  readonly segments: readonly number[];
}

/** Squares of four loose lines in shuffled order: what has to be joined is far apart in the file. */
function looseSquares(segments: number): string {
  const random = seedrandom('squares');
  const lines: Groups[] = [];
  const side = Math.ceil(Math.sqrt(segments / 4));
  for (let i = 0; i < segments / 4; i++) {
    const [x, y] = [(i % side) * 3, Math.floor(i / side) * 3];
    lines.push(line(x, y, x + 2, y, 'cut'), line(x + 2, y, x + 2, y + 2, 'cut'));
    lines.push(line(x + 2, y + 2, x, y + 2, 'cut'), line(x, y + 2, x, y, 'cut'));
  }
  for (let i = lines.length - 1; i > 0; i--) {
    const j = Math.floor(random() * (i + 1));
    [lines[i], lines[j]] = [lines[j]!, lines[i]!];
  }
  return dxfText({ header: { $INSUNITS: 4 }, entities: lines.flat() });
}

/** Polylines of a hundred bulges each. */
function manyPolylines(segments: number): string {
  const random = seedrandom('polylines');
  const groups: Groups[] = [];
  for (let i = 0; i < segments / 100; i++) {
    const [x, y] = [(i % 40) * 15, Math.floor(i / 40) * 15];
    const points = Array.from({ length: 100 }, (_, k) => {
      const turn = (k * Math.PI) / 50;
      const reach = 5 + random();
      const place = [x + reach * Math.cos(turn), y + reach * Math.sin(turn)].map((value) => Number(value.toFixed(6)));
      return [...place, Number((0.1 * random()).toFixed(6))];
    });
    groups.push(lightPolyline(points, true, 'cut'));
  }
  return dxfText({ header: { $INSUNITS: 4 }, entities: groups.flat() });
}

/** One block of a hundred lines, inserted over and over. */
function manyInserts(segments: number): string {
  const teeth = Array.from({ length: 100 }, (_, k) => line(k, k % 2, k + 1, (k + 1) % 2));
  const inserts = Array.from(
    { length: segments / 100 },
    (_, i): Groups => [0, 'INSERT', 2, 'comb', 10, (i % 20) * 120, 20, i],
  );
  return dxfText({
    header: { $INSUNITS: 4 },
    blocks: [{ name: 'comb', entities: teeth.flat() }],
    entities: inserts.flat(),
  });
}

const SUBJECTS: readonly Subject[] = [
  { name: 'loose squares', make: looseSquares, segments: [40_000, 80_000, 160_000] },
  { name: 'polylines', make: manyPolylines, segments: [80_000, 160_000, 320_000] },
  { name: 'inserts', make: manyInserts, segments: [40_000, 80_000, 160_000] },
];

const collect = (globalThis as { gc?: () => void }).gc;
if (collect === undefined) console.log('(run with --expose-gc for true memory figures)');

console.log('drawing         segments     MB  seconds  exponent  memory/file   shapes  checksum');
for (const { name, make, segments } of SUBJECTS) {
  readDxf(make(2000), { name: 'warm-up' });
  let before: number | null = null;
  for (const count of segments) {
    // Through bytes, so that the text is one flat string from the start.
    const text = Buffer.from(make(count)).toString();
    collect?.();
    const heap = process.memoryUsage().heapUsed;
    const start = process.cpuUsage();
    const drawing = readDxf(text, { name });
    const { user, system } = process.cpuUsage(start);
    const seconds = (user + system) / 1e6;
    collect?.();
    const held = process.memoryUsage().heapUsed - heap;
    const checksum = drawing.shapes.reduce(
      (sum, shape) => sum + shape.contours.reduce((length, contour) => length + contourLength(contour), 0),
      0,
    );
    const row = [
      name.padEnd(14),
      String(count).padStart(9),
      (text.length / 1e6).toFixed(1).padStart(6),
      seconds.toFixed(2).padStart(8),
      (before === null ? '' : Math.log2(seconds / before).toFixed(2)).padStart(9),
      (held / text.length).toFixed(1).padStart(12),
      String(drawing.shapes.length).padStart(8),
      checksum.toFixed(3).padStart(20),
    ];
    console.log(row.join(' '));
    before = seconds;
  }
}
