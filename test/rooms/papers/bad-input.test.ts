import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { clientBook } from '../../../src/storage/books/client-book.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { aCommission, furnishHouse } from '../quotes/a-commission.js';
import { layReady } from './invoices/an-invoice.js';
import { aClient, issued, pressed, wordsOf } from './payments/papers-of.js';

const HOUSE = { identity: { country: 'IE' } };
let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
  await furnishHouse(studio, HOUSE);
}, 60_000);
afterAll(() => studio.close());

/** A draft of one line, its client complete. @returns its address, without the `/api` */
const aDraft = async (line: object): Promise<{ url: string; findings: any[]; clientId: string }> => {
  const at = await aCommission(studio, [{ name: 'Hem', ownPrice: '24.00' }]);
  await studio.unit.write(studio.visit, async (writing) => {
    const client = await clientBook.one(writing, at.clientId);
    await clientBook.correct(writing, at.clientId, { ...client, country: 'IE' });
    writing.says('Completed the client', `client/${at.clientId}`);
  });
  const draft = await layReady(studio, at.url, { what: 'final' });
  const url = `${at.url}/invoices/drafts/${draft.id}`;
  const { findings } = await put(url, line);
  return { url, findings, clientId: at.clientId };
};
const put = async (url: string, line: object) => {
  const lines = [{ name: 'Hem', quantity: '1', price: '24.00', ...line }];
  const kept = await studio.api('PUT', `/api${url}`, { lines });
  expect(kept.status, kept.text).toBe(200);
  return kept.json();
};
const codesOf = (findings: any[]): string[] => findings.map(({ code }) => code);
const textOf = (html: string): string => wordsOf(html.replace(/<head>.*<\/head>/s, ''));

describe('amounts', () => {
  // Number.MAX_SAFE_INTEGER (ECMAScript 2025, 21.1.2.8) is 9007199254740991: so many minor units are kept exactly.
  const largest = { quantity: '1000', price: '90071992547.40991', category: 'Z', rate: '0' };

  it('one beyond the largest that is kept exactly are told on the draft and its check, and are not issued', async () => {
    const { url, findings } = await aDraft({ ...largest, price: '90071992547.40992' });
    const [told] = findings.filter(({ blocks }) => blocks);
    expect(told.text).toContain('too large');
    for (const page of [url, `${url}/check`]) {
      const { status, text } = await studio.get(page);
      expect([page, status]).toEqual([page, 200]);
      if (page !== url) expect(textOf(text)).toContain('too large');
    }
    const refused = await studio.api('POST', `/api${url}/issue`, { confirmed: codesOf(findings) });
    expect(refused.status).toBe(422);
    expect((await studio.api('GET', `/api${url}`)).json().choices.lines[0].price).toBe('90071992547.40992');
  });

  it('of more than twelve figures are told and not issued, for no payment of them could be put down', async () => {
    for (const line of [largest, { ...largest, price: '1000000000' }]) {
      const { url, findings } = await aDraft(line);
      expect(codesOf(findings.filter(({ blocks }) => blocks))).toEqual(['too-large']);
      expect(textOf((await studio.get(`${url}/check`)).text)).toContain('at most 12 figures');
      const refused = await studio.api('POST', `/api${url}/issue`, { confirmed: codesOf(findings) });
      expect(refused.status).toBe(422);
    }
  });

  it('of twelve figures go through draft, check and issue to the minor unit, and Papers still adds up', async () => {
    const { url, findings, clientId } = await aDraft({ ...largest, price: '999999999.99999' });
    expect(findings.filter(({ blocks }) => blocks)).toEqual([]);
    expect(textOf((await studio.get(`${url}/check`)).text)).toContain('€999,999,999,999.99');
    const made = await studio.api('POST', `/api${url}/issue`, { confirmed: codesOf(findings) });
    expect([made.status, made.json().total], made.text).toEqual([201, '999999999999.99']);
    const account = await studio.api('GET', `/api/clients/${clientId}/account`);
    expect(account.json().balance).toBe('999999999999.99');
    expect((await studio.get('/papers/owed')).status).toBe(200);
  });
});

describe('a tax rate moved between draft and issue', () => {
  it.each([21, 25])(
    'to %s is asked about on the check page, and issued as agreed only after a yes',
    async (rate) => {
      const { url } = await aDraft({ category: 'S', rate: '23' });
      await furnishHouse(studio, { ...HOUSE, tax: { rate: new Decimal(rate) } });
      const check = textOf((await studio.get(`${url}/check`)).text);
      expect(check).toContain(`Hem has 23 %, the house has ${rate} % now.`);
      const { findings } = (await studio.api('GET', `/api${url}`)).json();
      const others = codesOf(findings).filter((code) => code !== 'tax-moved');
      expect((await studio.api('POST', `/api${url}/issue`, { confirmed: others })).status).toBe(422);
      const made = await studio.api('POST', `/api${url}/issue`, { confirmed: codesOf(findings) });
      expect([made.status, made.json().tax, made.json().total]).toEqual([201, '5.52', '29.52']);
      await furnishHouse(studio, HOUSE);
    },
  );

  it('and back again is not asked about', async () => {
    const { url } = await aDraft({ category: 'S', rate: '23' });
    await furnishHouse(studio, { ...HOUSE, tax: { rate: new Decimal(25) } });
    await furnishHouse(studio, HOUSE);
    expect(codesOf((await studio.api('GET', `/api${url}`)).json().findings)).not.toContain('tax-moved');
  });
});

