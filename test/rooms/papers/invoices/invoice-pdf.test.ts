import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Decimal } from '../../../../src/domain/kernel/decimal.js';
import { clientBook } from '../../../../src/storage/books/client-book.js';
import { studioBook } from '../../../../src/storage/books/studio-book.js';
import { readPdf } from '../../../printing/papers/read-pdf.js';
import { openTestStudio, type TestStudio } from '../../../support/studio.js';
import { bytesOf, furnishHouse, setRates } from '../../quotes/a-commission.js';
import { acceptedCommission, invoiced, issueDraft, layReady } from './an-invoice.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
  await furnishHouse(studio, { identity: { country: 'IE' } });
  await studio.unit.write(studio.visit, async (writing) => {
    const house = await studioBook.the(writing);
    const papers = { ...house.papers, iban: 'NL91ABNA0417164300', terms: 'Payable without deduction.' };
    await studioBook.correct(writing, { ...house, papers });
    writing.says('Said into which account', 'house');
  });
  await setRates(studio, '30.00');
}, 60_000);
afterAll(() => studio.close());

const accepted = async (
  ...said: Parameters<typeof acceptedCommission> extends [any, ...infer R] ? R : never
) => {
  const at = await acceptedCommission(studio, ...said);
  await studio.unit.write(studio.visit, async (writing) => {
    const client = await clientBook.one(writing, at.clientId);
    await clientBook.correct(writing, at.clientId, { ...client, country: 'IE', taxNumber: 'IE7654321TA' });
    writing.says('Completed the client', `client/${at.clientId}`);
  });
  return at;
};

const printed = async (url: string) => {
  const pdf = await readPdf(await bytesOf(studio, url));
  return { ...pdf, text: pdf.pages.join('\n').replace(/\s+/g, ' ') };
};

