import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readConfig } from '../../src/app/config.js';
import { createApp } from '../../src/app/create-app.js';
import { Door } from '../../src/app/sign-in/door.js';
import { readPdf } from '../printing/papers/read-pdf.js';
import { Maker } from '../support/maker.js';

/*
 * A maker's first evening: from the setup code in the terminal to a quote for three garments in the client's hand, in a
 * real browser with script off.
 */

let app: NestFastifyApplication;
let maker: Maker;
const folder = mkdtempSync(join(tmpdir(), 'bastings-first-'));

beforeAll(async () => {
  app = await createApp(
    readConfig({ DATA_DIR: folder, PORT: '0', LOG_LEVEL: 'error', TIME_ZONE: 'Europe/Dublin' }),
  );
  await app.listen(0, '127.0.0.1');
  const at = app.getHttpServer().address();
  const address = `http://127.0.0.1:${typeof at === 'object' && at ? at.port : 0}`;
  maker = await Maker.sitDown(address, undefined, { script: false, width: 360 });
}, 120_000);

afterAll(async () => {
  await maker?.leave();
  await app?.close();
  rmSync(folder, { recursive: true, force: true });
});

describe('a first evening, with script off, on a phone', () => {
  it('opens the studio with the code from the terminal', async () => {
    await maker.open('/');
    expect(maker.path).toBe('/first-start');
    await maker.write('code', app.get(Door).setupCode);
    await maker.write('name', 'Odalys Fenwright');
    await maker.write('passphrase', 'thimble wax needle chalk');
    await maker.press('Open the studio');
    expect(maker.path).toBe('/first-run');
  });

  it('answers a few questions and learns what an hour costs', async () => {
    await maker.write('name', 'Quillmere Workroom');
    await maker.write('address', '7 Tanner’s Reach\nAmbry');
    await maker.write('currency', 'EUR');
    await maker.press('Go on to the hour');
    await maker.write('pay', '22000');
    await maker.write('weeks', '46');
    await maker.write('hoursAWeek', '34');
    await maker.write('productiveShare', '62');
    await maker.write('overhead.0.amount', '5220');
    await maker.press('Work out the hour');
    const text = await maker.text();
    expect(text).toContain('28.07');
    expect(text).toContain('10.58');
  });

  it('opens a commission of three garments for a client who is added on the way', async () => {
    await maker.open('/commissions/new');
    await maker.write('client', 'Corvin Haddlestone');
    await maker.choose('garments.0.type', 'lounge-jacket');
    await maker.choose('garments.1.type', 'waistcoat');
    await maker.choose('garments.2.type', 'breeches');
    await maker.press('Open the commission');
    await maker.tick('confirm.client');
    await maker.press('Open the commission');
    const text = await maker.text();
    expect(text).toMatch(/C-\d{4}-001/);
    expect(text).toContain('58 h 46');
  });

  it('adds a line by typing, and sees hours and price move', async () => {
    await maker.follow('Lounge jacket');
    const before = /priced at €([\d,.]+)\./.exec(await maker.text())?.[1];
    await maker.write('line', 'inside pocket 2');
    await maker.press('Add');
    const after = /priced at €([\d,.]+)\./.exec(await maker.text())?.[1];
    expect(before).toBeDefined();
    expect(after).not.toBe(before);
    expect(await maker.text()).toContain('Nothing of your own to go by yet');
  });

  it('makes the quote, looks it over, and issues it', async () => {
    await maker.open(maker.path.split('/garments/')[0]!);
    await maker.follow('Quotes');
    await maker.press('Make a quote');
    await maker.press('Keep and check');
    for (const box of await maker.page.$$('main input[type=checkbox]')) await box.click();
    await maker.press('Issue the quote');
    const text = await maker.text();
    expect(text).toMatch(/Q-\d{4}-001/);
  });

  it('hands over a PDF that says the price and nothing of hours, cost or margin', async () => {
    const cookies = await maker.page.browser().cookies();
    const cookie = cookies.map(({ name, value }) => `${name}=${value}`).join('; ');
    const href = await maker.page.$eval(
      'main a[href$=".pdf"]',
      (one) => (one as unknown as { href: string }).href,
    );
    const bytes = new Uint8Array(await (await fetch(href, { headers: { cookie } })).arrayBuffer());
    const { pages } = await readPdf(bytes);
    const words = pages.map((page) => (typeof page === 'string' ? page : JSON.stringify(page))).join(' ');
    expect(words).toContain('Corvin Haddlestone');
    expect(words).toMatch(/Q-\d{4}-001/);
    expect(words).not.toMatch(/\bhours?\b|margin|markup|4 in 5|profit/i);
    expect(maker.strangers).toEqual([]);
  });
});
