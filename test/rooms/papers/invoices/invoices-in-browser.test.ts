import { afterAll, beforeAll, expect, it } from 'vitest';
import { clientBook } from '../../../../src/storage/books/client-book.js';
import { auditInEverySight } from '../../../support/audit.js';
import { Maker } from '../../../support/maker.js';
import { openTestStudio, type TestStudio } from '../../../support/studio.js';
import { furnishHouse, setRates } from '../../quotes/a-commission.js';
import { acceptedCommission, invoiced, layReady } from './an-invoice.js';

/* Every page of an invoice's life: the automated audit finds nothing, nothing is wider than the page. */

let studio: TestStudio;
let maker: Maker;
let pages: string[];
beforeAll(async () => {
  studio = await openTestStudio();
  await furnishHouse(studio, { identity: { country: 'IE' } });
  await setRates(studio, '30.00');
  const at = await acceptedCommission(studio);
  await studio.unit.write(studio.visit, async (writing) => {
    const client = await clientBook.one(writing, at.clientId);
    await clientBook.correct(writing, at.clientId, { ...client, country: 'IE' });
    writing.says('Completed the client', `client/${at.clientId}`);
  });
  const deposit = await invoiced(studio, at.url, { what: 'deposit' });
  const part = await layReady(studio, at.url, { what: 'part', garments: [at.garments[1]] });
  const credit = (await studio.api('POST', `/api/papers/${deposit.id}/credit`, {})).json();
  const drafts = `${at.url}/invoices/drafts`;
  pages = [
    at.url,
    `${at.url}/invoices`,
    `${drafts}/${part.id}`,
    `${drafts}/${part.id}/preview`,
    `${drafts}/${part.id}/check`,
    `${drafts}/${credit.id}`,
    `${drafts}/${credit.id}/check`,
    `/papers/${deposit.id}`,
    '/papers',
  ];
  maker = await Maker.sitDown(await studio.listen(), studio.cookie);
}, 120_000);
afterAll(async () => {
  await maker?.leave();
  await studio?.close();
});

it('passes the audit on every page, at a desk and on a phone', { timeout: 120_000 }, async () => {
  const found: string[] = [];
  for (const path of pages) {
    const status = await maker.open(path);
    if (status !== 200) found.push(`${path} answered ${status}`);
    found.push(...(await auditInEverySight(maker.page, path)));
  }
  expect(found).toEqual([]);
});
