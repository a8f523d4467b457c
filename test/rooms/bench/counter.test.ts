import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addDays } from '../../../src/domain/kernel/calendar-date.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { wordsOf } from './a-bench.js';

let studio: TestStudio;
let maker: string;
let hem: string;
let url: string;
let today: string;
const HERE = '/bench/counter';
const post = (at: string, fields: Record<string, string> = {}, headers = {}) =>
  studio.post(at, { once: randomUUID(), ...fields }, headers);
const came = (over: Record<string, string> = {}) => ({
  name: 'Sabeline Thrushwood',
  reachedAt: '555 0187',
  what: 'Grey flannel <b>trousers</b>',
  found: 'A rust mark {{left}} knee',
  cameOn: addDays(today, -20),
  readyBy: addDays(today, -12),
  notes: '',
  'lines.0.fromList': hem,
  'lines.0.job': '',
  'lines.0.price': '',
  'lines.2.fromList': '',
  'lines.2.job': 'Waist button',
  'lines.2.price': '2.50',
  ...over,
});

beforeAll(async () => {
  studio = await openTestStudio();
  today = studio.clock.now().slice(0, 10);
  const line = { sort: 'counter', name: 'Hem by hand', hours: '0.4', ownPrice: '18.00' };
  hem = (await studio.api('POST', '/api/rates/price-list', line)).json().id;
  const passphrase = 'four other plain words';
  await post('/house/people', { name: 'Wilmot Larkspur', role: 'maker', passphrase });
  const signed = await studio.post('/sign-in', { name: 'Wilmot Larkspur', passphrase }, { cookie: '' });
  maker = String(signed.headers['set-cookie'] ?? '').split(';')[0] ?? '';
});
afterAll(() => studio.close());

