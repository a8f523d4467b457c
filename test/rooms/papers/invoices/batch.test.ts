import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PdfPrinter } from '../../../../src/printing/browser/pdf-printer.js';
import { Batches } from '../../../../src/rooms/papers/invoices/batch/batches.js';
import { clientBook } from '../../../../src/storage/books/client-book.js';
import { invoiceBook } from '../../../../src/storage/books/papers/invoice-book.js';
import {
  invoiceDraftBook,
  type KeptInvoiceDraft,
} from '../../../../src/storage/books/papers/invoice-draft-book.js';
import { openTestStudio, type TestStudio } from '../../../support/studio.js';
import { wordsOf } from '../../bench/a-bench.js';
import { aCommission, furnishHouse } from '../../quotes/a-commission.js';
import { layReady, once } from './an-invoice.js';

let studio: TestStudio;
let at: Awaited<ReturnType<typeof aCommission>>;
const HERE = '/papers/batch';
const LOOKED = ['supply-date', 'tax-moved'];
const api = async (path = '') => (await studio.api('GET', `/api/papers/batch${path}`)).json();
const numbers = async () =>
  (await invoiceBook.find(studio.read, '', 100)).items.map(({ number }) => number).toSorted();

type Draft = Omit<KeptInvoiceDraft, 'id' | 'version'>;
let like: Draft | undefined;

/** What all drafts are made like: all that is left of the hem, before anything was issued. */
const firstDraft = async (): Promise<Draft> => {
  const { id } = await layReady(studio, at.url, { what: 'final' });
  const { id: _, version: __, ...draft } = await invoiceDraftBook.one(studio.read, id);
  await studio.unit.write(studio.visit, async (writing) => {
    await invoiceDraftBook.remove(writing, id);
    writing.says('Put it away', `commission/${at.id}`);
  });
  return draft;
};

/** Drafts of counter work, oldest first. */
const layManyReady = async (many: number): Promise<string[]> => {
  const draft = like ?? (await firstDraft());
  like = draft;
  const { value } = await studio.unit.write(studio.visit, async (writing) => {
    const ids: string[] = [];
    for (let place = 0; place < many; place += 1) {
      const lines = draft.choices.lines.map((line) => ({ ...line, ref: '', garment: '' }));
      const choices = { ...draft.choices, kind: 'part-invoice' as const, lines };
      ids.push((await invoiceDraftBook.begin(writing, { ...draft, choices })).id);
    }
    writing.says('Laid many ready', `commission/${at.id}`);
    return ids;
  });
  return value;
};

beforeAll(async () => {
  studio = await openTestStudio();
  await furnishHouse(studio, { identity: { country: 'IE' } });
  at = await aCommission(studio, [{ name: 'Hem', ownPrice: '24.00' }]);
}, 60_000);
afterAll(() => studio.close());

