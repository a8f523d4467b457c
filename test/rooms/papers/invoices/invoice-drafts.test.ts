import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Decimal } from '../../../../src/domain/kernel/decimal.js';
import { studioBook } from '../../../../src/storage/books/studio-book.js';
import { openTestStudio, type TestStudio } from '../../../support/studio.js';
import { furnishHouse, setRates } from '../../quotes/a-commission.js';
import { acceptedCommission, layReady, once } from './an-invoice.js';

const HOUSE = { identity: { country: 'IE' } };
let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
  await furnishHouse(studio, HOUSE);
  await setRates(studio, '30.00');
}, 60_000);
afterAll(() => studio.close());

const minor = (text: string): number => Math.trunc(Number(text.replace('.', '')));
const textOf = (html: string): string => html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ');

describe('a draft', () => {
  it('is edited in the form: a courtesy at nil price, wrong figures kept, two people told', async () => {
    const at = await acceptedCommission(studio, [{ name: 'Cape' }], { client: 'Berit Sandglass' });
    await studio.post(`${at.url}/invoices`, once({ what: 'final' }));
    const { drafts } = (await studio.api('GET', `/api${at.url}/invoices`)).json();
    const url = `${at.url}/invoices/drafts/${drafts[0].id}`;
    const page = await studio.get(url);
    expect(page.status).toBe(200);
    const fields: Record<string, string> = Object.fromEntries(
      [...page.text.matchAll(/name="(lines\.\d+\.[a-z]+)"[^>]*value="([^"]*)"/g)].map(([, n, v]) => [n!, v!]),
    );
    const changes = {
      ...fields,
      'lines.0.unit': 'piece',
      'lines.1.name': 'Hem let down (with our compliments)',
      'lines.1.quantity': '1',
      'lines.1.unit': 'piece',
      'lines.1.price': '0',
      deducts: 'nothing',
      credits: 'whole',
      supplied: '2026-03-02',
      version: '1',
    };
    const wrong = await studio.post(url, once({ ...changes, 'lines.0.price': 'twelve' }));
    expect(wrong.status).toBe(422);
    expect(wrong.text).toContain('value="twelve"');
    const kept = await studio.post(url, once({ ...changes, ...Object.fromEntries([['then', 'check']]) }));
    expect(kept.status, textOf(kept.text).slice(0, 800)).toBe(303);
    expect(kept.headers.location).toContain('/check');
    const stale = await studio.post(url, once({ ...changes, note: 'Later' }));
    expect(stale.status).toBe(409);
    const told = (await studio.api('GET', `/api${url}`)).json();
    expect(told.choices.lines[1]).toMatchObject({ price: '0', name: 'Hem let down (with our compliments)' });
    const preview = await studio.get(`${url}/preview`);
    expect(textOf(preview.text)).toContain('Hem let down (with our compliments)');
  });

  it('of a deposit is offered by the accepted quote', async () => {
    const at = await acceptedCommission(studio, [{ name: 'Cape' }], { client: 'Tamsin Orrery' });
    const { items } = (await studio.api('GET', `/api${at.url}/quotes`)).json();
    const quote = `/papers/${items[0].id}`;
    const { text } = await studio.get(quote);
    expect(text).toContain(`href="${at.url}/invoices#deposit"`);
    expect((await studio.get(`${at.url}/invoices`)).text).toContain('id="deposit"');
  });

  it('leads from what is missing to where it is mended, and back to its check', async () => {
    const at = await acceptedCommission(studio, [{ name: 'Spencer' }], { client: 'Berit Sandglass' });
    const { id } = await layReady(studio, at.url, { what: 'final' });
    const check = `${at.url}/invoices/drafts/${id}/check`;
    const house = await studio.get(`/house?mending=${encodeURIComponent(check)}`);
    expect(house.text).toContain(`href="${check}"`);
    expect(house.text).toContain('href="/pair"');
    const [set] = [house.headers['set-cookie']].flat();
    expect(set).toMatch(/^mending=.*HttpOnly/);
    const seen = await studio.get(check);
    expect(seen.text).not.toContain('Back to the draft that waits');
  });

  it('carries the day a garment was handed over as the day of delivery, and none while one is still here', async () => {
    const at = await acceptedCommission(studio, [{ name: 'Cape' }, { name: 'Hood' }], {
      client: 'Iolo Merrivane',
    });
    const gone = { on: '2026-03-02', receivedBy: 'Iolo Merrivane' };
    expect((await studio.api('POST', `/api/garments/${at.garments[0]}/hand-over`, gone)).status).toBe(201);
    const part = await layReady(studio, at.url, { what: 'part', garments: [at.garments[0]] });
    expect(part.choices.supplied).toBe('2026-03-02');
    expect(part.findings.map(({ code }: { code: string }) => code)).not.toContain('supply-date');
    const both = await layReady(studio, at.url, { what: 'part', garments: at.garments });
    expect(both.choices.supplied).toBe('');
    expect(both.findings.map(({ code }: { code: string }) => code)).toContain('supply-date');
  });

  it('refuses a discount larger than the price and a line that was not laid ready, and still opens', async () => {
    const at = await acceptedCommission(studio, [{ name: 'Vest' }], { client: 'Wren Halloway' });
    const draft = await layReady(studio, at.url, { what: 'final' });
    const url = `/api${at.url}/invoices/drafts/${draft.id}`;
    const { lines } = draft.choices;
    const large = await studio.api('PUT', url, { lines, discount: '999999.00' });
    expect(large.status).toBe(200);
    const finding = large.json().findings.find((one: any) => one.field === 'discount');
    expect(finding).toMatchObject({
      blocks: true,
      text: 'The discount is larger than the price it is taken from.',
    });
    const odd = await studio.api('PUT', url, { lines: [{ ...lines[0], ref: 'somebody else’s' }] });
    expect(odd.status).toBe(422);
    const none = await studio.api('PUT', url, { lines: [] });
    expect(none.json().findings.map((one: any) => one.code)).toContain('BR-16');
    const huge = await studio.api('PUT', url, {
      lines: [{ name: 'Too much', quantity: '1000000', price: '999999999999' }],
    });
    expect(huge.status).toBe(200);
    expect(huge.json().findings.some((one: any) => one.text.includes('too large'))).toBe(true);
  });

  it('asks when the house’s tax moved between draft and issue', async () => {
    const at = await acceptedCommission(studio, [{ name: 'Coat' }], { client: 'Ansel Marrow' });
    const draft = await layReady(studio, at.url, { what: 'final' });
    await furnishHouse(studio, { ...HOUSE, tax: { rate: new Decimal(21) } });
    const told = (await studio.api('GET', `/api${at.url}/invoices/drafts/${draft.id}`)).json();
    expect(told.findings.map((one: any) => one.code)).toContain('tax-moved');
    await furnishHouse(studio, HOUSE);
  });
});

