import { createHash } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { clientBook } from '../../../../src/storage/books/client-book.js';
import { openTestStudio, type TestStudio } from '../../../support/studio.js';
import { bytesOf, furnishHouse, setRates } from '../../quotes/a-commission.js';
import { acceptedCommission, invoiced, issueDraft, layReady, once } from './an-invoice.js';

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

describe('from the deposit to the last invoice', () => {
  let at: Awaited<ReturnType<typeof acceptedCommission>>;
  const papers: any[] = [];
  beforeAll(async () => {
    at = await acceptedCommission(studio);
  }, 60_000);

  it('lays the deposit ready as the quote split it, and says by rule what is missing', async () => {
    const draft = await layReady(studio, at.url, { what: 'deposit' });
    expect(draft.kind).toBe('deposit-invoice');
    expect(draft.choices.lines.map(({ name }: any) => name)).toEqual([
      'Deposit: Jacket',
      'Deposit: Waistcoat',
      'Deposit: Breeches',
    ]);
    const blocking = draft.findings.filter((one: any) => one.blocks);
    expect(blocking.map((one: any) => one.code)).toEqual(['BR-11']);
    const check = await studio.get(`${at.url}/invoices/drafts/${draft.id}/check`);
    expect(check.text).toContain('BR-11');
    expect(check.text).toContain(`/clients/${at.clientId}/correct`);
    const refused = await studio.post(`${at.url}/invoices/drafts/${draft.id}/issue`, once({ version: '1' }));
    expect(refused.status).toBe(422);
    expect(refused.text).toContain('country is missing');
  });

  it('issues it once the client has a country, with number, bytes and hash', async () => {
    await studio.unit.write(studio.visit, async (writing) => {
      const client = await clientBook.one(writing, at.clientId);
      await clientBook.correct(writing, at.clientId, { ...client, country: 'IE' });
      writing.says('Gave the client a country', `client/${at.clientId}`);
    });
    const { drafts } = (await studio.api('GET', `/api${at.url}/invoices`)).json();
    const paper = await issueDraft(studio, at.url, drafts[0]);
    papers.push(paper);
    expect(paper.number).toBe('I-2026-001');
    expect(paper.dueOn).toBe('2026-03-16');
    const bytes = await bytesOf(studio, `/papers/${paper.id}.pdf`);
    expect(createHash('sha256').update(bytes).digest('hex')).toBe(paper.sha256);
    const { document } = (await studio.api('GET', `/api/papers/${paper.id}`)).json();
    expect(document.paper['BT-3']).toBe('386');
    expect(document.paper['BT-1']).toBe('I-2026-001');
    expect((await studio.get(`/papers/${paper.id}`)).text).toContain('Deposit invoice I-2026-001');
  });

  it('builds the part invoice of the waistcoat: its price, less its share of the deposit, citing it', async () => {
    const paper = await invoiced(studio, at.url, { what: 'part', garments: [at.garments[1]] });
    papers.push(paper);
    const { document } = (await studio.api('GET', `/api/papers/${paper.id}`)).json();
    const lines = document.paper['BG-25'];
    expect(lines).toHaveLength(2);
    expect(lines[1]['BT-153']).toContain('I-2026-001');
    expect(lines[1]['BT-129']).toBe('-1');
    const deposit = (await studio.api('GET', `/api/papers/${papers[0].id}`)).json().document.paper['BG-25'];
    expect(lines[1]['BT-131']).toBe(`-${deposit[1]['BT-131']}`);
    expect(document.paper['BG-3'][0]['BT-25']).toBe('I-2026-001');
    expect(paper.cites).toEqual([papers[0].id]);
    const again = await studio.api('POST', `/api${at.url}/invoices/drafts`, {
      what: 'part',
      garments: [at.garments[1]],
    });
    const told = again.json();
    expect(told.findings.some((one: any) => one.code === 'invoiced-before' && one.blocks)).toBe(true);
    await studio.api('POST', `/api${at.url}/invoices/drafts/${told.id}/remove`, {});
  });

  it('asks in the end for the whole, to the cent, with tax charged once', async () => {
    const draft = await layReady(studio, at.url, { what: 'final' });
    expect(draft.kind).toBe('final-invoice');
    const paper = await issueDraft(studio, at.url, draft);
    papers.push(paper);
    const quote = (await studio.api('GET', `/api${at.url}/quotes`)).json().items[0];
    const sum = papers.reduce((all, one) => all + minor(one.total), 0);
    expect(Math.abs(sum - minor(quote.total))).toBeLessThanOrEqual(2);
    const quoteTax = minor(
      (await studio.api('GET', `/api/papers/${quote.id}`)).json().document.paper['BG-22']['BT-110'],
    );
    expect(Math.abs(papers.reduce((all, one) => all + minor(one.tax), 0) - quoteTax)).toBeLessThanOrEqual(2);
    const refused = await studio.api('POST', `/api${at.url}/invoices/drafts`, { what: 'final' });
    expect(refused.status).toBe(409);
    expect(refused.json().detail).toContain('credit note');
  });

  it('keeps what was issued when the client is renamed, and gives it as data', async () => {
    const before = (await studio.get(`/papers/${papers[0].id}`)).text;
    const bytes = await bytesOf(studio, `/papers/${papers[0].id}.pdf`);
    await studio.unit.write(studio.visit, async (writing) => {
      const client = await clientBook.one(writing, at.clientId);
      await clientBook.correct(writing, at.clientId, { ...client, name: 'Corvin Haddlestone-Wray' });
      writing.says('Renamed the client', `client/${at.clientId}`);
    });
    expect((await bytesOf(studio, `/papers/${papers[0].id}.pdf`)).equals(bytes)).toBe(true);
    const told = textOf((await studio.get(`/papers/${papers[0].id}`)).text);
    expect(told).toContain('Corvin Haddlestone');
    expect(told).not.toContain('Wray');
    expect(before.length).toBeGreaterThan(0);
    const ubl = await studio.get(`/papers/${papers[2].id}.ubl.xml`);
    expect(ubl.text).toContain('<cbc:ID>I-2026-003</cbc:ID>');
    const cii = await studio.api('GET', `/api/papers/${papers[1].id}.cii.xml`);
    expect(cii.text).toContain('I-2026-002');
  });

  it('mends by credit note: lines, then no more than is left, in a series of its own', async () => {
    const laid = await studio.api('POST', `/api/papers/${papers[2].id}/credit`, {});
    expect(laid.status).toBe(201);
    const draft = laid.json();
    const url = `/api${at.url}/invoices/drafts/${draft.id}`;
    const amount = await studio.api('PUT', url, {
      credits: 'amount',
      creditAmount: '12.30',
      note: 'A button came loose.',
    });
    expect(amount.status, amount.text).toBe(200);
    const credit = await issueDraft(studio, at.url, draft);
    expect(credit.number).toBe('CN-2026-001');
    expect(credit.total).toBe('12.30');
    expect(credit.cites).toEqual([papers[2].id]);
    const second = (await studio.api('POST', `/api/papers/${papers[2].id}/credit`, {})).json();
    const refused = await studio.api('POST', `/api${at.url}/invoices/drafts/${second.id}/issue`, {
      confirmed: ['credit-reason'],
    });
    expect(refused.status).toBe(422);
    expect(refused.json().errors[0].detail).toContain('is left of invoice I-2026-003');
    const page = await studio.get(`${at.url}/invoices/drafts/${second.id}`);
    expect(page.status).toBe(200);
    expect(page.text).toContain('some of its lines');
    const issued = textOf((await studio.get(`/papers/${papers[2].id}`)).text);
    expect(issued).toContain('Credit note CN-2026-001');
    expect(issued).toContain('Given back €12.30');
    expect(issued).toContain('Put down a payment');
  });

  it('writes down that it was sent, with the hash, never a day to come', async () => {
    const url = `/papers/${papers[0].id}/sent`;
    const late = await studio.post(
      url,
      once({ sentOn: '2031-01-01', toWhom: 'Corvin Haddlestone', how: 'by post' }),
    );
    expect(late.status).toBe(422);
    const sent = await studio.post(
      url,
      once({ sentOn: '2026-03-02', toWhom: 'Corvin <b>Haddlestone</b>', how: 'by post' }),
    );
    expect(sent.status).toBe(303);
    const page = await studio.get(`/papers/${papers[0].id}`);
    expect(page.text).toContain('Corvin &lt;b&gt;Haddlestone&lt;/b&gt;, by post');
    const told = (await studio.api('GET', `/api/papers/${papers[0].id}`)).json();
    expect(told.sent[0].sha256).toBe(papers[0].sha256);
  });

  it('stands in the list of papers and on the commission’s page', async () => {
    const list = textOf((await studio.get('/papers')).text);
    for (const number of ['I-2026-001', 'I-2026-002', 'I-2026-003', 'CN-2026-001', 'Q-2026-001'])
      expect(list).toContain(number);
    const { items } = (await studio.api('GET', '/api/papers?limit=2')).json();
    expect(items.map(({ number }: any) => number)).toEqual(['CN-2026-001', 'I-2026-003']);
    const rest = (await studio.api('GET', `/api/papers?limit=100&after=${items[1].id}`)).json();
    expect(rest.items.map(({ number }: any) => number)).toEqual(['I-2026-002', 'I-2026-001', 'Q-2026-001']);
    expect((await studio.get(at.url)).text).toContain('I-2026-003');
  });
});
