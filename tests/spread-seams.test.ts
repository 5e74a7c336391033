import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { readArtwork } from '@underlap/artwork/read-artwork';
import { regionArea } from '@underlap/geometry/region';
import { parseJob } from '@underlap/job/parse-job';
import { signStage } from '@underlap/job/sign-stage';
import { splitStage } from '@underlap/job/split-stage';
import type { Sign } from '@underlap/stack/sign';
import { expect, it } from 'vitest';

const samples = fileURLToPath(new URL('../samples', import.meta.url));

/** A sample with what its job makes of it, short of laying it on boards. */
async function split(name: string): Promise<{ sign: Sign; seams: Map<string, string> }> {
  const job = parseJob(readFileSync(`${samples}/${name}.job.json`, 'utf8'), name);
  const sign = signStage(readArtwork(readFileSync(`${samples}/${name}.svg`, 'utf8'), { name }), job);
  const { parts } = await splitStage(sign, job, { seed: 1 });
  const cut = parts.flatMap(({ partId, plan }): [string, string][] =>
    plan === null ? [] : [[partId, `${plan.pieces.length} pieces, ${plan.visibleLengthMm.toFixed(3)} mm seen`]],
  );
  return { sign, seams: new Map(cut) };
}

it('a sign drawn with its parts spread out is split as the same sign drawn as a stack', {
  timeout: 120_000,
}, async () => {
  const stacked = await split('harbour-sign');
  const spread = await split('harbour-spread');
  expect([stacked.sign.mode, spread.sign.mode]).toEqual(['stacked', 'spread']);
  expect(spread.sign.parts.every((part) => part.place === 'assembled')).toBe(true);
  const areas = ({ sign }: typeof spread) =>
    sign.parts.map((part) => `${part.id} ${regionArea(part.region).toFixed(1)}`).sort();
  expect(areas(spread)).toEqual(areas(stacked));
  // The backer alone is too large; its seam is hidden below what the outlines say lies on it.
  expect([...stacked.seams]).toEqual([['backer', '2 pieces, 0.000 mm seen']]);
  expect(spread.seams).toEqual(stacked.seams);
});

it('without its outlines the spread drawing hides nothing (faulty twin)', { timeout: 120_000 }, async () => {
  const job = parseJob(readFileSync(`${samples}/harbour-spread.job.json`, 'utf8'), 'harbour-spread');
  const bare = readFileSync(`${samples}/harbour-spread.svg`, 'utf8').replace(/<g id="score-lines">[\s\S]*?<\/g>/, '');
  const sign = signStage(readArtwork(bare, { name: 'bare' }), job);
  expect(sign.matches).toEqual([]);
  expect(sign.parts.every((part) => part.place === 'drawn')).toBe(true);
});