describe('a house that takes deposits as payments on account', () => {
  it('asks for no deposit by invoice, and takes what came in off the last one', async () => {
    const take = (treatment: 'payment-on-account' | 'tax-due-on-deposits') =>
      studio.unit.write(studio.visit, async (writing) => {
        const house = await studioBook.the(writing);
        await studioBook.correct(writing, { ...house, papers: { ...house.papers, treatment } });
        writing.says('Said how deposits are taken', 'house');
      });
    await take('payment-on-account');
    const at = await acceptedCommission(studio, [{ name: 'Mantle' }], { client: 'Isolde Tarrant' });
    const refused = await studio.api('POST', `/api${at.url}/invoices/drafts`, { what: 'deposit' });
    expect(refused.status).toBe(409);
    expect(refused.json().detail).toContain('payments on account');
    const page = await studio.get(`${at.url}/invoices`);
    expect(page.text).not.toContain('Lay a deposit invoice ready');
    const paid = await studio.api('POST', '/api/payments', {
      clientId: at.clientId,
      commissionId: at.id,
      on: '2026-03-02',
      amount: '100.00',
      how: 'bank transfer',
      parts: [],
    });
    expect(paid.status, paid.text).toBe(201);
    const draft = await layReady(studio, at.url, { what: 'final' });
    expect(draft.choices.prepaid).toBe('100.00');
    expect(minor(draft.payable)).toBe(minor(draft.total) - 10_000);
    await take('tax-due-on-deposits');
  });
});