describe('a batch of invoices', () => {
  it('says what is not ready, and why', async () => {
    expect(wordsOf((await studio.get(HERE)).text)).toContain('No draft is ready to be issued.');
    const [id] = await layManyReady(1);
    const told = await api();
    expect(told.ready).toEqual([]);
    expect(told.notReady[0].id).toBe(id);
    expect(wordsOf((await studio.get(HERE)).text)).toContain('Not ready');
    const refused = await studio.api('POST', '/api/papers/batch', {
      drafts: [{ id, version: 1 }],
      confirmed: LOOKED,
    });
    expect(refused.status).toBe(422);
    await studio.unit.write(studio.visit, async (writing) => {
      const client = await clientBook.one(writing, at.clientId);
      await clientBook.correct(writing, at.clientId, { ...client, country: 'IE' });
      await invoiceDraftBook.remove(writing, id!);
      writing.says('Completed the client', `client/${at.clientId}`);
    });
  });

  it('asks once what wants a look, issues all in the order of the list, and shows how far it is', async () => {
    const ids = await layManyReady(5);
    const page = await studio.get(HERE);
    expect(wordsOf(page.text)).toContain('5 drafts ready.');
    const drafts = Object.fromEntries(ids.map((id) => [`draft.${id}`, '1']));
    const unlooked = await studio.post(HERE, once(drafts));
    expect(unlooked.status).toBe(422);
    expect(await numbers()).toEqual([]);
    expect((await studio.post(HERE, once({ [`draft.${ids[0]}`]: 'no' }))).status).toBe(422);
    const ticks = Object.fromEntries(LOOKED.map((code) => [`confirm.${code}`, 'yes']));
    const fields = once({ ...drafts, ...ticks });
    const begun = await studio.post(HERE, fields);
    expect(begun.status, wordsOf(begun.text)).toBe(303);
    const url = String(begun.headers.location).split('?')[0]!;
    const running = await studio.get(url);
    expect(running.text).toContain('<progress');
    if (running.text.includes('Issuing</h1>')) expect(running.text).toContain('look-again');
    const again = await studio.post(HERE, fields);
    expect(String(again.headers.location).split('?')[0]).toBe(url);
    await studio.app.get(Batches).idle();
    const told = await api(`/${url.split('/').at(-1)}`);
    expect(told).toMatchObject({ state: 'done', of: 5, left: [], stoppedBy: null });
    expect(told.issued.map((one: any) => one.draftId)).toEqual(ids);
    expect(told.issued.map((one: any) => one.number)).toEqual(await numbers());
    expect(await numbers()).toEqual([1, 2, 3, 4, 5].map((n) => `I-2026-00${n}`));
    const done = await studio.get(url);
    expect(done.text).not.toContain('look-again');
    expect(wordsOf(done.text)).toContain('5 papers issued.');
    expect(done.text).toContain(`/papers/${told.issued[0].id}`);
  }, 60_000);

  it('stops at a failure: those before it are issued, it and the rest are drafts, and it says which', async () => {
    const ids = await layManyReady(4);
    const printer = studio.app.get(PdfPrinter);
    const print = printer.print.bind(printer);
    // The browser fails at the third paper, as when it is killed.
    printer.print = (html, sheet) =>
      html.includes('I-2026-008') ? Promise.reject(new Error('the browser died')) : print(html, sheet);
    const begun = await studio.api('POST', '/api/papers/batch', {
      drafts: ids.map((id) => ({ id, version: 1 })),
      confirmed: LOOKED,
    });
    expect(begun.status, begun.text).toBe(202);
    const { id } = begun.json();
    await studio.app.get(Batches).idle();
    printer.print = print;
    const told = await api(`/${id}`);
    expect(told.state).toBe('stopped');
    expect(told.issued.map((one: any) => one.number)).toEqual(['I-2026-006', 'I-2026-007']);
    expect(told.left).toEqual(ids.slice(2));
    expect(told.stoppedBy.draftId).toBe(ids[2]);
    expect(wordsOf((await studio.get(`${HERE}/${id}`)).text)).toContain('It stopped at Draft: part invoice');
    const rest = await studio.api('POST', '/api/papers/batch', {
      drafts: ids.slice(2).map((one) => ({ id: one, version: 1 })),
      confirmed: LOOKED,
    });
    expect(rest.status).toBe(202);
    await studio.app.get(Batches).idle();
    // No number was burnt.
    expect((await numbers()).at(-1)).toBe('I-2026-009');
  }, 60_000);

  it('stops at a draft that was changed since, and refuses what is gone', async () => {
    const ids = await layManyReady(1);
    const gone = await studio.api('POST', '/api/papers/batch', {
      drafts: [{ id: 'nowhere', version: 1 }],
      confirmed: [],
    });
    expect(gone.status).toBe(422);
    const stale = await studio.api('POST', '/api/papers/batch', {
      drafts: [{ id: ids[0], version: 7 }],
      confirmed: LOOKED,
    });
    await studio.app.get(Batches).idle();
    expect((await api(`/${stale.json().id}`)).state).toBe('stopped');
    expect((await studio.get(`${HERE}/nowhere`)).status).toBe(404);
  });
});
