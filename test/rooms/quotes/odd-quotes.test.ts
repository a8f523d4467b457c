import { randomUUID } from 'node:crypto';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { Money } from '../../../src/domain/kernel/money.js';
import { readPdf } from '../../printing/papers/read-pdf.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { aCommission, beginQuote, bytesOf, furnishHouse, issueQuote, setRates } from './a-commission.js';

let studio: TestStudio;
beforeEach(async () => {
  studio = await openTestStudio();
});
afterEach(() => studio.close());

const words = async (paper: string): Promise<string> => {
  const { pages } = await readPdf(await bytesOf(studio, `${paper}.pdf`));
  return pages.join('\n').replace(/\s+/g, ' ');
};
const quoted = async (
  garments: Parameters<typeof aCommission>[1],
  said: Parameters<typeof aCommission>[2] = {},
): Promise<string> =>
  issueQuote(studio, await beginQuote(studio, (await aCommission(studio, garments, said)).url));

describe('currencies', () => {
  it.each([
    ['JPY', '4000', '120000', /Total to pay, in JPY 132,000/],
    ['KWD', '12.500', '100.125', /Total to pay, in KWD 110\.138/],
  ])('%s has its own decimals on the paper', async (currency, rate, ownPrice, total) => {
    await furnishHouse(studio, { identity: { currency }, tax: { rate: new Decimal(10) } });
    await setRates(studio, rate, currency);
    const paper = await quoted([{ name: 'Jacket', ownPrice }], { currency, discount: '0' });
    expect(await words(paper)).toMatch(total);
  });
});

describe('tax', () => {
  it('is explained, not charged, where the house is not registered', async () => {
    await furnishHouse(studio, { tax: { registered: false, taxNumber: '', reason: '' } });
    await setRates(studio, '30.00');
    const text = await words(await quoted([{ name: 'Jacket', ownPrice: '1000.00' }]));
    expect(text).toContain('Exempt from tax');
    expect(text).toContain('Not registered for tax; no tax is charged.');
    expect(text).toMatch(/Total to pay, in EUR 1,000\.00/);
  });

  it('of 100 % doubles the price; of 0 % under the standard rate must be mended first', async () => {
    await furnishHouse(studio, { tax: { rate: new Decimal(100) } });
    await setRates(studio, '30.00');
    const { url } = await aCommission(studio, [{ name: 'Jacket', ownPrice: '1000.00' }]);
    const draft = await beginQuote(studio, url);
    expect(await words(await issueQuote(studio, draft))).toMatch(/Total to pay, in EUR 2,000\.00/);
    await furnishHouse(studio, { tax: { rate: new Decimal(0) } });
    const nought = await beginQuote(studio, url);
    const check = await studio.get(`${nought}/check`);
    expect(check.text).toContain('The standard rate cannot be 0');
    expect(check.text).not.toContain('Issue the quote');
    const forced = await studio.post(`${nought}/issue`, { once: randomUUID(), 'confirm.BR-S-05': 'yes' });
    expect(forced.status).toBe(422);
    await furnishHouse(studio, { tax: { category: 'Z', rate: new Decimal(0) } });
    expect(await words(await issueQuote(studio, nought))).toMatch(
      /Zero rate.*Total to pay, in EUR 1,000\.00/,
    );
  });

  it('inside the prices is kept to the cent, and said where a cent went', async () => {
    await furnishHouse(studio, { tax: { rate: new Decimal(21), pricesInclude: 'tax' } });
    await setRates(studio, '30.00');
    const text = await words(await quoted([{ name: 'Jacket', ownPrice: '826.45' }]));
    expect(text).toContain('EURO, TAX INCLUDED');
    expect(text).toMatch(/Jacket.*1,000\.00/);
    expect(text).toMatch(/Total to pay, in EUR 1,000\.00/);
  });
});

describe('what wants a look', () => {
  it('is a price of 0.00, which goes out only when somebody says that it is right', async () => {
    await furnishHouse(studio);
    await setRates(studio, '30.00');
    const { url } = await aCommission(studio, [{ name: 'Mending', ownPrice: '0.00' }]);
    const draft = await beginQuote(studio, url);
    expect((await studio.get(`${draft}/check`)).text).toContain('Mending is offered at 0.00. That is right.');
    const unasked = await studio.post(`${draft}/issue`, { once: randomUUID(), version: '1' });
    expect(unasked.status).toBe(422);
    expect((await studio.api('GET', '/api/papers')).json().items).toEqual([]);
    expect(await words(await issueQuote(studio, draft))).toMatch(/Total to pay, in EUR 0\.00/);
  });

  it('and what is missing leads to where it is mended', async () => {
    await furnishHouse(studio, { identity: { address: '' }, quotes: { terms: '' } });
    const { url, garments } = await aCommission(studio, [{ name: 'Jacket' }]);
    const draft = await beginQuote(studio, url);
    const { text } = await studio.get(`${draft}/check`);
    expect(text).toContain('The address of the house is missing. <a href="/house');
    expect(text).toContain('does not know yet what an hour costs. <a href="/rates?mending');
    expect(text).toContain(`/garments/${garments[0]}?mending`);
    expect(text).toContain('The quote carries no terms');
    expect(text).not.toContain('Issue the quote');
    const { findings } = (await studio.api('GET', `/api${draft}`)).json();
    const refused = await studio.api('POST', `/api${draft}/issue`, {
      confirmed: findings.map(({ code }: { code: string }) => code),
    });
    expect(refused.status).toBe(422);
    expect(refused.json().code).toBe('not-ready');
  });
});

