import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Decimal } from '../../../../src/domain/kernel/decimal.js';
import { clientBook } from '../../../../src/storage/books/client-book.js';
import { seriesBook } from '../../../../src/storage/books/series-book.js';
import { studioBook } from '../../../../src/storage/books/studio-book.js';
import { openTestStudio, type TestStudio } from '../../../support/studio.js';
import { aCommission, furnishHouse } from '../../quotes/a-commission.js';
import { issueDraft, layReady } from './an-invoice.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
  await furnishHouse(studio, { identity: { country: 'IE' }, tax: { rate: new Decimal(20) } });
  await studio.unit.write(studio.visit, async (writing) => {
    const house = await studioBook.the(writing);
    const papers = { ...house.papers, treatment: 'payment-on-account' as const };
    await studioBook.correct(writing, { ...house, papers });
    writing.says('Takes deposits on account', 'house');
  });
}, 60_000);
afterAll(() => studio.close());

/** Counter work of 100.00 before tax, 120.00 with it. */
const counterWork = async (client: string) => {
  const at = await aCommission(studio, [{ name: 'Hem', ownPrice: '100.00' }], { client });
  await studio.unit.write(studio.visit, async (writing) => {
    const kept = await clientBook.one(writing, at.clientId);
    await clientBook.correct(writing, at.clientId, { ...kept, country: 'IE' });
    writing.says('Gave the client a country', `client/${at.clientId}`);
  });
  return at;
};

const paid = async (clientId: string, amount: string, commissionId?: string): Promise<string> => {
  studio.clock.forward(1);
  const sent = { clientId, commissionId, on: '2026-03-02', amount, how: 'bank transfer', parts: [] };
  const answer = await studio.api('POST', '/api/payments', sent);
  expect(answer.status, answer.text).toBe(201);
  return answer.json().id;
};

const accountOf = async (clientId: string) =>
  (await studio.api('GET', `/api/clients/${clientId}/account`)).json();

describe('money held for a commission', () => {
  it('goes to the invoice that says it was paid before, in the act that issues it', async () => {
    const at = await counterWork('Corvin Haddlestone');
    const first = await paid(at.clientId, '30.00', at.id);
    await paid(at.clientId, '25.00');
    const draft = await layReady(studio, at.url, { what: 'final' });
    expect(draft.choices.prepaid).toBe('30.00');
    // 30 was put down for the commission, 25 for none: the draft says that there is more.
    expect(draft.findings).toContainEqual(expect.objectContaining({ code: 'held-more', blocks: false }));
    const url = `/api${at.url}/invoices/drafts/${draft.id}`;
    const put = await studio.api('PUT', url, { lines: draft.choices.lines, prepaid: '40.00' });
    expect(put.status, put.text).toBe(200);
    const paper = await issueDraft(studio, at.url, draft);
    expect([paper.total, paper.payable]).toEqual(['120.00', '80.00']);
    const account = await accountOf(at.clientId);
    expect(account.papers).toMatchObject([{ number: paper.number, paid: '40.00', open: '80.00' }]);
    expect([account.owed, account.credit, account.balance]).toEqual(['80.00', '15.00', '65.00']);
    const reversed = await studio.api('POST', `/api/payments/${first}/reversal`, { reason: 'it bounced' });
    expect(reversed.status).toBe(201);
    expect((await accountOf(at.clientId)).papers[0]).toMatchObject({ paid: '10.00', open: '110.00' });
  });

  it('never takes off what nobody holds, nor what is held for another commission', async () => {
    const at = await counterWork('Wren Halloway');
    const other = await aCommission(studio, [{ name: 'Cape', ownPrice: '10.00' }], {
      client: 'Ansel Marrow',
    });
    await paid(other.clientId, '90.00', other.id);
    const draft = await layReady(studio, at.url, { what: 'final' });
    const url = `/api${at.url}/invoices/drafts/${draft.id}`;
    const told = (await studio.api('PUT', url, { lines: draft.choices.lines, prepaid: '50.00' })).json();
    const finding = told.findings.find((one: any) => one.code === 'prepaid-not-held');
    expect(finding).toMatchObject({ blocks: true, field: 'prepaid' });
    expect(finding.text).toContain('takes off EUR 50.00 as paid before, and nothing is held');
    const refused = await studio.api('POST', `${url}/issue`, {
      confirmed: told.findings.map((one: any) => one.code),
    });
    expect(refused.status).toBe(422);
    expect(await seriesBook.last(studio.read, 'invoice/2026')).toBe(1);
  });

  it('of more than the paper comes to leaves the rest with the client', async () => {
    const at = await counterWork('Isolde Tarrant');
    await paid(at.clientId, '150.00', at.id);
    const draft = await layReady(studio, at.url, { what: 'final' });
    const tooMuch = draft.findings.find((one: any) => one.code === 'amount-due-negative');
    expect(tooMuch.text).toContain('Take off at most 120.00; what is over stays with the client.');
    const url = `/api${at.url}/invoices/drafts/${draft.id}`;
    await studio.api('PUT', url, { lines: draft.choices.lines, prepaid: '120.00' });
    const paper = await issueDraft(studio, at.url, draft);
    expect([paper.total, paper.payable]).toEqual(['120.00', '0.00']);
    const account = await accountOf(at.clientId);
    expect([account.papers[0].open, account.credit, account.balance]).toEqual(['0.00', '30.00', '-30.00']);
  });
});
