import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Decimal } from '../../../../src/domain/kernel/decimal.js';
import { Money } from '../../../../src/domain/kernel/money.js';
import { rateCard } from '../../../../src/domain/rates/rate-card.js';
import { expensesPaidFor } from '../../../../src/storage/books/money-out/money-out-book.js';
import { ratesBook } from '../../../../src/storage/books/rates-book.js';
import { openTestStudio, type TestStudio } from '../../../support/studio.js';

let studio: TestStudio;
let garment: string;
let today: string;
const HERE = '/papers/money-out';
const post = (url: string, fields: Record<string, string>, once: string = randomUUID()) =>
  studio.post(url, { once, ...fields });
const eur = (amount: string) => Money.parse(amount, 'EUR');
const BILL = {
  kind: 'rent',
  payee: 'The bookbinder',
  amount: '365.00',
  tax: '',
  garment: '',
  paidOn: '',
  how: '',
};
const add = async (fields: Record<string, string>): Promise<string> => {
  const answer = await post(HERE, { ...BILL, on: today, ...fields });
  expect(answer.status, answer.text.replace(/<[^>]*>/g, ' ').slice(0, 1500)).toBe(303);
  return String(answer.headers.location).split('?')[0]!;
};

beforeAll(async () => {
  studio = await openTestStudio();
  today = studio.clock.now().slice(0, 10);
  const client = await studio.api('POST', '/api/clients', { name: 'Corvin Haddlestone' });
  const made = await studio.api('POST', '/api/commissions', {
    clientId: client.json().id,
    garments: [{ typeId: 'waistcoat' }],
  });
  garment = (await studio.api('GET', `/api/commissions/${made.json().id}/garments`)).json().items[0].id;
});
afterAll(() => studio.close());

