import { afterAll, beforeAll, expect, it } from 'vitest';
import { Maker } from '../../support/maker.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

const NAME = 'Ottilie Wrenfield';

let studio: TestStudio;
let maker: Maker;
beforeAll(async () => {
  studio = await openTestStudio();
  await studio.api('POST', '/api/clients', { name: NAME });
  maker = await Maker.sitDown(await studio.listen(), studio.cookie);
}, 60_000);
afterAll(async () => {
  await maker?.leave();
  await studio?.close();
});

const shown = (): Promise<string> =>
  maker.page.evaluate('document.documentElement.outerHTML') as Promise<string>;

it('whoever signs out leaves nothing for the next one at this browser: not by going back, not in what it keeps', async () => {
  const { page, address } = maker;
  await page.goto(`${address}/clients`);
  expect(await shown()).toContain(NAME);
  await Promise.all([
    page.waitForNavigation(),
    page.evaluate(`document.querySelector('form[action="/sign-out"] button').click()`),
  ]);
  await page.waitForFunction(`location.pathname === '/sign-in'`);
  await page.goBack({ waitUntil: 'networkidle0' });
  expect(new URL(page.url()).pathname).toMatch(/^\/(clients|sign-in)$/);
  expect(await shown()).not.toContain(NAME);
  await page.goto(`${address}/sign-in`);
  const kept = (await page.evaluate(
    `JSON.stringify([{ ...localStorage }, { ...sessionStorage }])`,
  )) as string;
  expect(kept).not.toMatch(/Ottilie|Wrenfield/);
  expect(await page.evaluate('caches.keys().then((all) => all.length)')).toBe(0);
  const cookies = await page.cookies();
  expect(cookies.filter(({ value }) => value !== '')).toEqual([]);
});
