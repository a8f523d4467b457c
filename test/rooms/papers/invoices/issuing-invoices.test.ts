import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readConfig } from '../../../../src/app/config.js';
import { createApp } from '../../../../src/app/create-app.js';
import { PdfPrinter } from '../../../../src/printing/browser/pdf-printer.js';
import { clientBook } from '../../../../src/storage/books/client-book.js';
import { invoiceBook } from '../../../../src/storage/books/papers/invoice-book.js';
import { invoiceDraftBook } from '../../../../src/storage/books/papers/invoice-draft-book.js';
import { seriesBook } from '../../../../src/storage/books/series-book.js';
import { studioBook } from '../../../../src/storage/books/studio-book.js';
import { freshPostgres, isPostgresLeftOut } from '../../../support/postgres.js';
import { openTestStudio, type TestStudio } from '../../../support/studio.js';
import { aCommission, furnishHouse } from '../../quotes/a-commission.js';
import { layReady, once } from './an-invoice.js';

/** Counter work at a price set by hand: an invoice without a quote, so that many are ready quickly. */
const counterWork = async (studio: TestStudio, many: number): Promise<{ url: string; draftId: string }[]> => {
  const at = await aCommission(studio, [{ name: 'Hem', ownPrice: '24.00' }]);
  await studio.unit.write(studio.visit, async (writing) => {
    const client = await clientBook.one(writing, at.clientId);
    await clientBook.correct(writing, at.clientId, { ...client, country: 'IE' });
    writing.says('Completed the client', `client/${at.clientId}`);
  });
  const first = await layReady(studio, at.url, { what: 'final' });
  const { value } = await studio.unit.write(studio.visit, async (writing) => {
    const kept = await invoiceDraftBook.one(writing, first.id);
    const ids: string[] = [];
    for (let place = 0; place < many; place += 1) {
      const { id: _, version: __, ...draft } = kept;
      // Stages of one commission: each goes out on its own, and none deducts another.
      const choices = {
        ...draft.choices,
        kind: 'part-invoice' as const,
        lines: draft.choices.lines.map((line) => ({ ...line, ref: '', garment: '' })),
      };
      ids.push((await invoiceDraftBook.begin(writing, { ...draft, choices })).id);
    }
    await invoiceDraftBook.remove(writing, first.id);
    writing.says('Laid many ready', `commission/${at.id}`);
    return ids;
  });
  return value.map((draftId) => ({ url: at.url, draftId }));
};

const issueUrl = ({ url, draftId }: { url: string; draftId: string }): string =>
  `/api${url}/invoices/drafts/${draftId}/issue`;
const LOOKED = { confirmed: ['supply-date', 'tax-moved'] };
const numbers = async (studio: TestStudio): Promise<string[]> =>
  (await invoiceBook.find(studio.read, '', 100)).items.map(({ number }) => number).toSorted();
const upTo = (last: number): string[] =>
  Array.from({ length: last }, (_, place) => `I-2026-${String(place + 1).padStart(3, '0')}`);