describe('addresses in words', () => {
  it('are printed as they were typed and lead nowhere', async () => {
    const words = 'See file:///etc/hostname and http://x.example/a.png <img src="http://x.example/a.png">';
    const { url } = await aDraft({ description: words });
    const preview = await studio.get(`${url}/preview`);
    expect(preview.text).not.toContain('<img src="http');
    expect(preview.text).not.toMatch(/(href|src)="(file|http):/);
    expect(textOf(preview.text)).toContain('file:///etc/hostname');
  });
});

describe('the bookkeeper’s table', () => {
  it('makes no formula of a client’s name, however it begins', async () => {
    const names = ['=1+1', '+353 1', '-2+3', '@SUM(1)'];
    for (const [place, name] of names.entries())
      await issued(studio, await aClient(studio, name), `F-${place}`, '10.00', { issuedOn: '2025-07-01' });
    const raw = ['\tTab', '\rReturn'];
    for (const [place, name] of raw.entries())
      await issued(studio, await aClient(studio, name), `G-${place}`, '10.00', { issuedOn: '2025-07-01' });
    for (const table of ['papers', 'payments']) {
      const { status, text } = await studio.get(
        `/papers/bookkeeping/table.csv?table=${table}&from=2025-07-01&to=2025-07-31`,
      );
      expect(status).toBe(200);
      expect(text).not.toMatch(/(^|[,;\n])"?[=+@\t\r](?!\n)/);
      expect(text).not.toMatch(/(^|[,;\n])"?-(?!\d+(\.\d+)?"?[,;\r])/);
      if (table === 'papers') for (const name of names) expect(text).toContain(`'${name}`);
    }
  });
});

describe('a bookkeeper', () => {
  let cookie: string;
  beforeAll(async () => {
    const added = await studio.post('/house/people', {
      name: 'Tamsin Orrery',
      role: 'bookkeeper',
      passphrase: '',
    });
    const id = String(added.headers.location).split('/').at(-1)?.split('?')[0] ?? '';
    const { text } = await studio.post(`/house/people/${id}/phones`, {});
    const code = /<code class="secret">([A-Z0-9-]+)<\/code>/.exec(text)?.[1] ?? '';
    const paired = await studio.post('/pair', { code, phone: 'the office' }, { cookie: '' });
    cookie = String(paired.headers['set-cookie'] ?? '').split(';')[0] ?? '';
  });

  it.each([
    ['/papers', 200],
    ['/papers/owed', 200],
    ['/papers/payments', 200],
    ['/papers/bookkeeping', 200],
    ['/clients', 200],
    ['/rates', 200],
    ['/api/papers/owed', 200],
    ['/', 403],
    ['/house', 403],
    ['/house/people', 403],
    ['/lessons', 403],
    ['/history', 403],
    ['/papers/../house', 403],
    ['/papers/%2e%2e/house', 403],
  ] as const)('asking for %s is answered %i', async (url, status) => {
    expect((await studio.get(url, { cookie })).status).toBe(status);
  });

  it('takes payments and issues invoices, and changes neither rates, quotes, clients nor the house', async () => {
    const { url, clientId, findings } = await aDraft({ category: 'S', rate: '23' });
    const may = (at: string, fields: Record<string, string> = {}) =>
      studio.post(at, { once: randomUUID(), ...fields }, { cookie });
    const commission = url.split('/invoices')[0];
    const yes = Object.fromEntries(codesOf(findings).map((code) => [`confirm.${code}`, 'yes']));
    expect((await may(`${url}/issue`, { ...yes, version: '2' })).status).toBe(303);
    const paid = { on: '2026-03-02', amount: '5', how: 'coin' };
    expect((await may(`/papers/payments/new?client=${clientId}`, paid)).status).toBe(303);
    for (const closed of [
      '/house/people',
      '/rates/hour',
      '/clients',
      `/clients/${clientId}`,
      `${commission}/quotes`,
    ])
      expect([closed, (await may(closed)).status]).toEqual([closed, 403]);
    const refund = await pressed(studio, `/papers/payments/new?client=${clientId}`, paid);
    expect((await studio.get(refund, { cookie })).status).toBe(200);
  });
});
