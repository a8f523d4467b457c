import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { rateCard } from '../../../src/domain/rates/rate-card.js';
import { priceListBook } from '../../../src/storage/books/price-list-book.js';
import { ratesBook } from '../../../src/storage/books/rates-book.js';
import { studioBook } from '../../../src/storage/books/studio-book.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

const post = (url: string, fields: Record<string, string>) =>
  studio.post(url, { once: randomUUID(), ...fields });
const LINE = { sort: 'counter', name: 'Trouser hem by hand', hours: '0.4', trimmings: '', ownPrice: '' };
const eur = (amount: string) => Money.parse(amount, 'EUR');

describe('the house price list', () => {
  it('waits for the hour', async () => {
    expect((await studio.get('/rates/price-list')).text).toContain('not worked out yet');
  });

  // Constructed case WS-17: a hem of 0.4 h at 31.50 an hour with a minimum charge of 18.00 becomes 18.00.
  it('keeps to the minimum charge, or to the price put by hand', async () => {
    await studio.unit.write(studio.visit, async (writing) => {
      const person = {
        name: 'Odalys',
        pay: eur('0'),
        onCosts: [],
        plainPerHour: eur('28.35'),
        perHourByMode: {},
      };
      await ratesBook.setFrom(
        writing,
        rateCard('2026-01-01', { currency: 'EUR', people: [person], overhead: [] }),
      );
      const house = await studioBook.the(writing);
      await studioBook.correct(writing, {
        ...house,
        pricing: { ...house.pricing, profitShare: new Decimal('0.1'), minimumCharge: eur('18') },
      });
    });
    expect((await post('/rates/price-list/new', LINE)).status).toBe(303);
    const { text } = await studio.get('/rates/price-list');
    expect(text).toContain('An hour is sold at €31.50; the minimum charge is €18.00.');
    expect(text).toContain('12.60');
    expect(text).toContain('18.00');
    expect(text).toContain('minimum charge');
    const [line] = await priceListBook.all(studio.read);
    const url = `/rates/price-list/${line!.id}`;
    expect((await post(url, { ...LINE, version: '1', ownPrice: '15' })).status).toBe(303);
    expect((await studio.get('/rates/price-list')).text).toContain('put by hand');
    expect((await post(url, { ...LINE, version: '1', ownPrice: '16' })).status).toBe(409);
    const [priced] = (await studio.api('GET', '/api/rates/price-list')).json().items;
    expect([priced.worked, priced.price]).toEqual(['12.60', '15.00']);
    expect((await post(`${url}/remove`, { version: '2' })).status).toBe(303);
  });

  it('takes in the alteration menu and make-and-trim, each in one act that can be undone', async () => {
    const answer = await post('/rates/price-list/take-over', { sort: 'counter' });
    expect(answer.status).toBe(303);
    const { text } = await studio.get(String(answer.headers.location));
    expect(text).toContain('Took 14 lines into the price list');
    expect(text).toContain('Skirt hem, lined');
    expect(text).toContain('starting value');
    expect((await post('/rates/price-list/take-over', { sort: 'counter' })).status).toBe(409);
    expect((await post('/rates/price-list/take-over', { sort: 'make-and-trim' })).status).toBe(303);
    expect((await studio.get('/rates/price-list')).text).toContain('Waistcoat, your own cloth');
    const act = new URL(String(answer.headers.location), 'http://x').searchParams.get('done');
    await studio.post(`/history/${act}/undo`, { once: randomUUID(), back: '/rates/price-list' });
    expect((await priceListBook.all(studio.read)).every(({ sort }) => sort === 'make-and-trim')).toBe(true);
  });

  it.each([
    ['name', ''],
    ['name', 'x'.repeat(400)],
    ['hours', ''],
    ['hours', '0'],
    ['hours', '-1'],
    ['hours', '1e308'],
    ['hours', '1001'],
    ['trimmings', '1234567890123'],
    ['ownPrice', 'NaN'],
    ['sort', 'rush'],
  ])('refuses %s of “%s” beside the field', async (field, typed) => {
    const answer = await post('/rates/price-list/new', { ...LINE, [field]: typed });
    expect(answer.status).toBe(422);
    expect(answer.text).toContain(`href="#field-${field}"`);
  });

  it('takes a price of 0.00, and shows markup as text', async () => {
    await post('/rates/price-list/new', { ...LINE, name: '<b>{{x}}</b>', ownPrice: '0.00' });
    expect((await studio.get('/rates/price-list')).text).toContain('&lt;b&gt;{{x}}&lt;/b&gt;');
    const free = (await priceListBook.all(studio.read)).find(({ name }) => name.includes('{{x}}'))!;
    expect(free.ownPrice?.toString()).toBe('0.00');
  });

  it('is kept by programs too', async () => {
    const made = await studio.api('POST', '/api/rates/price-list', {
      sort: 'counter',
      name: 'Moth hole',
      hours: '0.75',
      trimmings: '2.00',
    });
    expect(made.json().price).toBe('25.63');
    const url = String(made.headers.location);
    const put = { sort: 'counter', name: 'Moth hole', hours: 1 };
    expect((await studio.api('PUT', url, put, { 'if-match': '"1"' })).json().price).toBe('31.50');
    expect((await studio.api('PUT', url, put, { 'if-match': '"1"' })).status).toBe(412);
    expect((await studio.api('PUT', url, { ...put, wage: 1 })).json().errors[0].pointer).toBe('/wage');
    expect((await studio.api('DELETE', url)).status).toBe(200);
    expect((await studio.api('GET', url)).status).toBe(404);
  });
});