describe('counter work', () => {
  it('comes in once with a number of its own, priced by the list or by hand', async () => {
    expect((await studio.get('/')).text).not.toContain('Error');
    expect((await studio.get(HERE)).text).toContain('Take the first piece in');
    expect((await studio.get(`${HERE}/new`)).text).toContain('Hem by hand (€18.00)');
    const fields = { once: randomUUID(), ...came() };
    const taken = await studio.post(HERE, fields);
    expect(taken.status, wordsOf(taken.text)).toBe(303);
    await studio.post(HERE, fields);
    url = String(taken.headers.location).split('?')[0]!;
    const { items } = (await studio.api('GET', '/api/counter')).json();
    expect(items).toMatchObject([
      {
        number: 'T-0001',
        state: 'late',
        comesTo: '20.50',
        lines: [
          { job: 'Hem by hand', price: '18.00' },
          { job: 'Waist button', price: '2.50' },
        ],
      },
    ]);
    const { text } = await studio.get(url);
    expect(text).toContain('&lt;b&gt;trousers&lt;/b&gt;');
    expect(text).toContain('A rust mark {{left}} knee');
    expect((await studio.get('/find?q=T-0001')).text).toContain(url);
  });

  it.each([
    ['name', ''],
    ['what', 'x'.repeat(500)],
    ['cameOn', '2199-01-01'],
    ['readyBy', '2001-01-01'],
    ['lines.0.price', '-1'],
    ['lines.0.price', '1e308'],
    ['lines.0.fromList', 'no-such'],
  ])('refuses %s of “%s” beside the field', async (field, typed) => {
    const answer = await post(HERE, came({ notes: 'kept words', [field]: typed }));
    expect(answer.status).toBe(422);
    expect(answer.text).toContain(`href="#field-${field}"`);
    expect(answer.text).toContain('kept words');
  });

  it('needs a job, and a price for what is on no list', async () => {
    const jobless = await post(
      HERE,
      came({ 'lines.0.fromList': '', 'lines.2.job': '', 'lines.2.price': '' }),
    );
    expect(jobless.status).toBe(422);
    expect(jobless.text).toContain('Write down at least one job.');
    const priceless = await post(HERE, came({ 'lines.2.price': '' }));
    expect(priceless.status).toBe(422);
    expect(priceless.text).toContain('href="#field-lines.1.price"');
  });

  it('shows a maker the work and no money, and lets a maker take work in', async () => {
    const as = { cookie: maker };
    for (const at of [HERE, url, `${HERE}/new`, `${url}/edit`]) {
      const { status, text } = await studio.get(at, as);
      expect(status, at).toBe(200);
      expect(text, at).not.toMatch(/18\.00|20\.50|2\.50|€|EUR|555 0187(?!")/);
    }
    const plain = {
      name: 'Ambrose Tallowby',
      reachedAt: '',
      what: 'Waistcoat',
      found: '',
      notes: '',
      readyBy: '',
    };
    const jobs = {
      'lines.0.fromList': hem,
      'lines.0.job': '',
      'lines.1.fromList': '',
      'lines.1.job': 'Darn the pocket',
    };
    expect((await post(HERE, { ...plain, ...jobs, cameOn: today, 'lines.0.price': '1' }, as)).status).toBe(
      422,
    );
    const taken = await post(HERE, { ...plain, ...jobs, cameOn: today }, as);
    expect(taken.status, wordsOf(taken.text)).toBe(303);
    const at = String(taken.headers.location).split('?')[0]!;
    const id = at.split('/').at(-1)!;
    const told = (await studio.api('GET', `/api/counter/${id}`)).json();
    expect([told.comesTo, told.withoutPrice]).toEqual(['18.00', 1]);
    // A maker's correction keeps the prices that stand.
    expect(
      (await post(`${at}/edit`, { ...plain, what: 'Old waistcoat', cameOn: today, version: '1' }, as)).status,
    ).toBe(303);
    expect((await studio.api('GET', `/api/counter/${id}`)).json()).toMatchObject({
      what: 'Old waistcoat',
      comesTo: '18.00',
    });
    expect((await post(`${at}/edit`, { ...plain, cameOn: today, version: '1' }, as)).status).toBe(409);
  });

  it('is ready, waits with its days in words, and is collected by somebody', async () => {
    const early = await post(`${url}/ready`, { readyOn: addDays(today, 1), version: '1' });
    expect(early.status).toBe(422);
    expect(early.text).toContain('href="#field-readyOn"');
    expect((await post(`${url}/ready`, { readyOn: addDays(today, -11), version: '1' })).status).toBe(303);
    expect((await post(`${url}/ready`, { readyOn: today, version: '2' })).status).toBe(409);
    const page = wordsOf((await studio.get(HERE)).text);
    expect(page).toContain('One piece is ready and not collected.');
    expect(page).toContain('ready for 11 days, not collected');
    expect(page).toContain('needs notice');
    const here = (await studio.api('GET', '/api/counter?state=here')).json().items;
    expect(here.map(({ daysWaiting }: { daysWaiting: number }) => daysWaiting)).toEqual([11, 0]);
    expect(
      (await post(`${url}/collected`, { collectedOn: today, collectedBy: '', version: '2' })).status,
    ).toBe(422);
    const gone = await post(`${url}/collected`, {
      collectedOn: today,
      collectedBy: 'her brother',
      version: '2',
    });
    expect(gone.status).toBe(303);
    expect((await post(`${url}/collected`, { collectedOn: today, collectedBy: 'x' })).status).toBe(409);
    expect(wordsOf((await studio.get(HERE)).text)).toContain('collected by her brother');
    const act = new URL(String(gone.headers.location), 'http://x').searchParams.get('done');
    await post(`/history/${act}/undo`, { back: url });
    expect((await studio.api('GET', `/api${url.replace('/bench', '')}`)).json().state).toBe('ready');
  });

  it('is kept by programs too', async () => {
    const body = { name: 'Ambrose Tallowby', what: 'Gloves', cameOn: today, lines: [{ fromList: hem }] };
    const made = await studio.api('POST', '/api/counter', body);
    expect(made.status, made.text).toBe(201);
    const at = String(made.headers.location);
    const put = { ...body, lines: [{ job: 'Mend a seam', price: '0.00' }] };
    expect((await studio.api('PUT', at, put, { 'if-match': '"1"' })).json().comesTo).toBe('0.00');
    expect((await studio.api('PUT', at, put, { 'if-match': '"1"' })).status).toBe(412);
    expect((await studio.api('POST', '/api/counter', { ...body, lines: [] })).status).toBe(422);
    const collected = { collectedOn: today, collectedBy: 'himself' };
    expect((await studio.api('POST', `${at}/collected`, collected)).json()).toMatchObject({
      state: 'collected',
      readyOn: today,
    });
  });
});
