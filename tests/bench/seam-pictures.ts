import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { readArtwork } from '@underlap/artwork/read-artwork';
import { flattenContour } from '@underlap/geometry/flatten';
import { contourToPathData } from '@underlap/geometry/path-data';
import { type Region, regionBounds } from '@underlap/geometry/region';
import type { Ring } from '@underlap/geometry/ring';
import { parseJob } from '@underlap/job/parse-job';
import { seamTaskOf } from '@underlap/job/split-stage';
import { planSeams } from '@underlap/seam/plan-seams';
import type { Seam, SeamTask, SplitPlan } from '@underlap/seam/task';
import { recogniseParts } from '@underlap/stack/recognise';
import { openBrowser } from '../support/page-browser.ts';

// One sheet of pictures: how the backer of every sample is split for three beds.
//
//   npx tsx tests/bench/seam-pictures.ts [FILE.webp]   (needs Chromium, which draws and packs it)

const root = fileURLToPath(new URL('../..', import.meta.url));
const file = process.argv[2] ?? `${root}packages/seam/pictures/samples-on-three-beds.webp`;

const SAMPLES = [
  ['harbour-sign', 'Harbour sign'],
  ['round-sign', 'Round sign'],
  ['wide-sign', 'Wide sign'],
] as const;
const BEDS = [
  [520, 320],
  [400, 400],
  [300, 200],
] as const;

/** A cell of the sheet and the picture in it, px. */
const CELL = { width: 400, height: 350 };
const PICTURE = { width: 368, height: 280 };
const HEAD = 34;
const LEGEND = 46;

/** Colours that stay apart for eyes that see fewer of them (Okabe and Ito 2008). */
const HIDDEN = '#0072b2';
const SHOWN = '#d55e00';
const PAPER = '#faf8f4';
const WOOD = ['#f0dfc0', '#e4cda3', '#f5e9d3', '#dcc190', '#ecd6ae', '#f8f0e0'];
const INK = '#2b2b2b';
const FONT = 'font-family="DejaVu Sans, Arial, sans-serif"';

const cells: string[] = [];
for (const [row, [name, title]] of SAMPLES.entries()) {
  for (const [column, [width, height]] of BEDS.entries()) {
    const task = { ...backerTask(name), limits: [{ name: 'bed' as const, width, height }] };
    const outcome = await planSeams(task, { seed: 1 });
    if (outcome.kind !== 'split') throw new Error(`${name} is not split for a bed of ${width} x ${height} mm`);
    const plan = outcome.plans[0]!;
    const length = plan.seams.reduce((sum, seam) => sum + seam.lengthMm, 0);
    const share =
      plan.visibleLengthMm < 0.05 ? 'all hidden' : `${Math.floor(100 * (1 - plan.visibleLengthMm / length))} % hidden`;
    const caption = `${title}: ${plan.pieces.length} pieces, ${share}`;
    console.log(
      `${name} on ${width} x ${height}: ${plan.pieces.length} pieces, ${plan.visibleLengthMm.toFixed(1)} of ${length.toFixed(0)} mm visible`,
    );
    cells.push(cell(column * CELL.width, HEAD + row * CELL.height, task, plan, caption));
  }
}

const total = { width: 3 * CELL.width, height: HEAD + 3 * CELL.height + LEGEND };
const heads = BEDS.map(
  ([width, height], column) =>
    `<text x="${(column + 0.5) * CELL.width}" y="24" text-anchor="middle" font-size="17" font-weight="bold" fill="${INK}">bed ${width} x ${height} mm</text>`,
);
const baseline = total.height - 18;
const sample = (x: number, colour: string, width: number, words: string) =>
  `<path d="M${x} ${baseline - 5}h46" stroke="${colour}" stroke-width="${width}" stroke-linecap="round"/>` +
  `<text x="${x + 56}" y="${baseline}" font-size="15" fill="${INK}">${words}</text>`;
const sheet =
  `<svg xmlns="http://www.w3.org/2000/svg" width="${total.width}" height="${total.height}" ${FONT}>` +
  `<rect width="100%" height="100%" fill="${PAPER}"/>${heads.join('')}${cells.join('')}` +
  sample(210, HIDDEN, 2.4, 'seam below another part') +
  sample(490, SHOWN, 3.4, 'seam that shows') +
  `<rect x="700" y="${baseline - 14}" width="46" height="18" fill="#5b7085" fill-opacity="0.28" stroke="#5b7085" stroke-opacity="0.6"/>` +
  `<text x="756" y="${baseline}" font-size="15" fill="${INK}">parts glued on top</text></svg>`;
const webp = await packed(sheet);
writeFileSync(file, webp);
console.log(`${file}: ${Math.round(webp.length / 1024)} kB`);