describe('on one server', () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
    await furnishHouse(studio, { identity: { country: 'IE' } });
  }, 60_000);
  afterAll(() => studio.close());

  it('a browser that fails burns no number and leaves the draft; two presses make one paper', async () => {
    const [draft] = await counterWork(studio, 1);
    const page = `${draft!.url}/invoices/drafts/${draft!.draftId}/issue`;
    const fields = once({ version: '1', 'confirm.supply-date': 'yes' });
    const printer = studio.app.get(PdfPrinter);
    const named = process.env.PUPPETEER_EXECUTABLE_PATH;
    process.env.PUPPETEER_EXECUTABLE_PATH = '/nowhere/browser';
    const failed = await studio.post(page, fields);
    if (named === undefined) delete process.env.PUPPETEER_EXECUTABLE_PATH;
    else process.env.PUPPETEER_EXECUTABLE_PATH = named;
    expect(printer.isWarm).toBe(false);
    expect(failed.status).toBe(409);
    expect(failed.text).toContain('Issue the part invoice');
    expect(await seriesBook.last(studio.read, 'invoice/2026')).toBe(0);
    const [first, second] = await Promise.all([1, 2].map(() => studio.post(page, fields)));
    expect([first?.status, second?.status]).toEqual([303, 303]);
    expect(first?.headers.location).toBe(second?.headers.location);
    const back = await studio.post(page, once({ version: '1', 'confirm.supply-date': 'yes' }));
    expect(back.status).toBe(409);
    expect(back.text).toContain('issued or put away');
    expect(await numbers(studio)).toEqual(upTo(1));
  });

  it('issues at the same moment print once each and count on', async () => {
    const drafts = await counterWork(studio, 6);
    const printer = studio.app.get(PdfPrinter);
    let prints = 0;
    // The real printer, counted.
    printer.print = (...asked) => {
      prints += 1;
      return PdfPrinter.prototype.print.apply(printer, asked);
    };
    try {
      const answers = await Promise.all(drafts.map((draft) => studio.api('POST', issueUrl(draft), LOOKED)));
      expect(answers.map(({ status }) => status)).toEqual(drafts.map(() => 201));
    } finally {
      Reflect.deleteProperty(printer, 'print');
    }
    expect(prints).toBe(6);
    expect(await numbers(studio)).toEqual(upTo(7));
  });

  it('prints again when the client is renamed while it prints, and the year turns', async () => {
    const [draft] = await counterWork(studio, 1);
    const kept = await invoiceDraftBook.one(studio.read, draft!.draftId);
    const printer = studio.app.get(PdfPrinter);
    let prints = 0;
    printer.print = async (...asked) => {
      const pdf = await PdfPrinter.prototype.print.apply(printer, asked);
      prints += 1;
      if (prints === 1) {
        await studio.unit.write(studio.visit, async (writing) => {
          const client = await clientBook.one(writing, kept.clientId);
          await clientBook.correct(writing, kept.clientId, { ...client, name: 'Corvin Wray' });
          writing.says('Renamed the client', `client/${kept.clientId}`);
        });
      }
      if (prints === 2) studio.clock.forward(365 * 24 * 60);
      return pdf;
    };
    try {
      const answer = await studio.api('POST', issueUrl(draft!), LOOKED);
      expect(answer.status, answer.text).toBe(201);
      expect(answer.json()).toMatchObject({ number: 'I-2027-001', clientName: 'Corvin Wray' });
      expect(prints).toBe(3);
    } finally {
      Reflect.deleteProperty(printer, 'print');
    }
    expect(await seriesBook.last(studio.read, 'invoice/2026')).toBe(7);
  });

  it('a series without a counter, or one that would give a number again, issues nothing', async () => {
    const [draft] = await counterWork(studio, 1);
    const set = (invoiceSeries: string) =>
      studio.unit.write(studio.visit, async (writing) => {
        const house = await studioBook.the(writing);
        await studioBook.correct(writing, { ...house, papers: { ...house.papers, invoiceSeries } });
        writing.says('Changed the series', 'house');
      });
    await set('I-{year}');
    const none = await studio.api('POST', issueUrl(draft!), LOOKED);
    expect(none.status).toBe(422);
    expect(none.text).toContain('no counter');
    await set('I-2026-{000}');
    const again = await studio.api('POST', issueUrl(draft!), LOOKED);
    expect(again.status).toBe(409);
    expect(again.json().detail).toContain('I-2026-001 next, and that number went out already');
  });
});

describe.skipIf(isPostgresLeftOut)('two servers on one database', () => {
  it('issue 40 papers at once under 40 consecutive numbers', { timeout: 120_000 }, async () => {
    const { url, drop } = await freshPostgres();
    const studio = await openTestStudio({ DATABASE_URL: url });
    const folder = mkdtempSync(join(tmpdir(), 'bastings-second-'));
    const environment = { DATA_DIR: folder, PORT: '0', TIME_ZONE: 'Europe/Dublin', DATABASE_URL: url };
    const second = await createApp(readConfig(environment), studio.clock);
    try {
      await second.init();
      await second.getHttpAdapter().getInstance().ready();
      await furnishHouse(studio, { identity: { country: 'IE' } });
      const drafts = await counterWork(studio, 40);
      const answers = await Promise.all(
        drafts.map((draft, place) =>
          (place % 2 === 0 ? studio.app : second).inject({
            method: 'POST',
            url: issueUrl(draft),
            headers: { authorization: `Bearer ${studio.token}`, 'content-type': 'application/json' },
            payload: JSON.stringify(LOOKED),
          }),
        ),
      );
      expect(answers.filter(({ statusCode }) => statusCode !== 201).map(({ payload }) => payload)).toEqual(
        [],
      );
      expect(await numbers(studio)).toEqual(upTo(40));
    } finally {
      await second.close();
      await studio.close();
      rmSync(folder, { recursive: true, force: true });
      await drop();
    }
  });
});
