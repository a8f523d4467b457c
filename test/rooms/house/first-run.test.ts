import { randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readConfig } from '../../../src/app/config.js';
import { createApp } from '../../../src/app/create-app.js';
import { Door } from '../../../src/app/sign-in/door.js';
import { makingBook } from '../../../src/storage/books/making-book.js';
import { ratesBook } from '../../../src/storage/books/rates-book.js';
import { studioBook } from '../../../src/storage/books/studio-book.js';
import { ReadSide } from '../../../src/storage/read-side.js';
import { StillClock } from '../../support/still-clock.js';

/** A program just started for the first time: an owner, and no house yet. */
let app: NestFastifyApplication;
let folder: string;
let cookie: string;
let read: ReadSide;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'bastings-'));
  const config = readConfig({ DATA_DIR: folder, PORT: '0', LOG_LEVEL: 'error', TIME_ZONE: 'Europe/Dublin' });
  app = await createApp(config, new StillClock());
  await app.init();
  await app.getHttpAdapter().getInstance().ready();
  const door = app.get(Door);
  cookie = `bastings=${await door.openHouse(door.setupCode, 'Odalys Fenwright', 'thimble wax needle chalk', '127.0.0.1')}`;
  read = app.get(ReadSide);
});
afterEach(async () => {
  await app.close();
  rmSync(folder, { recursive: true, force: true });
});

const get = (url: string) => app.inject({ method: 'GET', url, headers: { cookie } });
const post = (url: string, fields: Record<string, string>) =>
  app.inject({
    method: 'POST',
    url,
    headers: {
      cookie,
      'content-type': 'application/x-www-form-urlencoded',
      'sec-fetch-site': 'same-origin',
    },
    payload: new URLSearchParams({ once: randomUUID(), ...fields }).toString(),
  });

const HOUSE = {
  name: 'Quillmere Workroom',
  maker: 'Odalys Fenwright',
  currency: 'GBP',
  locale: 'en-GB',
  lengthUnit: 'in',
  clothUnit: 'yd',
  category: 'S',
};
// Constructed case WS-1: pay 22,000; overhead 5,220; 46 weeks × 34 h × 62 %.
const HOUR = {
  pay: '22,000',
  weeks: '46',
  hoursAWeek: '34',
  productiveShare: '62',
  'overhead.0.name': 'Rent',
  'overhead.0.amount': '5220',
  'overhead.1.name': 'Insurance',
  'overhead.1.amount': '',
  overruns: 'a-little',
};