/** The drawing as WebP a little larger than life, drawn by the browser. */
async function packed(svg: string): Promise<Buffer> {
  const browser = await openBrowser();
  try {
    const page = await browser.newPage();
    const data = await page.evaluate(
      async ({ source, scale }) => {
        const image = new Image();
        image.src = `data:image/svg+xml,${encodeURIComponent(source)}`;
        await image.decode();
        const canvas = document.createElement('canvas');
        canvas.width = image.width * scale;
        canvas.height = image.height * scale;
        canvas.getContext('2d')!.drawImage(image, 0, 0, canvas.width, canvas.height);
        return canvas.toDataURL('image/webp', 0.72);
      },
      { source: svg, scale: 1.3 },
    );
    return Buffer.from(data.slice(data.indexOf(',') + 1), 'base64');
  } finally {
    await browser.close();
  }
}

/** The seam task of a sample's backer. */
function backerTask(name: string): SeamTask {
  const text = readFileSync(`${root}samples/${name}.svg`, 'utf8');
  const job = parseJob(readFileSync(`${root}samples/${name}.job.json`, 'utf8'), name);
  const sign = recogniseParts(readArtwork(text, { name }), { mode: 'auto' });
  return seamTaskOf(sign, sign.parts[0]!, job, []);
}

function cell(x: number, y: number, task: SeamTask, plan: SplitPlan, caption: string): string {
  const box = regionBounds(task.region);
  const scale = Math.min(PICTURE.width / (box.maxX - box.minX), PICTURE.height / (box.maxY - box.minY));
  const left = x + CELL.width / 2 - (scale * (box.minX + box.maxX)) / 2;
  const top = y + 14 + PICTURE.height / 2 - (scale * (box.minY + box.maxY)) / 2;
  const line = (px: number) => (px / scale).toFixed(2);
  const pieces = plan.pieces.map((piece, index) => {
    const data = [piece.shape.outer, ...piece.shape.holes].map((contour) => contourToPathData(contour, 1)).join('');
    return `<path d="${data}" fill="${WOOD[index % WOOD.length]}" fill-rule="evenodd" stroke="#8a6d3b" stroke-width="${line(0.8)}"/>`;
  });
  const cover = task.cover.map(
    (region) =>
      `<path d="${regionData(region)}" fill="#5b7085" fill-opacity="0.28" fill-rule="evenodd" stroke="#5b7085" stroke-opacity="0.6" stroke-width="${line(0.8)}"/>`,
  );
  const seams = plan.seams.flatMap((seam) => [
    `<path d="${contourToPathData(seam.path, 1)}" fill="none" stroke="${HIDDEN}" stroke-width="${line(2.4)}" stroke-linejoin="round"/>`,
    ...seam.visible.map(
      (stretch) =>
        `<path d="${stretchData(seam, stretch)}" fill="none" stroke="${SHOWN}" stroke-width="${line(3.4)}" stroke-linecap="round" stroke-linejoin="round"/>`,
    ),
  ]);
  return (
    `<g transform="translate(${left.toFixed(2)} ${top.toFixed(2)}) scale(${scale.toFixed(4)})">${pieces.join('')}${cover.join('')}${seams.join('')}</g>` +
    `<text x="${x + CELL.width / 2}" y="${y + PICTURE.height + 42}" text-anchor="middle" font-size="15" fill="${INK}">${caption}</text>`
  );
}

function regionData(region: Region): string {
  return [region.outer, ...region.holes].map((ring) => `${polylineData(ring)}Z`).join('');
}

function polylineData(ring: Ring): string {
  let data = '';
  for (let i = 0; i < ring.length; i += 2)
    data += `${i === 0 ? 'M' : 'L'}${ring[i]!.toFixed(1)} ${ring[i + 1]!.toFixed(1)}`;
  return data;
}

/** A stretch of a seam's path, told by lengths along it. */
function stretchData(seam: Seam, [from, to]: readonly [number, number]): string {
  const line = flattenContour(seam.path, 0.05);
  const points: number[] = [];
  let gone = 0;
  for (let i = 2; i < line.length; i += 2) {
    const [ax, ay, bx, by] = [line[i - 2]!, line[i - 1]!, line[i]!, line[i + 1]!];
    const size = Math.hypot(bx - ax, by - ay);
    const u0 = Math.max(0, (from - gone) / size);
    const u1 = Math.min(1, (to - gone) / size);
    if (u0 < u1) {
      if (points.length === 0) points.push(ax + u0 * (bx - ax), ay + u0 * (by - ay));
      points.push(ax + u1 * (bx - ax), ay + u1 * (by - ay));
    }
    gone += size;
  }
  return polylineData(Float64Array.from(points));
}
