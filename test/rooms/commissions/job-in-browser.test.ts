import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { auditOf } from '../../support/audit.js';
import { Maker } from '../../support/maker.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { aJacket, openCommission, planOf } from './an-opening.js';

let studio: TestStudio;
let maker: Maker;
beforeAll(async () => {
  studio = await openTestStudio();
  const hour = {
    name: 'Odalys Fenwright',
    pay: '22000',
    weeks: '46',
    hoursAWeek: '34',
    productiveShare: '62',
  };
  const rates = { once: randomUUID(), version: '0', from: '2026-03-02', ...hour };
  expect((await studio.post('/rates/hour', rates)).status).toBe(303);
  maker = await Maker.sitDown(await studio.listen(), studio.cookie);
}, 60_000);
afterAll(async () => {
  await maker?.leave();
  await studio?.close();
});

const textOf = (selector: string): Promise<string> =>
  maker.page.evaluate(
    `document.querySelector(${JSON.stringify(selector)})?.textContent ?? ''`,
  ) as Promise<string>;
const typeInto = async (selector: string, text: string): Promise<void> => {
  await maker.page.focus(selector);
  await maker.page.keyboard.down('Control');
  await maker.page.keyboard.press('a');
  await maker.page.keyboard.up('Control');
  await maker.page.keyboard.type(text);
};
/** Marks the page, so that a full load would be noticed. */
const mark = (): Promise<unknown> => maker.page.evaluate('document.body.dataset.mark = "same page"');
const isSamePage = (): Promise<unknown> => maker.page.evaluate('document.body.dataset.mark');

describe('a job sheet in the browser', () => {
  it('renews the sum while minutes are typed, and plan and sum alone when they are kept', async () => {
    const url = await aJacket(studio);
    const [first, second] = await planOf(studio, url);
    await maker.open(url);
    await mark();
    const before = await textOf('#sum .lead');
    expect(before).toMatch(/^At 4 in 5 this takes/);
    await typeInto(`[id="field-op.${first!.id}.minutes"]`, '20h');
    await maker.page.waitForFunction(
      `document.querySelector('#sum .lead').textContent !== ${JSON.stringify(before)}`,
    );
    expect((await planOf(studio, url))[0]).toMatchObject({ fixedMinutes: '60' });
    await maker.page.keyboard.press('Enter');
    await maker.page.waitForFunction("document.querySelector('#job .notice') !== null");
    expect(await isSamePage()).toBe('same page');
    expect((await planOf(studio, url))[0]).toMatchObject({ fixedMinutes: '1200' });
    await maker.page.focus(`button[value="up:${second!.id}"]`);
    await maker.page.keyboard.press('Enter');
    await maker.page.waitForFunction(`document.activeElement?.value === 'down:${second!.id}'`);
    expect((await planOf(studio, url))[0]!.id).toBe(second!.id);
    expect(await isSamePage()).toBe('same page');
  }, 60_000);

  it('takes lines and cloth by keyboard alone, the focus ready for the next', async () => {
    const url = await aJacket(studio);
    await maker.open(url);
    await typeInto('#field-line', 'pocket');
    await maker.page.keyboard.press('Enter');
    await maker.page.waitForSelector('#job .summary');
    expect(await textOf('#job .summary')).toContain('Which one is');
    await typeInto('#field-line', 'inside pocket 2');
    await maker.page.keyboard.press('Enter');
    await maker.page.waitForFunction(
      "document.activeElement?.id === 'field-line' && !document.querySelector('#job .summary')",
    );
    await typeInto('#field-name', 'hand-woven tweed');
    await typeInto('#field-quantity', '3.2m @ 46');
    await maker.page.keyboard.press('Enter');
    await maker.page.waitForFunction(
      "document.activeElement?.id === 'field-name' && document.activeElement.value === ''",
    );
    expect(await textOf('#job')).toContain('3.2 m');
  }, 60_000);

  it('passes the automated audit on each of its pages', async () => {
    const commission = await openCommission(studio);
    const url = await aJacket(studio);
    const [operation] = await planOf(studio, url);
    const cloth = { name: 'tweed', quantity: '3 m @ 46', waste: '5', wasteOf: 'net' };
    await studio.post(`${url}/materials`, { once: randomUUID(), ...cloth });
    await studio.post(`${url}/expenses`, { once: randomUUID(), expense: 'courier', amount: '12' });
    const { text } = await studio.get(url);
    const linked = [...text.matchAll(/href="([^"]*\/(?:materials|expenses)\/[^"]*)"/g)].map(([, at]) => at!);
    const found: string[] = [];
    const pages = [
      url,
      commission,
      `${commission}/correct`,
      `${commission}/pricing`,
      `${commission}/garments/new`,
      `${url}/correct`,
      `${url}/plan/${operation!.id}`,
      `${url}/plan/copy`,
      `${url}/plan/proposal`,
      ...linked,
    ];
    for (const [place, path] of pages.entries()) {
      const [width, dark] = place % 2 === 0 ? [360, true] : [1280, false];
      await maker.look(Number(width), Boolean(dark));
      await maker.open(path);
      const wide = await maker.page.evaluate('document.documentElement.scrollWidth - innerWidth');
      if (Number(wide) > 0) found.push(`${path} at ${width}: too wide by ${String(wide)}`);
      const { broken } = await auditOf(maker.page);
      found.push(...broken.map((one) => `${path} at ${width}: ${one}`));
    }
    expect(found).toEqual([]);
    expect(maker.strangers).toEqual([]);
  }, 180_000);
});
