import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addDays } from '../../../src/domain/kernel/calendar-date.js';
import { expensesPaidFor } from '../../../src/storage/books/money-out/money-out-book.js';
import { outworkBook } from '../../../src/storage/books/outwork/outwork-book.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { type BenchGarment, openGarments, wordsOf } from './a-bench.js';

let studio: TestStudio;
let garment: BenchGarment;
let maker: string;
let outworker: string;
let ticket: string;
let today: string;
const HERE = '/bench/outwork';
const post = (url: string, fields: Record<string, string>, headers = {}) =>
  studio.post(url, { once: randomUUID(), ...fields }, headers);
const words = (over: Record<string, string> = {}) => ({
  outworker,
  garment: garment.id,
  work: 'Buttonholes by hand',
  pieces: '8',
  pieceRate: '',
  outOn: addDays(today, -10),
  dueOn: addDays(today, -3),
  notes: '',
  ...over,
});

beforeAll(async () => {
  studio = await openTestStudio();
  today = studio.clock.now().slice(0, 10);
  [garment] = (await openGarments(studio, 'waistcoat')) as [BenchGarment];
  const passphrase = 'four other plain words';
  await post('/house/people', { name: 'Wilmot Larkspur', role: 'maker', passphrase });
  const signed = await studio.post('/sign-in', { name: 'Wilmot Larkspur', passphrase }, { cookie: '' });
  maker = String(signed.headers['set-cookie'] ?? '').split(';')[0] ?? '';
});
afterAll(() => studio.close());

