import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { readSvg } from '@underlap/artwork/svg/read-svg';
import { contourLength } from '@underlap/geometry/contour';
import seedrandom from 'seedrandom';

/**
 * How long reading a drawing takes at 1x, 2x and 4x the input, and how much memory: `tsx --expose-gc tests/bench/artwork.ts`.
 * Seconds are CPU time, garbage collection included. `held` is what the drawing keeps; `in 10x` tells whether a run with a
 * heap of ten times the file (and 30 MB for the program) gets through. The growth exponent is log2 of the last time over the one before it: 1 is linear, 2 quadratic. The checksum (total length
 * read) tells whether two runs read the same.
 */
interface Subject {
  readonly name: string;
  /** A drawing with this many segments. */
  make(segments: number): string;
  readonly segments: readonly number[];
}

const number = (value: number): string => value.toFixed(6);

function page(body: string): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" width="600mm" height="400mm" viewBox="0 0 600 400">${body}</svg>`;
}

/** Wavy closed outlines of 50 cubic curves each, one element per outline, with style, id and padding as exports have it. */
function manyOutlines(segments: number): string {
  const random = seedrandom('outlines');
  const parts: string[] = [];
  for (let i = 0; i < segments / 50; i++) {
    const x = random() * 550;
    const y = random() * 350;
    let data = `M${number(x)},${number(y)}`;
    for (let k = 0; k < 49; k++) {
      const curve = Array.from({ length: 6 }, () => number((random() - 0.5) * 8));
      data += ` c ${curve[0]},${curve[1]} ${curve[2]},${curve[3]} ${curve[4]},${curve[5]}`;
    }
    const style = `style="fill:#${(i * 7919).toString(16).padStart(6, '0').slice(-6)};stroke:none;fill-rule:evenodd"`;
    parts.push(
      `<g id="layer-${i}" transform="translate(0.5,0.25) rotate(${i % 360} 300 200)"><path ${style} id="wave-${i}" d="${data} z"/></g>`,
    );
  }
  return page(`<style>.a{fill:red} g path{stroke-width:0.2}</style>${parts.join('\n')}`);
}

/** One path of short lines: the densest text there is. */
function onePath(segments: number): string {
  const random = seedrandom('path');
  const steps = Array.from(
    { length: segments },
    () => `l${((random() - 0.5) * 4).toFixed(3)} ${((random() - 0.5) * 4).toFixed(3)}`,
  );
  return page(`<path d="M300 200${steps.join('')}"/>`);
}

/** Loose lines, doubles among them, that have to be chained and compared. */
function looseLines(segments: number): string {
  const lines: string[] = [];
  for (let i = 0; i < segments / 4; i++) {
    const x = (i % 200) * 3;
    const y = Math.floor(i / 200) * 3;
    const corners = [x, y, x + 2, y, x + 2, y + 2, x, y + 2, x, y];
    for (let k = 0; k < 8; k += 2) {
      lines.push(
        `<line x1="${corners[k]}" y1="${corners[k + 1]}" x2="${corners[k + 2]}" y2="${corners[k + 3]}" stroke="#b5179e"/>`,
      );
    }
  }
  return page(lines.join(''));
}

const SUBJECTS: readonly Subject[] = [
  { name: 'outlines', make: manyOutlines, segments: [12_500, 25_000, 50_000, 100_000, 200_000] },
  { name: 'one path', make: onePath, segments: [200_000, 400_000, 800_000] },
  { name: 'loose lines', make: looseLines, segments: [12_500, 25_000, 50_000] },
];

/** A run of its own whose heap may hold ten times the file, 30 MB for the program itself besides. */
function runsWithinTenfold(name: string, segments: number, megabytes: number): boolean {
  const limit = Math.ceil(10 * megabytes + 30);
  const child = [
    `--max-old-space-size=${limit}`,
    '--import',
    'tsx',
    fileURLToPath(import.meta.url),
    name,
    String(segments),
  ];
  return spawnSync(process.execPath, child, { stdio: 'ignore' }).status === 0;
}

const [onlyName, onlySegments] = process.argv.slice(2);
const alone = SUBJECTS.find(({ name }) => name === onlyName);
if (alone !== undefined) {
  readSvg(alone.make(Number(onlySegments)), { name: alone.name });
  process.exit(0);
}

const collect = (globalThis as { gc?: () => void }).gc;
if (collect === undefined) console.log('(run with --expose-gc for true memory figures)');

console.log('drawing        segments     MB  seconds  exponent  held/file  in 10x  checksum');
for (const { name, make, segments } of SUBJECTS) {
  readSvg(make(2000), { name: 'warm-up' });
  let before: number | null = null;
  for (const count of segments) {
    const text = make(count);
    collect?.();
    const heap = process.memoryUsage().heapUsed;
    const start = process.cpuUsage();
    const drawing = readSvg(text, { name });
    const { user, system } = process.cpuUsage(start);
    const seconds = (user + system) / 1e6;
    collect?.();
    const held = process.memoryUsage().heapUsed - heap;
    const checksum = drawing.shapes.reduce(
      (sum, shape) => sum + shape.contours.reduce((length, contour) => length + contourLength(contour), 0),
      0,
    );
    const exponent = before === null ? '' : Math.log2(seconds / before).toFixed(2);
    const row = [
      name.padEnd(12),
      String(count).padStart(10),
      (text.length / 1e6).toFixed(1).padStart(6),
      seconds.toFixed(2).padStart(8),
      exponent.padStart(9),
      (held / text.length).toFixed(1).padStart(10),
      (runsWithinTenfold(name, count, text.length / 1e6) ? 'yes' : 'no').padStart(7),
      checksum.toFixed(3).padStart(20),
    ];
    console.log(row.join(' '));
    before = seconds;
  }
}
