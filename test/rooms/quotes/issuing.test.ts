import { randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readConfig } from '../../../src/app/config.js';
import { createApp } from '../../../src/app/create-app.js';
import { PdfPrinter } from '../../../src/printing/browser/pdf-printer.js';
import { clientBook } from '../../../src/storage/books/client-book.js';
import { seriesBook } from '../../../src/storage/books/series-book.js';
import { freshPostgres, isPostgresLeftOut } from '../../support/postgres.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { aCommission, beginQuote, furnishHouse, issueQuote, setRates } from './a-commission.js';

const databases = isPostgresLeftOut ? (['SQLite'] as const) : (['SQLite', 'PostgreSQL'] as const);

const issued = async (studio: TestStudio): Promise<string[]> => {
  const { items } = (await studio.api('GET', '/api/papers?limit=100')).json();
  return items.map(({ number }: { number: string }) => number).toSorted();
};

describe.each(databases)('issuing, on %s', (database) => {
  let studio: TestStudio;
  let drop: (() => Promise<void>) | undefined;
  beforeAll(async () => {
    const fresh = database === 'PostgreSQL' ? await freshPostgres() : undefined;
    drop = fresh?.drop;
    studio = await openTestStudio(fresh ? { DATABASE_URL: fresh.url } : {});
    await furnishHouse(studio);
    await setRates(studio, '30.00');
  }, 120_000);
  afterAll(async () => {
    await studio.close();
    await drop?.();
  });

  it('gives consecutive numbers to people who issue at the same moment', async () => {
    const drafts: string[] = [];
    for (const name of ['Jacket', 'Cape', 'Coat'])
      drafts.push(await beginQuote(studio, (await aCommission(studio, [{ name }])).url));
    const papers = await Promise.all(drafts.map((draft) => issueQuote(studio, draft)));
    expect(new Set(papers).size).toBe(3);
    expect(await issued(studio)).toEqual(['Q-2026-001', 'Q-2026-002', 'Q-2026-003']);
  });

  it('prints again when a number was taken while it printed', async () => {
    const draft = await beginQuote(studio, (await aCommission(studio, [{ name: 'Vest' }])).url);
    const paper = issueQuote(studio, draft);
    await studio.unit.write(studio.visit, (writing) => seriesBook.take(writing, 'quote/2026'));
    const told = (await studio.api('GET', `/api${await paper}`)).json();
    expect(told.number).toBe('Q-2026-005');
    expect(told.document.sheet.number).toBe('Q-2026-005');
  });

  it('keeps what is true at the end, also where it does not stand on the print', async () => {
    const { url, clientId } = await aCommission(studio, [{ name: 'Mantle' }]);
    const draft = await beginQuote(studio, url);
    const printer = studio.app.get(PdfPrinter);
    const prints: number[] = [];
    // The real printer; a colleague gives the client a tax number while the first print comes out.
    printer.print = async (...asked) => {
      const pdf = await PdfPrinter.prototype.print.apply(printer, asked);
      if (prints.push(pdf.length) > 1) return pdf;
      await studio.unit.write(studio.visit, async (writing) => {
        const client = await clientBook.one(writing, clientId);
        await clientBook.correct(writing, clientId, { ...client, taxNumber: 'IE7654321TA' });
        writing.says('Gave the client a tax number', `client/${clientId}`);
      });
      return pdf;
    };
    try {
      const { document } = (await studio.api('GET', `/api${await issueQuote(studio, draft)}`)).json();
      expect(prints).toHaveLength(2);
      expect(document.draft.client['BT-48']).toBe('IE7654321TA');
      expect(JSON.stringify(document.paper)).toContain('IE7654321TA');
    } finally {
      Reflect.deleteProperty(printer, 'print');
    }
  });

  it('answers two presses with one paper, and a press after going back with a sentence', async () => {
    const draft = await beginQuote(studio, (await aCommission(studio, [{ name: 'Stays' }])).url);
    const fields = { once: randomUUID(), version: '1' };
    const [first, second] = await Promise.all([1, 2].map(() => studio.post(`${draft}/issue`, fields)));
    expect([first?.status, second?.status]).toEqual([303, 303]);
    expect(first?.headers.location).toBe(second?.headers.location);
    const back = await studio.post(`${draft}/issue`, { once: randomUUID(), version: '1' });
    expect(back.status).toBe(409);
    expect(back.text).toContain('it was issued or put away');
    expect(await issued(studio)).toHaveLength(6);
  });
});