describe('the paper', () => {
  it('shows hours only when they are switched on, and never cost or margin', async () => {
    await furnishHouse(studio);
    await setRates(studio, '30.00');
    const { url } = await aCommission(studio);
    const draft = await beginQuote(studio, url);
    const { choices } = (await studio.api('GET', `/api${draft}`)).json();
    const kept = await studio.api('PUT', `/api${draft}`, {
      ...choices,
      kind: 'time',
      hourPrice: '45.00',
      showHours: true,
    });
    expect(kept.status, kept.text).toBe(200);
    const text = await words(await issueQuote(studio, draft));
    expect(text).toMatch(/THE HOURS.*Jacket \d+ h/);
    expect(text).toContain('An hour is €45.00 before tax');
    expect(text).toContain('Expected total, in EUR');
    expect(text).not.toMatch(/margin|markup|profit|certainty|chance/i);
  });

  it('takes twelve garments, and any words as words', async () => {
    const hostile = '<b>x</b><script>1</script>{{number}}';
    await furnishHouse(studio, {
      identity: { name: `House ${hostile}` },
      quotes: { terms: hostile, exclusions: hostile, clothWording: hostile },
    });
    await setRates(studio, '30.00');
    const twelve = Array.from({ length: 12 }, (_, place) => ({
      name: `Cape ${place + 1} ${hostile}`,
      shown: hostile,
      minutes: 100 * (place + 1),
    }));
    const paper = await quoted(twelve, { client: `Client ${hostile}`, title: `Title ${hostile}` });
    const text = (await words(paper)).replace(/\s/g, '');
    expect(text).toContain(`Cape12${hostile}`);
    expect(text).toContain('Twelvegarments');
    expect(text.split(hostile).length).toBeGreaterThan(30);
    const page = await studio.get(paper);
    expect(page.text).not.toContain('<script>1');
    const told = (await studio.api('GET', `/api${paper}`)).json();
    const parts = told.document.sheet.deposit.shares.map(({ amount }: { amount: string }) =>
      Money.parse(amount.replace(/,/g, ''), 'EUR'),
    );
    const sum = Money.sum(parts, 'EUR');
    expect(sum.toString()).toBe(told.document.sheet.deposit.amount.replace(/,/g, ''));
  });
});

describe('a draft', () => {
  it('keeps what was typed when something is wrong, and shows both versions to two people', async () => {
    await furnishHouse(studio);
    await setRates(studio, '30.00');
    const { url, garments } = await aCommission(studio);
    const draft = await beginQuote(studio, url);
    const fields = {
      'garments.0.garmentId': garments[0]!,
      'garments.0.included': 'yes',
      'garments.0.fittings': '3',
      kind: 'fixed',
      depositRule: 'share',
      depositShare: '33.5',
      validUntil: '2026-04-15',
    };
    const post = (changes: Record<string, string>) =>
      studio.post(draft, { once: randomUUID(), version: '1', ...fields, ...changes });
    const wrong = await post({
      'options.0.text': 'Second waistcoat',
      'options.0.price': '1e308',
      validUntil: '2026-02-30',
      depositShare: '120',
      'garments.0.fittings': '-1',
      terms: '<i>kept</i>',
    });
    expect(wrong.status).toBe(422);
    expect(wrong.text).toContain('<title>Error:');
    expect(wrong.text).toContain('1e308');
    expect(wrong.text).toContain('&lt;i&gt;kept&lt;/i&gt;');
    expect(wrong.text).toContain('Write a percentage from 0 to 100');
    expect((await post({ 'garments.0.included': '' })).text).toContain('Choose at least one garment.');
    expect((await post({})).status).toBe(303);
    const late = await post({ opening: 'Another hand' });
    expect(late.status).toBe(409);
    expect(late.text).toContain('Somebody changed this meanwhile');
    expect(late.text).toContain('Another hand');
    const put = await studio.post(`${draft}/remove`, { once: randomUUID() });
    expect(put.status).toBe(303);
    const act = new URL(String(put.headers.location), 'http://x').searchParams.get('done');
    expect((await studio.get(draft)).status).toBe(404);
    await studio.post(`/history/${act}/undo`, { once: randomUUID(), back: '/' });
    expect((await studio.get(draft)).status).toBe(200);
  });

  it('opens also when its deposit or discount has outgrown the price, and does not go out so', async () => {
    await furnishHouse(studio);
    await setRates(studio, '30.00');
    const { url, id } = await aCommission(studio, [{ name: 'Jacket', ownPrice: '1000.00' }], {
      discount: '1500.00',
    });
    const draft = await beginQuote(studio, url);
    const { choices } = (await studio.api('GET', `/api${draft}`)).json();
    const large = { ...choices, depositRule: 'amount', depositAmount: '99999.00' };
    expect((await studio.api('PUT', `/api${draft}`, large)).status).toBe(200);
    expect((await studio.get(draft)).status).toBe(200);
    const { text } = await studio.get(`${draft}/check`);
    expect(text).toContain('A deposit lies between nothing and the whole price');
    expect(text).toContain('The discount is larger than the price');
    expect(text).toContain(`href="/commissions/${id}/pricing?mending`);
    expect(text).not.toContain('Issue the quote');
  });

  it('is not begun without a garment, and refuses what it does not know by name', async () => {
    await furnishHouse(studio);
    const { id, url } = await aCommission(studio, []);
    expect((await studio.get(`${url}/quotes`)).text).toContain('has none yet');
    expect((await studio.post(`${url}/quotes`, { once: randomUUID() })).status).toBe(409);
    const odd = await studio.api('POST', `/api/commissions/${id}/quotes`, { colour: 'red' });
    expect(odd.status).toBe(422);
    expect(odd.json().errors).toContainEqual({
      pointer: '/colour',
      detail: 'There is no field “colour” here.',
    });
  });
});