describe('an invoice on paper', () => {
  it('carries every field the law and the standard ask for, tagged, in its language, on one page', async () => {
    const at = await accepted();
    const deposit = await invoiced(studio, at.url, { what: 'deposit' });
    const draft = await layReady(studio, at.url, { what: 'final' });
    await studio.api('PUT', `/api${at.url}/invoices/drafts/${draft.id}`, {
      ...draft.choices,
      supplied: '2026-03-02',
      note: 'With thanks.',
    });
    const final = await issueDraft(studio, at.url, draft);
    const { document } = (await studio.api('GET', `/api/papers/${final.id}`)).json();
    const pdf = await printed(`/papers/${final.id}.pdf`);
    for (const words of [
      'QUILLMERE WORKROOM',
      'Tax number IE1234567FA',
      'Corvin Haddlestone',
      'The Apiary',
      'IE7654321TA',
      `Final invoice`,
      final.number,
      '2 March 2026',
      '16 March 2026',
      `Less invoice ${deposit.number} of 2 March 2026`,
      'Tax 23 % on',
      'To pay, EUR',
      'NL91 ABNA 0417 1643 00',
      'RF',
      'With thanks.',
      'Payable without deduction.',
      'Bellows pockets, two, with hand-worked tacks',
      '1 of 1',
    ])
      expect(pdf.text, words).toContain(words);
    const amounts = new Intl.NumberFormat('en-IE', { minimumFractionDigits: 2 });
    for (const term of ['BT-109', 'BT-110', 'BT-112', 'BT-115'])
      expect(pdf.text).toContain(amounts.format(document.paper['BG-22'][term]));
    expect(pdf.isTagged).toBe(true);
    expect(pdf.language).toMatch(/^en/);
    expect(pdf.tags).toEqual(expect.arrayContaining(['Table', 'TH', 'TD', 'H1']));
    expect(pdf.pages).toHaveLength(1);
    expect(pdf.embedded).toBeGreaterThan(0);
  });

  it('of 1,000 lines repeats its head on every page and still adds up', { timeout: 60_000 }, async () => {
    const at = await accepted([{ name: 'Cape' }], { client: 'Berit Sandglass' });
    const draft = await layReady(studio, at.url, { what: 'final' });
    const lines = Array.from({ length: 1000 }, (_, place) => ({
      name: `Alteration ${place + 1}`,
      quantity: '1',
      price: '1.10',
    }));
    const url = `/api${at.url}/invoices/drafts/${draft.id}`;
    const over = await studio.api('PUT', url, { lines: [...lines, ...lines.slice(0, 1)] });
    expect(over.status).toBe(422);
    const kept = await studio.api('PUT', url, { lines });
    expect(kept.status, kept.text.slice(0, 300)).toBe(200);
    expect(kept.json().net).toBe('1100.00');
    const paper = await issueDraft(studio, at.url, draft);
    expect(paper.total).toBe('1353.00');
    const pdf = await printed(`/papers/${paper.id}.pdf`);
    expect(pdf.pages.length).toBeGreaterThan(6);
    const withLines = pdf.pages.filter((page) => /Alteration \d+/.test(page));
    for (const page of withLines) expect(page).toMatch(/WHAT FOR/);
    for (const place of [1, 500, 1000]) expect(pdf.text).toContain(`Alteration ${place} `);
    const count = pdf.pages.length;
    expect(pdf.text).toContain(`${count} of ${count}`);
  });

  it('never leaves its sum alone on a page', async () => {
    const at = await accepted();
    const draft = await layReady(studio, at.url, { what: 'final' });
    const drawn = async (count: number) => {
      const lines = Array.from({ length: count }, (_, place) => ({
        name: `Mended seam ${place}`,
        quantity: '1',
        price: '4',
      }));
      const { version } = (await studio.api('GET', `/api${at.url}/invoices/drafts/${draft.id}`)).json();
      const kept = { ...draft.choices, lines };
      const answer = await studio.api('PUT', `/api${at.url}/invoices/drafts/${draft.id}`, kept, {
        'if-match': `"${version}"`,
      });
      expect(answer.status).toBe(200);
      return (await printed(`${at.url}/invoices/drafts/${draft.id}/preview.pdf`)).pages;
    };
    const alone: number[] = [];
    const over: number[] = [];
    for (let count = 15; count <= 21; count += 1) {
      const pages = await drawn(count);
      const summed = pages.findIndex((page) => page.includes('Total before tax'));
      if (summed > 0) over.push(count);
      if (!pages[summed]?.includes('Mended seam')) alone.push(count);
    }
    expect(over.length).toBeGreaterThan(2);
    expect(alone).toEqual([]);
  });

  it('fetches nothing and shows markup as it was typed, in words of 5,000 letters', async () => {
    const asked: string[] = [];
    const server = createServer((request, reply) => {
      asked.push(String(request.url));
      reply.end('stolen');
    });
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    const { port } = server.address() as AddressInfo;
    try {
      const at = await accepted([{ name: 'Coat' }], { client: 'Ansel Marrow' });
      const draft = await layReady(studio, at.url, { what: 'final' });
      const bait = `<img src="http://127.0.0.1:${port}/a.png"><iframe src="file:///etc/passwd"></iframe>{{price}}<script>x()</script>`;
      const description = `${bait} ${'silk thread and bone '.repeat(400)}`.slice(0, 4990);
      const url = `/api${at.url}/invoices/drafts/${draft.id}`;
      const kept = await studio.api('PUT', url, {
        lines: [{ name: bait.slice(0, 390), description, quantity: '2', unit: 'hour', price: '40' }],
        note: `<link rel="stylesheet" href="http://127.0.0.1:${port}/b.css">`,
      });
      expect(kept.status, kept.text.slice(0, 300)).toBe(200);
      const pdf = await printed(`${at.url}/invoices/drafts/${draft.id}/preview.pdf`);
      const flat = pdf.text.replace(/\s+/g, '');
      expect(flat).toContain('<iframesrc="file:///etc/passwd">');
      expect(flat).toContain('{{price}}<script>x()</script>');
      expect(flat).not.toContain('root:x:');
      expect(pdf.text).toContain('2 hours');
      expect(pdf.text).toContain('PREVIEW, NOT ISSUED');
      expect(asked).toEqual([]);
    } finally {
      server.close();
    }
  });
});

describe('a house that keeps its prices with tax, and a client who reads French', () => {
  it('says where a minor unit went, in the words of the paper', async () => {
    await furnishHouse(studio, {
      identity: { country: 'IE' },
      tax: { pricesInclude: 'tax', rate: new Decimal(21) },
    });
    const at = await accepted([{ name: 'Capeline', ownPrice: '82.64' }], { client: 'Odile Brisefer' });
    await studio.unit.write(studio.visit, async (writing) => {
      const client = await clientBook.one(writing, at.clientId);
      await clientBook.correct(writing, at.clientId, { ...client, paperLanguage: 'fr' });
      writing.says('Said what the client reads', `client/${at.clientId}`);
    });
    const draft = await layReady(studio, at.url, { what: 'final' });
    const url = `/api${at.url}/invoices/drafts/${draft.id}`;
    const [line] = draft.choices.lines;
    const told = (await studio.api('PUT', url, { lines: [{ ...line, price: '100.00' }] })).json();
    expect(told.payable).toBe('100.00');
    expect(told.sentences[0]).toContain('cannot be reached from a whole net amount');
    const paper = await issueDraft(studio, at.url, draft);
    expect(paper.language).toMatch(/^fr/);
    const pdf = await printed(`/papers/${paper.id}.pdf`);
    expect(pdf.text).toContain('Facture');
    expect(pdf.text).toContain('2 mars 2026');
    expect(pdf.text).toContain('82,64');
    expect(pdf.text).toContain('ne peut être atteint');
  });
});
