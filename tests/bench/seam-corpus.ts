import { mkdirSync, writeFileSync } from 'node:fs';
import { Resvg } from '@resvg/resvg-js';
import { flattenContour } from '@underlap/geometry/flatten';
import { contourToPathData } from '@underlap/geometry/path-data';
import { type Region, regionBounds } from '@underlap/geometry/region';
import { planSeams } from '@underlap/seam/plan-seams';
import { provePlan } from '@underlap/seam/proof';
import type { Seam, SeamTask, SplitPlan } from '@underlap/seam/task';
import { BEDS, type BedName, corpusTask, DESIGNS, type DesignName } from '../support/seam-corpus.ts';

// Every design of the corpus on every bed: pieces, what shows and holds, processor time; with --pictures DIR one PNG each.
//
//   npx tsx tests/bench/seam-corpus.ts [--only TEXT] [--pictures DIR] [--all-plans]

const option = (name: string) => {
  const at = process.argv.indexOf(`--${name}`);
  return at < 0 ? null : (process.argv[at + 1] ?? null);
};
const only = option('only');
const pictures = option('pictures');
const isEveryPlan = process.argv.includes('--all-plans');
if (pictures !== null) mkdirSync(pictures, { recursive: true });

let total = 0;
let pieces = 0;
console.log('design      bed              pieces bound proven  showing  loose   total  knobs bare  cpu ms  faults');
for (const name of Object.keys(DESIGNS) as DesignName[]) {
  for (const bed of Object.keys(BEDS) as BedName[]) {
    if (only !== null && !`${name} ${bed}`.includes(only)) continue;
    const task = corpusTask(name, bed);
    const before = process.cpuUsage();
    const outcome = await planSeams(task, { seed: 1 });
    const { user, system } = process.cpuUsage(before);
    const ms = Math.round((user + system) / 1000);
    const head = `${name.padEnd(11)} ${bed.padEnd(16)}`;
    if (outcome.kind !== 'split') {
      console.log(
        `${head} ${outcome.kind} ${outcome.kind === 'cannot' ? `${outcome.why.code}: ${outcome.why.message}` : ''}`,
      );
      continue;
    }
    for (const [index, plan] of (isEveryPlan ? outcome.plans : outcome.plans.slice(0, 1)).entries()) {
      const length = plan.seams.reduce((sum, seam) => sum + seam.lengthMm, 0);
      const knobs = plan.seams.reduce((sum, seam) => sum + seam.knobs.length, 0);
      const bare = plan.seams.filter((seam) => seam.knobs.length === 0).length;
      const columns = [
        String(plan.pieces.length).padStart(6),
        String(outcome.piecesLowerBound).padStart(5),
        String(plan.provenFewest).padStart(6),
        plan.visibleLengthMm.toFixed(0).padStart(8),
        (length - plan.heldLengthMm).toFixed(0).padStart(6),
        length.toFixed(0).padStart(7),
        String(knobs).padStart(6),
        String(bare).padStart(4),
        String(index === 0 ? ms : 0).padStart(7),
        String(provePlan(task, plan, 'full').length).padStart(6),
      ];
      console.log(`${index === 0 ? head : ' '.repeat(head.length)} ${columns.join(' ')}  ${plan.merits.join(' ')}`);
      if (index === 0) {
        total += ms;
        pieces += plan.pieces.length;
      }
      if (pictures !== null) {
        const file = `${pictures}/${name}-${bed.replace(' ', '-')}-${index + 1}.png`;
        writeFileSync(
          file,
          picture(
            task,
            plan,
            `${name} on ${bed}: ${plan.pieces.length} pieces, ${plan.visibleLengthMm.toFixed(0)} mm show`,
          ),
        );
      }
    }
  }
}
console.log(`${pieces} pieces, ${total} ms of processor time`);

function picture(task: SeamTask, plan: SplitPlan, caption: string): Uint8Array {
  const box = regionBounds(task.region);
  const pad = 12;
  const width = box.maxX - box.minX + 2 * pad;
  const height = box.maxY - box.minY + 2 * pad + 24;
  const wood = ['#f0dfc0', '#d9bd8a', '#f5e9d3', '#cfae72', '#e6cfa6', '#f8f0e0', '#c9a566'];
  const parts = plan.pieces.map((piece, index) => {
    const data = [piece.shape.outer, ...piece.shape.holes].map((contour) => contourToPathData(contour, 2)).join('');
    return `<path d="${data}" fill="${wood[index % wood.length]}" fill-rule="evenodd" stroke="#8a6d3b" stroke-width="0.6"/>`;
  });
  const cover = task.cover.map(
    (region) =>
      `<path d="${regionData(region)}" fill="#5b7085" fill-opacity="0.3" fill-rule="evenodd" stroke="#5b7085" stroke-width="0.6"/>`,
  );
  const marks = (task.marks ?? []).map(
    (line) => `<path d="${lineData(line)}" fill="none" stroke="#777" stroke-dasharray="4 3" stroke-width="0.8"/>`,
  );
  const seams = plan.seams.flatMap((seam) => [
    `<path d="${contourToPathData(seam.path, 2)}" fill="none" stroke="#0072b2" stroke-width="1.6"/>`,
    ...seam.visible.map(
      (stretch) => `<path d="${stretchData(seam, stretch)}" fill="none" stroke="#d55e00" stroke-width="2.4"/>`,
    ),
  ]);
  const svg =
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="${box.minX - pad} ${box.minY - pad} ${width} ${height}" width="${width}" height="${height}">` +
    `<rect x="${box.minX - pad}" y="${box.minY - pad}" width="${width}" height="${height}" fill="#fff"/>` +
    `${parts.join('')}${cover.join('')}${marks.join('')}${seams.join('')}` +
    `<text x="${box.minX}" y="${box.maxY + 24}" font-size="16" font-family="DejaVu Sans">${caption}</text></svg>`;
  return new Resvg(svg, { font: { loadSystemFonts: true } }).render().asPng();
}

function regionData(region: Region): string {
  return [region.outer, ...region.holes].map((ring) => `${lineData(ring)}Z`).join('');
}

function lineData(line: Float64Array): string {
  let data = '';
  for (let i = 0; i < line.length; i += 2)
    data += `${i === 0 ? 'M' : 'L'}${line[i]!.toFixed(1)} ${line[i + 1]!.toFixed(1)}`;
  return data;
}

function stretchData(seam: Seam, [from, to]: readonly [number, number]): string {
  const line = flattenContour(seam.path, 0.05);
  const points: number[] = [];
  let gone = 0;
  for (let i = 2; i < line.length; i += 2) {
    const [ax, ay, bx, by] = [line[i - 2]!, line[i - 1]!, line[i]!, line[i + 1]!];
    const size = Math.hypot(bx - ax, by - ay);
    const u0 = Math.max(0, (from - gone) / size);
    const u1 = Math.min(1, (to - gone) / size);
    if (u0 < u1) points.push(ax + u0 * (bx - ax), ay + u0 * (by - ay), ax + u1 * (bx - ax), ay + u1 * (by - ay));
    gone += size;
  }
  return lineData(Float64Array.from(points));
}