describe('money out', () => {
  it('explains itself while nothing was spent', async () => {
    const { text } = await studio.get(HERE);
    expect(text).toContain('Put down the first bill');
    expect((await studio.get('/papers')).text).toContain('href="/papers/money-out"');
  });

  it('puts a bill down once, owed until it is paid, and owed again when the mark is taken back', async () => {
    const once = randomUUID();
    const fields = { ...BILL, on: today, payee: '<b>{{rent}}</b> & son', paperNumber: 'R-7' };
    const first = await post(HERE, fields, once);
    await post(HERE, fields, once);
    const bill = String(first.headers.location).split('?')[0]!;
    let page = await studio.get(HERE);
    expect(page.text).toContain('€365.00 is owed.');
    expect(page.text).toContain('&lt;b&gt;{{rent}}&lt;/b&gt; &amp; son');
    expect(page.text).toContain('Other bills to pay');
    const about = `money-out/${bill.split('/').at(-1)}`;
    expect((await studio.get(`${HERE}/pay?about=${about}`)).text).toContain('€365.00 to');
    const late = await post(`${HERE}/pay`, { about, paidOn: '2199-01-01', how: '' });
    expect(late.status).toBe(422);
    expect(late.text).toContain('href="#field-paidOn"');
    expect((await post(`${HERE}/pay`, { about, paidOn: today, how: 'transfer' })).status).toBe(303);
    expect((await post(`${HERE}/pay`, { about, paidOn: today, how: '' })).status).toBe(409);
    page = await studio.get(HERE);
    expect(page.text).toContain('Nothing is owed.');
    expect((await studio.get(bill)).text).toContain('transfer.');
    expect((await post(`${HERE}/unpay`, { about })).status).toBe(303);
    expect((await studio.get(HERE)).text).toContain('€365.00 is owed.');
    expect((await post(`${HERE}/unpay`, { about })).status).toBe(409);
    // Reversed, both stay, and nothing is owed.
    expect((await post(`${bill}/reverse`, { reason: '' })).status).toBe(422);
    expect((await post(`${bill}/reverse`, { reason: 'put down twice' })).status).toBe(303);
    expect((await post(`${bill}/reverse`, { reason: 'again' })).status).toBe(409);
    expect((await post(`${HERE}/pay`, { about, paidOn: today, how: '' })).status).toBe(409);
    page = await studio.get(HERE);
    expect(page.text).toContain('Nothing is owed.');
    expect(page.text).toContain('reversed');
    expect(page.text).toContain('takes another back');
  });

  it.each([
    ['amount', '0'],
    ['amount', '-5'],
    ['amount', ''],
    ['amount', '1e308'],
    ['amount', '1234567890123'],
    ['tax', '-1'],
    ['payee', ''],
    ['payee', 'x'.repeat(300)],
    ['kind', 'cloth'],
    ['on', '2026-02-31'],
    ['on', '2199-01-01'],
    ['paidOn', '2199-01-01'],
    ['garment', 'no-such-garment'],
  ])('refuses %s of “%s” beside the field, and keeps what was typed', async (field, typed) => {
    const kind = field === 'garment' ? 'courier' : 'rent';
    const answer = await post(HERE, { ...BILL, on: today, kind, paperNumber: 'K-9', [field]: typed });
    expect(answer.status).toBe(422);
    expect(answer.text).toContain(`href="#field-${field}"`);
    expect(answer.text).toContain('K-9');
  });

  it('is a garment’s own expense where it names one, until it is reversed', async () => {
    expect((await post(HERE, { ...BILL, on: today, garment })).status).toBe(422);
    const bill = await add({
      kind: 'courier',
      payee: 'River Carriers',
      amount: '11.50',
      tax: '2.30',
      garment,
      paidOn: today,
    });
    const paid = await expensesPaidFor(studio.read, garment);
    expect([paid.total.toString(), paid.bills.length]).toEqual(['11.50', 1]);
    await post(`${bill}/reverse`, { reason: 'another garment' });
    expect((await expensesPaidFor(studio.read, garment)).total.toString()).toBe('0.00');
  });

  it('owes merchants for cloth until it is paid', async () => {
    const supplier = (await studio.api('POST', '/api/suppliers', { name: 'Hollow Mill' })).json().id;
    const material = await studio.api('POST', '/api/materials', {
      name: 'Country tweed',
      kind: 'cloth',
      unit: 'm',
      method: 'lot',
    });
    expect(material.status, material.text).toBe(201);
    const delivery = {
      supplierId: supplier,
      boughtOn: today,
      paperNumber: 'HM-44',
      tax: '21.00',
      taxRecoverable: true,
      lines: [{ materialId: material.json().id, quantity: '2', unitPrice: '50' }],
    };
    expect((await studio.api('POST', '/api/purchases', { ...delivery, paidOn: '2199-01-01' })).status).toBe(
      422,
    );
    const settled = await studio.api('POST', '/api/purchases', { ...delivery, paidOn: today });
    expect((await studio.get(`/cloth-room/purchases/${settled.json().id}`)).text).not.toContain('not yet');
    const bought = await studio.api('POST', '/api/purchases', delivery);
    expect(bought.status, bought.text).toBe(201);
    const about = `purchase/${bought.json().id}`;
    const { text } = await studio.get(HERE);
    expect(text).toContain('Owed to merchants');
    expect(text).toContain('HM-44');
    expect(text).toContain('121.00');
    const owed = (await studio.api('GET', '/api/money-out/owed')).json();
    expect(owed.merchants).toMatchObject([{ about, to: 'Hollow Mill', amount: '121.00' }]);
    const paid = await studio.api('POST', '/api/money-out/paid', { about, paidOn: today });
    expect(paid.json()).toMatchObject({ about, paidOn: today });
    expect((await studio.api('GET', '/api/money-out/owed')).json().merchants).toEqual([]);
    expect((await studio.api('POST', '/api/money-out/unpaid', { about })).status).toBe(200);
    expect((await studio.api('GET', '/api/money-out/owed')).json().merchants).toHaveLength(1);
  });

  it('says what overhead cost against what the work took up, here and in Rates', async () => {
    expect((await studio.api('GET', '/api/money-out/overhead')).json()).toBeNull();
    await studio.unit.write(studio.visit, async (writing) => {
      const year = { weeks: new Decimal(10), hoursAWeek: new Decimal(10), productiveShare: new Decimal(1) };
      const person = { name: 'Odalys Fenwright', pay: eur('2000'), onCosts: [], year, perHourByMode: {} };
      const rent = { name: 'Rent', amount: eur('500'), pool: 'workroom', base: 'productive-hours' as const };
      const from = `${today.slice(0, 4)}-01-01`;
      await ratesBook.setFrom(
        writing,
        rateCard(from, { currency: 'EUR', people: [person], overhead: [rent] }),
      );
    });
    const plan = (await studio.api('GET', `/api/garments/${garment}`)).json().plan;
    const worked = await studio.api('POST', `/api/garments/${garment}/bench-entries`, {
      operation: plan[0].id,
      minutes: 600,
      on: today,
    });
    expect(worked.status, worked.text).toBe(201);
    await add({ amount: '80', paidOn: today });
    // 10 h at 5.00 an hour take up 50.00; 80.00 of rent was spent.
    const told = (await studio.api('GET', '/api/money-out/overhead')).json();
    expect(told).toMatchObject({
      incurred: '80.00',
      absorbed: '50.00',
      difference: '-30.00',
      verdict: 'under-absorbed',
      absorbedPerHour: '5.00',
      neededPerHour: '8.00',
      byPool: { workroom: '50.00' },
    });
    for (const url of [HERE, '/rates']) {
      const { text } = await studio.get(url);
      expect(text, url).toContain('overhead cost €30.00 more than the work has taken up: under-absorbed.');
      expect(text, url).toContain('€8.00 would have been right: rates 60 % higher');
    }
  });

  it('adds up a span by kind, for programs too', async () => {
    const added = await studio.api('POST', '/api/money-out', {
      kind: 'tools',
      on: today,
      amount: '9.90',
      payee: 'Needle stall',
    });
    expect(added.status, added.text).toBe(201);
    const list = (await studio.api('GET', `/api/money-out?from=${today}&to=${today}`)).json();
    expect(list.byKind).toMatchObject([
      { kind: 'rent', overhead: '80.00', count: 1 },
      { kind: 'tools', overhead: '9.90', count: 1 },
      { kind: 'courier', direct: '0.00', count: 0 },
    ]);
    const url = String(added.headers.location);
    expect((await studio.api('POST', `${url}/reversal`, { reason: 'a gift' })).status).toBe(201);
    expect((await studio.api('GET', url)).json().reversedBy).toBeTruthy();
    expect((await studio.api('GET', '/api/money-out/no-such')).status).toBe(404);
    expect((await studio.api('POST', '/api/money-out', { kind: 'tools', wage: 1 })).status).toBe(422);
    expect((await studio.get(`${HERE}?from=2020-01-01&to=2020-12-31`)).text).toContain(
      'No bill carries a day',
    );
  });
});