describe('a series whose pattern was changed', () => {
  it('never gives a number that went out already', async () => {
    const studio = await openTestStudio();
    try {
      await furnishHouse(studio);
      await setRates(studio, '30.00');
      const { url } = await aCommission(studio, [{ name: 'Jacket' }]);
      await issueQuote(studio, await beginQuote(studio, url));
      await furnishHouse(studio, { quotes: { series: 'Q-2026-{000}' } });
      const draft = await beginQuote(studio, url);
      const refused = await studio.api('POST', `/api${draft}/issue`, {});
      expect(refused.status).toBe(409);
      expect(refused.json().detail).toContain('Q-2026-001 next, and that number went out already');
    } finally {
      await studio.close();
    }
  });
});

describe.skipIf(isPostgresLeftOut)('two servers on one database', () => {
  it('issue at the same moment under consecutive numbers', { timeout: 120_000 }, async () => {
    const { url, drop } = await freshPostgres();
    const studio = await openTestStudio({ DATABASE_URL: url });
    const folder = mkdtempSync(join(tmpdir(), 'bastings-second-'));
    const environment = { DATA_DIR: folder, PORT: '0', TIME_ZONE: 'Europe/Dublin', DATABASE_URL: url };
    const second = await createApp(readConfig(environment), studio.clock);
    try {
      await second.init();
      await second.getHttpAdapter().getInstance().ready();
      await furnishHouse(studio);
      await setRates(studio, '30.00');
      const drafts: string[] = [];
      for (const name of ['Jacket', 'Cape', 'Coat', 'Vest'])
        drafts.push(await beginQuote(studio, (await aCommission(studio, [{ name }])).url));
      const answers = await Promise.all(
        drafts.map((draft, place) =>
          (place % 2 === 0 ? studio.app : second).inject({
            method: 'POST',
            url: `/api${draft}/issue`,
            headers: { authorization: `Bearer ${studio.token}`, 'content-type': 'application/json' },
            payload: '{}',
          }),
        ),
      );
      expect(answers.map(({ statusCode }) => statusCode)).toEqual([201, 201, 201, 201]);
      expect(await issued(studio)).toEqual(['Q-2026-001', 'Q-2026-002', 'Q-2026-003', 'Q-2026-004']);
    } finally {
      await second.close();
      await studio.close();
      rmSync(folder, { recursive: true, force: true });
      await drop();
    }
  });
});

describe('a browser that fails', () => {
  it('burns no number, leaves the draft, and the next try goes through', async () => {
    const studio = await openTestStudio();
    try {
      await furnishHouse(studio);
      await setRates(studio, '30.00');
      const draft = await beginQuote(studio, (await aCommission(studio, [{ name: 'Jacket' }])).url);
      const named = process.env.PUPPETEER_EXECUTABLE_PATH;
      process.env.PUPPETEER_EXECUTABLE_PATH = '/nowhere/browser';
      const fields = { once: randomUUID(), version: '1' };
      const failed = await studio.post(`${draft}/issue`, fields);
      if (named === undefined) delete process.env.PUPPETEER_EXECUTABLE_PATH;
      else process.env.PUPPETEER_EXECUTABLE_PATH = named;
      expect(failed.status).toBe(409);
      expect(failed.text).toContain('No browser stands at /nowhere/browser');
      expect(failed.text).toContain('Issue the quote');
      expect(await seriesBook.last(studio.read, 'quote/2026')).toBe(0);
      expect((await studio.get(draft)).status).toBe(200);
      const again = await studio.post(`${draft}/issue`, fields);
      expect(again.status).toBe(303);
      expect(await issued(studio)).toEqual(['Q-2026-001']);
    } finally {
      await studio.close();
    }
  });

  it('killed in the middle, is replaced and no number is lost', async () => {
    const studio = await openTestStudio();
    try {
      await furnishHouse(studio);
      await setRates(studio, '30.00');
      const first = await beginQuote(studio, (await aCommission(studio, [{ name: 'Jacket' }])).url);
      await studio.get(`${first}/preview.pdf`);
      const pid = await studio.app.get(PdfPrinter).pid();
      expect(pid).toBeGreaterThan(1);
      const paper = issueQuote(studio, first);
      process.kill(pid!, 'SIGKILL');
      await paper;
      const second = await beginQuote(studio, (await aCommission(studio, [{ name: 'Cape' }])).url);
      await issueQuote(studio, second);
      expect(await issued(studio)).toEqual(['Q-2026-001', 'Q-2026-002']);
    } finally {
      await studio.close();
    }
  });
});
