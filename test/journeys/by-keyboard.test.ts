import type { KeyInput } from 'puppeteer';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { loadDemo } from '../../src/app/demo/load-demo.js';
import { Maker } from '../support/maker.js';
import { openEmptyStudio, type TestStudio } from '../support/studio.js';

/*
 * From the bench to a quote as PDF for three garments, by keyboard alone, with script on. Keys are counted: at two keys a
 * second, slow for somebody with a thimble on, 360 keys are three minutes.
 */

const MOST_KEYS = 360;

let studio: TestStudio;
let maker: Maker;
let keys = 0;

beforeAll(async () => {
  studio = await openEmptyStudio();
  await loadDemo(studio.unit, studio.visit, studio.clock, 'Europe/Dublin');
  maker = await Maker.sitDown(await studio.listen(), studio.cookie);
}, 180_000);

afterAll(async () => {
  await maker?.leave();
  await studio?.close();
});

const key = async (name: KeyInput): Promise<void> => {
  keys += 1;
  await maker.page.keyboard.press(name);
};

const type = async (text: string): Promise<void> => {
  keys += text.length;
  await maker.page.keyboard.type(text);
};

/** The words of what the keyboard is on: its label, name, or text. */
const focus = async (): Promise<string> =>
  String(
    await maker.page.evaluate(`(() => {
      const one = document.activeElement;
      return [one?.name, one?.textContent?.trim(), one?.getAttribute('aria-label')].filter(Boolean).join(' | ');
    })()`),
  );

/** Tabs on until the keyboard stands on something of these words. */
const tabTo = async (words: string | RegExp): Promise<void> => {
  for (let tabs = 0; tabs < 80; tabs += 1) {
    await key('Tab');
    const here = await focus();
    if (typeof words === 'string' ? here.split(' | ').includes(words) : words.test(here)) return;
  }
  throw new Error(
    `Eighty tabs from ${maker.path} never came to ${String(words)}; the last was ${await focus()}.`,
  );
};

/** Waits until the page has another path, and its heading stands. */
const arrive = async (path: RegExp): Promise<void> => {
  await maker.page.waitForFunction(
    `${String(path)}.test(location.pathname) && !document.documentElement.hasAttribute('aria-busy')`,
    {
      timeout: 30_000,
    },
  );
  await maker.page.waitForSelector('main h1');
};

describe('three garments quoted by keyboard alone', () => {
  it('goes from the bench to an issued quote within three minutes of keys', async () => {
    await maker.open('/');
    await tabTo('New commission');
    await key('Enter');
    await arrive(/\/commissions\/new$/);
    await tabTo('client');
    await type('Perpetua Lyle');
    await tabTo('garments.0.type');
    await type('Stays');
    await tabTo('garments.1.type');
    await type('Shift');
    await tabTo('garments.2.type');
    await type('Cape');
    await key('Enter');
    await tabTo(/^Open the commission/);
    await key('Enter');
    await arrive(/\/commissions\/[0-9a-f-]{36}$/);
    expect(await maker.text()).toContain('Cape');
    await tabTo('Quotes');
    await key('Enter');
    await arrive(/\/quotes$/);
    await tabTo('Make a quote');
    await key('Enter');
    await arrive(/\/drafts\/[0-9a-f-]{36}$/);
    await tabTo('Keep and check');
    await key('Enter');
    await arrive(/\/check$/);
    while (!/^Issue the quote/.test(await focus())) {
      await key('Tab');
      if (/^confirm\./.test(await focus())) await key('Space');
      if (keys > MOST_KEYS * 2)
        throw new Error(`The quote cannot be issued by keyboard: ${await maker.text()}`);
    }
    await key('Enter');
    await maker.page.waitForFunction(`/Q-\\d{4}-001/.test(document.querySelector('main')?.innerText ?? '')`, {
      timeout: 60_000,
    });
    await tabTo(/PDF/);
    expect(keys).toBeLessThan(MOST_KEYS);
    console.log(`By keyboard, from the bench to the quote's PDF for three garments: ${keys} keys.`);
  }, 240_000);
});