describe('the first run', () => {
  it('is where every page leads until the house is opened', async () => {
    for (const url of ['/clients', '/clients/new', '/rates', '/rates/hour']) {
      expect((await get(url)).headers.location, url).toBe('/first-run');
    }
    expect((await get('/first-run/hour')).headers.location).toBe('/first-run');
    expect((await get('/first-run/done')).headers.location).toBe('/first-run');
  });

  it('suggests no currency and no pay', async () => {
    expect((await get('/first-run')).payload).not.toMatch(/<option value="[A-Z]{3}" selected/);
    await post('/first-run', HOUSE);
    expect((await get('/first-run/hour')).payload).toMatch(/name="pay"[^>]*value=""/);
  });

  it('ends in a working hour laid open and leads to the first client (WS-1, WS-2)', async () => {
    const opened = await post('/first-run', HOUSE);
    expect([opened.statusCode, opened.headers.location]).toEqual([303, '/first-run/hour']);
    const answered = await post('/first-run/hour', HOUR);
    expect(answered.statusCode).toBe(303);
    const { payload } = await get(String(answered.headers.location));
    for (const figure of ['1,564 h', '969.68 h', '22.69', '5.38', '£28.07', '£31.19', '£10.58'])
      expect(payload).toContain(figure);
    expect(payload).toContain('href="/clients/new"');
    const studio = await studioBook.the(read);
    expect(studio.overruns).toBe('a-little');
    expect(studio.identity.zone).toBe('Europe/Dublin');
    expect(studio.firstRunDone).toBeDefined();
    expect(await makingBook.types(read)).toHaveLength(15);
    expect((await get('/first-run')).headers.location).toBe('/house');
    expect((await post('/first-run', HOUSE)).statusCode).toBe(422);
  });

  it('works the hour out while it is filled in', async () => {
    await post('/first-run', HOUSE);
    expect((await post('/first-run/hour/sum', HOUR)).payload).toContain('£28.07');
    expect(await ratesBook.all(read)).toEqual([]);
  });

  it('asks for the country an invoice needs, and takes a new client to live there', async () => {
    await post('/first-run', { ...HOUSE, country: 'Ireland' });
    await post('/first-run/hour', HOUR);
    expect((await studioBook.the(read)).identity.country).toBe('Ireland');
    expect((await get('/clients/new')).payload).toMatch(/name="country"[^>]*value="Ireland"/);
  });

  it('says so where an hour earns nothing towards the rent', async () => {
    const bare = Object.fromEntries(Object.entries(HOUR).filter(([name]) => !name.startsWith('overhead')));
    await post('/first-run', HOUSE);
    expect((await get(String((await post('/first-run/hour', bare)).headers.location))).payload).toContain(
      'earns nothing towards them',
    );
  });

  it('can be skipped at each point, and still leaves a house that stands', async () => {
    expect((await post('/first-run/skip', {})).headers.location).toBe('/first-run/hour');
    expect((await post('/first-run/skip', {})).headers.location).toBe('/first-run/done');
    const { payload } = await get('/first-run/done');
    expect(payload).toContain('No hour is worked out yet');
    expect((await get('/clients')).statusCode).toBe(200);
    expect((await studioBook.the(read)).identity.maker).toBe('Odalys Fenwright');
  });

  it('lets the first page be answered again, in another currency, before anything is priced', async () => {
    await post('/first-run', HOUSE);
    const again = await post('/first-run', { ...HOUSE, currency: 'JPY', name: 'Another name' });
    expect(again.statusCode).toBe(303);
    const studio = await studioBook.the(read);
    expect([studio.identity.name, studio.identity.currency]).toEqual(['Another name', 'JPY']);
    expect(studio.pricing.roundTo.toString()).toBe('1');
    await post('/first-run/hour', { ...HOUR, pay: '2200000', 'overhead.0.amount': '522000' });
    expect((await get('/first-run/done')).payload).toContain('¥2,807');
  });

  it.each([
    [{ name: '' }, 'name', 'Give the studio its name'],
    [{ currency: '' }, 'currency', 'not a currency code'],
    [{ currency: 'QQQ' }, 'currency', 'not a currency code'],
    [{ locale: '{{x}}' }, 'locale', 'Choose one'],
    [{ registered: 'yes', rate: '21' }, 'taxNumber', 'Give the tax number'],
    [{ registered: 'yes', taxNumber: 'IE1', rate: '' }, 'rate', 'above 0 %'],
    [{ registered: 'yes', taxNumber: 'IE1', rate: '101' }, 'rate', 'from 0 to 100'],
    [{ registered: 'yes', taxNumber: 'IE1', category: 'Z', rate: '5' }, 'rate', 'Only the standard'],
  ])('refuses %o and keeps what was typed', async (wrong, field, sentence) => {
    const answer = await post('/first-run', { ...HOUSE, ...wrong });
    expect(answer.statusCode).toBe(422);
    expect(answer.payload).toContain(`href="#field-${field}"`);
    expect(answer.payload).toContain(sentence);
    expect(answer.payload).toContain('value="Odalys Fenwright"');
    expect(await studioBook.maybe(read)).toBeUndefined();
  });

  it('opens one house when the button is pressed twice at once', async () => {
    const once = randomUUID();
    const both = await Promise.all([1, 2].map(() => post('/first-run', { ...HOUSE, once })));
    expect(both.map(({ statusCode }) => statusCode)).toEqual([303, 303]);
    expect(await makingBook.types(read)).toHaveLength(15);
  });
});
