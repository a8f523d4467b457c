import { createHash, randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readPdf } from '../../printing/papers/read-pdf.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { aCommission, beginQuote, bytesOf, furnishHouse, issueQuote, setRates } from './a-commission.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
  await furnishHouse(studio);
  await setRates(studio, '30.00');
});
afterAll(() => studio.close());

const words = async (url: string): Promise<string> => {
  const { pages } = await readPdf(await bytesOf(studio, url));
  return pages.join('\n').replace(/\s+/g, ' ');
};

const withoutNonce = (text: string): string => text.replace(/"csp-nonce" content="[^"]*"/, '');

describe('a quote of three garments', () => {
  it('goes from a commission to a numbered paper with its bytes kept', async () => {
    const { url, id } = await aCommission(studio);
    const empty = await studio.get(`${url}/quotes`);
    expect(empty.text).toContain('Nothing has been quoted yet');
    const draft = await beginQuote(studio, url);
    const page = await studio.get(draft);
    expect(page.status).toBe(200);
    expect(page.text).toContain('As it stands it comes to');
    const preview = await words(`${draft}/preview.pdf`);
    expect(preview).toContain('PREVIEW, NOT ISSUED');
    expect(preview).not.toContain('Q-2026');
    const check = await studio.get(`${draft}/check`);
    expect(check.text).toContain('Issue the quote');
    const paper = await issueQuote(studio, draft);
    const { text } = await studio.get(paper);
    expect(text).toContain('Q-2026-001, version 1');
    const bytes = await bytesOf(studio, `${paper}.pdf`);
    expect(text).toContain(createHash('sha256').update(bytes).digest('hex'));
    const pdf = await words(`${paper}.pdf`);
    for (const said of [
      'Q-2026-001',
      'Corvin Haddlestone',
      'Bellows pockets, two, with hand-worked tacks',
      'Cloth: hand-woven country tweed',
      'Fixed price',
      'Tax 23 %',
      'Friday 9 October 2026',
      'Jacket: 2 fittings',
      'Fittings away from the workroom',
      'C-2026-001/1',
      '50 % of the total',
    ])
      expect(pdf, said).toContain(said);
    expect(pdf).not.toMatch(/hours|margin|markup|profit|certainty|chance|seams nobody|pad stitch|an hour/i);
    const told = (await studio.api('GET', `/api${paper}`)).json();
    expect(pdf).toContain(Number(told.total).toLocaleString('en', { minimumFractionDigits: 2 }));
    expect(told.document.paper['BT-1']).toBe('Q-2026-001');
    expect(told.costs.garments).toHaveLength(3);
    expect(told.costs.rates.perHour).toBe('30.00');
    expect(told.costs.pricing.certainty).toBe('0.8');
    expect(told.costs.garments[0].plan.map(({ name }: { name: string }) => name)).toContain(
      'seams nobody is told of',
    );
    const deposits = told.document.sheet.deposit.shares.map(({ amount }: { amount: string }) => amount);
    expect(deposits).toHaveLength(3);
    expect((await studio.get(`${url}/quotes`)).text).toContain('waits for an answer');
    expect((await studio.get(draft)).status).toBe(404);
    expect((await studio.api('GET', `/api/commissions/${id}/quotes`)).json().items).toHaveLength(1);
  });

  it('keeps earlier acts of the commission from being undone', async () => {
    const { url } = await aCommission(studio);
    const begun = await studio.post(`${url}/quotes`, { once: randomUUID() });
    const act = new URL(String(begun.headers.location), 'http://x').searchParams.get('done');
    await issueQuote(studio, String(begun.headers.location).split('?')[0]!);
    const undone = await studio.post(`/history/${act}/undo`, { once: randomUUID(), back: '/' });
    expect(undone.status).toBe(409);
  });

  it('stays as it went out whatever changes afterwards', async () => {
    const { url, clientId } = await aCommission(studio);
    const paper = await issueQuote(studio, await beginQuote(studio, url));
    const before = await bytesOf(studio, `${paper}.pdf`);
    const told = (await studio.api('GET', `/api${paper}`)).text;
    const page = withoutNonce((await studio.get(paper)).text);
    await setRates(studio, '99.00', 'EUR', '2026-02-01');
    await furnishHouse(studio, { identity: { name: 'Another House' } });
    await studio.api('PUT', `/api/clients/${clientId}`, { name: 'Somebody Else' });
    expect((await bytesOf(studio, `${paper}.pdf`)).equals(before)).toBe(true);
    expect((await studio.api('GET', `/api${paper}`)).text).toBe(told);
    const after = withoutNonce((await studio.get(paper)).text);
    expect(after.replaceAll('Another House', 'Quillmere Workroom')).toBe(page);
    const again = await studio.get(`${url}/quotes/${paper.split('/').at(-1)}/again`);
    expect(again.text).toMatch(/what an hour costs \+/);
    expect(again.text).not.toMatch(/materials \+/);
    await furnishHouse(studio, { identity: { name: 'Quillmere Workroom' } });
    await setRates(studio, '30.00', 'EUR', '2026-03-01');
  });
});
