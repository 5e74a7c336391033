import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildPage, openBrowser, servePage } from './page-browser.ts';
import { User } from './page-user.ts';

/** The pictures of the page in the README, made anew: `npm run pictures`. WebP, as small as stays readable. */
const PICTURES = fileURLToPath(new URL('../../apps/playground/pictures/', import.meta.url));
const QUALITY = 0.85;

const folder = mkdtempSync(join(tmpdir(), 'underlap-pictures-'));
await buildPage(folder, true);
const served = await servePage(folder);
const browser = await openBrowser();
const workshop = { url: served.url, browser, close: async () => undefined };

/** The browser itself turns the screenshot into WebP. */
async function keep(user: User, name: string): Promise<void> {
  // notices go by themselves, and the last picture has been drawn
  await user.page.waitForTimeout(1000);
  const shot = `data:image/png;base64,${(await user.page.screenshot()).toString('base64')}`;
  const blank = await user.context.newPage();
  const url = await blank.evaluate(
    async ([source, quality]) => {
      const image = new Image();
      image.src = source;
      await image.decode();
      const canvas = document.createElement('canvas');
      canvas.width = image.width;
      canvas.height = image.height;
      canvas.getContext('2d')?.drawImage(image, 0, 0);
      return canvas.toDataURL('image/webp', quality);
    },
    [shot, QUALITY] as const,
  );
  await blank.close();
  const bytes = Buffer.from(url.slice(url.indexOf(',') + 1), 'base64');
  writeFileSync(join(PICTURES, `${name}.webp`), bytes);
  console.log(`${name}.webp, ${Math.round(bytes.length / 1024)} kB`);
}

const desk = await User.arrive(workshop);
await desk.settled();
await desk.look('Boards');
await keep(desk, 'boards');
await desk.look('Split');
await keep(desk, 'seam');
await desk.leave();
const phone = await User.arrive(workshop, { width: 390, height: 844 });
await phone.settled();
await phone.page.locator('.stage').scrollIntoViewIfNeeded();
await keep(phone, 'phone');
await phone.leave();

await browser.close();
await served.close();
rmSync(folder, { recursive: true, force: true });