describe('outwork', () => {
  it('needs an outworker first, with piece rates and their legal floor', async () => {
    expect((await studio.get(HERE)).text).toContain('Send work out');
    expect((await studio.get(`${HERE}/new`)).text).toContain('Nobody takes work out yet.');
    const form = await studio.get(`${HERE}/workers/new`);
    expect(form.text).toContain('Piece rates have a legal floor');
    const bad = await post(`${HERE}/workers`, {
      name: 'P',
      'rates.3.work': 'Pleating',
      'rates.3.price': '-1',
    });
    expect(bad.status).toBe(422);
    expect(bad.text).toContain('href="#field-rates.0.price"');
    const kept = { name: 'Perpetua <i>Lintwhistle</i>', reachedAt: '555 0142', notes: '' };
    const rates = { 'rates.0.work': 'Buttonholes by hand', 'rates.0.price': '3.50' };
    expect((await post(`${HERE}/workers`, { ...kept, ...rates })).status).toBe(303);
    const { items } = (await studio.api('GET', '/api/outwork/workers')).json();
    outworker = items[0].id;
    expect(items[0].rates).toEqual([{ work: 'Buttonholes by hand', price: '3.50' }]);
    expect((await studio.get(`${HERE}/workers`)).text).toContain('Perpetua &lt;i&gt;');
    expect((await studio.get(`${HERE}/workers/${outworker}`)).text).toContain('value="3.50"');
    const late = await post(`${HERE}/workers/${outworker}`, { ...kept, ...rates, version: '9' });
    expect(late.status).toBe(409);
  });

  it('goes out under its own number at the list’s rate, once, and says in words that it is late', async () => {
    const fields = { once: randomUUID(), ...words() };
    const sent = await studio.post(HERE, fields);
    expect(sent.status, wordsOf(sent.text)).toBe(303);
    await studio.post(HERE, fields);
    ticket = String(sent.headers.location).split('?')[0]!.split('/').at(-1)!;
    const told = (await studio.api('GET', `/api/outwork/${ticket}`)).json();
    expect(told).toMatchObject({ number: 'W-0001', comesTo: '28.00', state: 'out', daysLate: 3 });
    const page = wordsOf((await studio.get(HERE)).text);
    expect(page).toContain('One piece of work out, late.');
    expect(page).toContain('out, 3 days late');
    expect((await studio.api('GET', '/api/outwork')).json().items).toHaveLength(1);
    expect((await outworkBook.toCome(studio.read, garment.id, 'EUR')).toString()).toBe('28.00');
  });

  it.each([
    ['pieces', '0'],
    ['pieces', '-3'],
    ['pieces', '99999999'],
    ['pieceRate', '-1'],
    ['pieceRate', '1e308'],
    ['work', ''],
    ['work', 'Embroidery that is on no list'],
    ['work', 'x'.repeat(200)],
    ['outworker', 'nobody'],
    ['garment', 'none'],
    ['outOn', ''],
    ['dueOn', '2001-01-01'],
  ])('refuses %s of “%s” beside the field', async (field, typed) => {
    const answer = await post(HERE, words({ [field]: typed }));
    expect(answer.status).toBe(422);
    expect(answer.text).toContain(`href="#field-${field}"`);
  });

  it('shows a maker the work and no money', async () => {
    const as = { cookie: maker };
    for (const url of [HERE, `${HERE}/${ticket}`, `${HERE}/new`, `${HERE}/${ticket}/edit`]) {
      const { status, text } = await studio.get(url, as);
      expect(status, url).toBe(200);
      expect(text, url).not.toMatch(/28\.00|3\.50|555 0142|EUR|pieceRate/);
    }
    expect((await studio.get(`${HERE}/workers`, as)).status).toBe(403);
    const sent = await post(HERE, { ...words({ work: 'buttonholes BY hand' }), pieceRate: '9' }, as);
    expect(sent.status).toBe(422);
    const { pieceRate: _, ...plain } = words({ work: 'buttonholes BY hand', pieces: '2', dueOn: '' });
    const second = await post(HERE, plain, as);
    expect(second.status).toBe(303);
    const id = String(second.headers.location).split('?')[0]!.split('/').at(-1)!;
    expect((await studio.api('GET', `/api/outwork/${id}`)).json().comesTo).toBe('7.00');
  });

  it('is owed once it is back, paid as an expense of its garment, and owed again when the bill is reversed', async () => {
    const about = `outwork/${ticket}`;
    expect((await studio.api('POST', '/api/money-out/paid', { about, paidOn: today })).status).toBe(409);
    const early = await post(`${HERE}/${ticket}/back`, { backOn: addDays(today, 2), version: '1' });
    expect(early.status).toBe(422);
    expect(early.text).toContain('href="#field-backOn"');
    const found = await post(`${HERE}/${ticket}/checked`, { checkedOn: today, found: '', version: '1' });
    expect(found.status).toBe(422);
    expect((await post(`${HERE}/${ticket}/back`, { backOn: today, version: '1' })).status).toBe(303);
    expect((await post(`${HERE}/${ticket}/back`, { backOn: today, version: '2' })).status).toBe(409);
    const checked = { checkedOn: today, found: 'one frayed', version: '2' };
    expect((await post(`${HERE}/${ticket}/checked`, checked)).status).toBe(303);
    expect((await studio.get('/papers/money-out')).text).toContain('Owed to outworkers');
    expect((await studio.get(`${HERE}/${ticket}`)).text).toContain('Pay for it');
    const owed = (await studio.api('GET', '/api/outwork?state=owed')).json().items;
    expect(owed).toMatchObject([{ id: ticket, comesTo: '28.00', state: 'checked' }]);

    const paid = await post('/papers/money-out/pay', { about, paidOn: today, how: 'in coin' });
    expect(paid.status, wordsOf(paid.text)).toBe(303);
    expect((await post('/papers/money-out/pay', { about, paidOn: today, how: '' })).status).toBe(409);
    const spent = await expensesPaidFor(studio.read, garment.id);
    expect([spent.total.toString(), spent.bills[0]?.ticketId]).toEqual(['28.00', ticket]);
    expect((await outworkBook.toCome(studio.read, garment.id, 'EUR')).toString()).toBe('7.00');
    expect(wordsOf((await studio.get(`${HERE}/${ticket}`)).text)).toContain(': paid.');
    const edit = await post(`${HERE}/${ticket}/edit`, { ...EDITED(), pieces: '99', version: '3' });
    expect(edit.status).toBe(409);
    expect((await studio.api('GET', '/api/outwork?state=owed')).json().items).toEqual([]);
    expect((await studio.api('GET', '/api/money-out/owed')).json().bills).toEqual([]);

    const bill = spent.bills[0]!.id;
    expect((await post(`/papers/money-out/${bill}/reverse`, { reason: 'not paid after all' })).status).toBe(
      303,
    );
    expect((await studio.api('GET', '/api/outwork?state=owed')).json().items).toHaveLength(1);
    expect((await expensesPaidFor(studio.read, garment.id)).total.isZero()).toBe(true);
    expect((await post(`${HERE}/${ticket}/edit`, { ...EDITED(), version: '3' })).status).toBe(303);
    expect((await post(`${HERE}/${ticket}/edit`, { ...EDITED(), version: '3' })).status).toBe(409);
    expect((await studio.api('GET', `/api/outwork/${ticket}`)).json()).toMatchObject({
      pieces: 9,
      comesTo: '36.00',
    });
  });

  it('is found by its number', async () => {
    expect((await studio.get('/find?q=W-0001')).text).toContain(`/bench/outwork/${ticket}`);
  });
});

const EDITED = () => ({
  work: 'Buttonholes by hand',
  pieces: '9',
  pieceRate: '4.00',
  outOn: addDays(today, -10),
  dueOn: '',
  notes: '',
});
