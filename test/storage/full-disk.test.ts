import type { DataSource } from 'typeorm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { clientBook } from '../../src/storage/books/client-book.js';
import { invoiceBook } from '../../src/storage/books/papers/invoice-book.js';
import { invoiceDraftBook } from '../../src/storage/books/papers/invoice-draft-book.js';
import { seriesBook } from '../../src/storage/books/series-book.js';
import { layReady, once } from '../rooms/papers/invoices/an-invoice.js';
import { aCommission, furnishHouse } from '../rooms/quotes/a-commission.js';
import { smallDisk } from '../support/small-disk.js';
import { openTestStudio, type TestStudio } from '../support/studio.js';

/* A disk without room while an invoice is issued: a small file system where one can be mounted, else SQLite's own limit. */

const disk = smallDisk(24);
let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio(disk ? { DATA_DIR: disk.folder } : {});
  await furnishHouse(studio, { identity: { country: 'IE' } });
}, 60_000);
afterAll(async () => {
  await studio.close();
  disk?.leave();
});

const source = (): DataSource => (studio.unit as unknown as { source: DataSource }).source;

const limitPages = async (): Promise<() => Promise<unknown>> => {
  const [{ page_count: pages }] = await source().query('PRAGMA page_count');
  await source().query(`PRAGMA max_page_count = ${pages + 2}`);
  return () => source().query('PRAGMA max_page_count = 4294967294');
};

const aDraft = async (): Promise<{ url: string; draftId: string }> => {
  const at = await aCommission(studio, [{ name: 'Hem', ownPrice: '24.00' }]);
  await studio.unit.write(studio.visit, async (writing) => {
    const client = await clientBook.one(writing, at.clientId);
    await clientBook.correct(writing, at.clientId, { ...client, country: 'IE' });
    writing.says('Completed the client', `client/${at.clientId}`);
  });
  return { url: at.url, draftId: (await layReady(studio, at.url, { what: 'final' })).id };
};

describe.each([
  ['the disk', () => disk?.fill(3), disk === undefined],
  ['SQLite’s own limit of pages', limitPages, false],
] as const)('without room: %s', (_, fill, isLeftOut) => {
  it.skipIf(isLeftOut)(
    'issues nothing, says why, burns no number, and goes on once there is room',
    async () => {
      const { url, draftId } = await aDraft();
      const page = `${url}/invoices/drafts/${draftId}/issue`;
      const before = await seriesBook.last(studio.read, 'invoice/2026');
      const many = (await invoiceBook.find(studio.read, '', 100)).items.length;
      const fields = once({ version: '1', 'confirm.supply-date': 'yes' });
      const free = await fill();
      const refused = await studio.post(page, fields);
      const answer = await studio.api('POST', `/api${page}`, { confirmed: ['supply-date'] });
      expect([refused.status, answer.status]).toEqual([507, 507]);
      expect(refused.text).toContain('The disk is full, so nothing of this was kept.');
      expect(answer.json()).toMatchObject({ code: 'disk-full', title: 'The disk is full' });
      // What is there can still be read: the draft, whole, and no paper.
      expect((await studio.get(`${url}/invoices`)).status).toBe(200);
      expect((await invoiceDraftBook.one(studio.read, draftId)).version).toBe(1);
      await free?.();
      expect(await seriesBook.last(studio.read, 'invoice/2026')).toBe(before);
      const issued = await studio.post(page, fields);
      expect([issued.status, await seriesBook.last(studio.read, 'invoice/2026')]).toEqual([303, before + 1]);
      const { items } = await invoiceBook.find(studio.read, '', 100);
      expect([items.length, items[0]?.number]).toEqual([many + 1, `I-2026-00${before + 1}`]);
      // The writes that follow are transactions of their own again.
      const runner = source().createQueryRunner();
      expect([
        runner.isTransactionActive,
        (runner as unknown as { transactionDepth: number }).transactionDepth,
      ]).toEqual([false, 0]);
      const [{ integrity_check: sound }] = await source().query('PRAGMA integrity_check');
      expect(sound).toBe('ok');
    },
  );
});
