import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Money } from '../../../../src/domain/kernel/money.js';
import { commissionBook } from '../../../../src/storage/books/commission-book.js';
import { openTestStudio, type TestStudio } from '../../../support/studio.js';
import { openCommission } from '../../commissions/an-opening.js';
import { furnishHouse } from '../../quotes/a-commission.js';
import { aClient, issued, pressed, wordsOf } from './papers-of.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
  await furnishHouse(studio);
});
afterAll(() => studio.close());

describe('deposits held', () => {
  it('are what was paid ahead until the garments are handed over, and stand on the first page of Papers', async () => {
    const url = await openCommission(studio);
    const commissionId = url.split('/').at(-1)!;
    const { clientId } = await commissionBook.one(studio.read, commissionId);
    await issued(studio, clientId, 'D-2026-001', '300.00', { kind: 'deposit-invoice', commissionId });
    await pressed(studio, `/papers/payments/new?client=${clientId}`, {
      on: '2026-03-01',
      amount: '300',
      how: 'coin',
    });
    await pressed(studio, `/papers/payments/new?client=${clientId}`, {
      on: '2026-03-01',
      amount: '40',
      how: 'coin',
      commission: commissionId,
    });
    const account = (await studio.api('GET', `/api/clients/${clientId}/account`)).json();
    expect([account.depositsHeld, account.credit, account.balance]).toEqual(['340.00', '40.00', '-40.00']);
    expect(account.commissions).toContainEqual({ commissionId, balance: '-40.00' });
    const page = wordsOf((await studio.get('/papers')).text);
    expect(page).toContain('Deposits held for garments not handed over €340.00');
    const sum = (await studio.api('GET', '/api/papers/owed')).json();
    expect(Money.parse(sum.held.deposits, 'EUR').minor).toBe(34_000);
  });
});

describe('tables for the bookkeeper', () => {
  it('hold every paper and payment of the period, signed so that columns add up, formulas harmless', async () => {
    const client = await aClient(studio, '=HYPERLINK("http://x.example")');
    const invoice = await issued(studio, client, 'T-1', '50.00', { issuedOn: '2025-05-01' });
    await issued(studio, client, 'T-2', '20.00', {
      issuedOn: '2025-05-02',
      kind: 'credit-note',
      cites: [invoice],
    });
    await pressed(studio, `/papers/payments/new?client=${client}`, {
      on: '2025-05-03',
      amount: '30',
      how: '+cash',
    });
    const papers = await studio.get(
      '/papers/bookkeeping/table.csv?table=papers&from=2025-05-01&to=2025-05-31',
    );
    expect(papers.headers['content-type']).toContain('text/csv');
    const rows = papers.text.trim().split('\r\n').slice(1);
    expect(rows.map((row) => /,(-?\d+\.\d\d),0{10}/.exec(row)?.[1])).toEqual(['50.00', '-20.00']);
    expect(papers.text).not.toMatch(/(^|,)"?=HYPER/m);
    const payments = await studio.api(
      'GET',
      '/api/papers/bookkeeping.csv?table=payments&from=2025-05-01&to=2025-05-31&decimal=,',
    );
    expect(payments.text).toContain(';"30,00";');
    expect(payments.text).toContain("'+cash");
    expect((await studio.get('/papers/bookkeeping/table.csv?from=2025-06-01&to=2025-05-31')).status).toBe(
      422,
    );
    expect((await studio.get('/papers/bookkeeping')).status).toBe(200);
  });
});
