import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { hasBrowser } from '../support/page-browser.ts';
import { BUILD_PATIENCE_MS, openWorkshop, PATIENCE_MS, textOf, User, type Workshop } from '../support/page-user.ts';

const sample = (name: string): string =>
  readFileSync(new URL(`../../samples/harbour-day/${name}`, import.meta.url), 'utf8');
const FONT = new URL('../../node_modules/dejavu-fonts-ttf/ttf/DejaVuSans-Bold.ttf', import.meta.url);

type Named = { id: string; artwork: unknown; lettering?: unknown };

/** The sample's job as one file with its drawings inside, without its font; of each design one sign will do. */
function dayJob(): string {
  const job = JSON.parse(sample('day.job.json')) as { designs: Named[]; lettering: { fonts: unknown } };
  const designs = job.designs.map((design) => ({
    ...design,
    count: 1,
    artwork: { text: sample(String(design.artwork)), name: String(design.artwork) },
    ...(design.lettering === undefined ? {} : { lettering: { names: { text: sample('names.csv') } } }),
  }));
  return JSON.stringify({ ...job, designs, lettering: { ...job.lettering, fonts: [] } });
}

describe.skipIf(!hasBrowser())('a day of work on the page', { timeout: PATIENCE_MS }, () => {
  let workshop: Workshop;
  beforeAll(async () => {
    workshop = await openWorkshop(false);
  }, BUILD_PATIENCE_MS);
  afterAll(() => workshop?.close());

  const giveFont = async (user: User): Promise<void> => {
    const { page } = user;
    await page.getByText('Texts, fonts and names').click();
    await page.getByLabel('Choose or drop a font file').setInputFiles({
      name: 'DejaVuSans-Bold.ttf',
      mimeType: 'font/ttf',
      buffer: readFileSync(FONT),
    });
  };

  it('takes several designs, a font and a table of names from one job, and shows each design', async () => {
    const user = await User.arrive(workshop);
    const { page } = user;
    await user.openJob('day.job.json', dayJob());
    await user.look('Artwork');
    await page.getByText('5 signs to make:').waitFor();
    // without its font a text would be missing: nothing is made, and it is said
    await user.look('Files');
    await page.getByText(/font/i).first().waitFor();
    expect(await page.getByRole('button', { name: 'Take everything in one archive' }).count()).toBe(0);
    await user.look('Artwork');
    await giveFont(user);
    await user.reads('Artwork', /^\d+ parts/);
    await page.getByLabel('Design that is shown').selectOption('plaque Petersen');
    await user.settled();
    // a board, a field, and a letter each of the name; the year is scored
    await user.reads('Artwork', /^10 parts, 260 × 110 mm/);
    const report = JSON.parse(textOf(await user.archive(), 'report.json'));
    expect(report.designs.map(({ id, count }: { id: string; count: number }) => [id, count])).toEqual([
      ['door round', 1],
      ['plaque Holm', 1],
      ['plaque Petersen', 2],
      ['gull', 1],
    ]);
    expect(report.orders.map(({ order }: { order: string }) => order)).toEqual([
      'Gull Street 4',
      'Quay 12',
      'the shop on the quay',
    ]);
    await user.leave();
  });

  it('makes a sign for every row of a table that is typed in', async () => {
    const user = await User.arrive(workshop);
    const { page } = user;
    const job = {
      version: 2,
      name: 'Plaques',
      artwork: { text: sample('plaque.svg'), name: 'plaque.svg' },
      bed: '520x320',
      boards: ['508x305'],
      effort: 'quick',
    };
    await user.openJob('plaques.job.json', JSON.stringify(job));
    await user.look('Artwork');
    await giveFont(user);
    await user.reads('Artwork', /parts, 260 × 110 mm/);
    const table = page.getByLabel(/^A table of names/);
    await table.fill('family;year\nHolm');
    await user.press('Make these signs');
    const rows = page.getByText(/\d signs? to make:/);
    await table.fill('family,year\nHolm,1931\nLund,1908');
    await user.press('Make these signs');
    await rows.filter({ hasText: '2 signs to make:' }).waitFor();
    await user.settled();
    const report = JSON.parse(textOf(await user.archive(), 'report.json'));
    expect(report.designs.map(({ id }: { id: string }) => id)).toHaveLength(2);
    expect(report.batch).toBe(2);
    await user.leave();
  });
});
