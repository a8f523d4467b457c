import { randomUUID } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Backups } from '../../../../src/storage/backup/backups.js';
import { photoBook } from '../../../../src/storage/books/fitting/photo-book.js';
import { openTestStudio, type TestStudio } from '../../../support/studio.js';
import { issued } from '../../papers/payments/papers-of.js';
import { aCommission, beginQuote, furnishHouse, issueQuote, setRates } from '../../quotes/a-commission.js';

// Names that stand nowhere else, so that whatever is found of them was left behind.
const NAME = 'Ottoline Zwarrenquist';
const PARTS = ['Ottoline', 'Zwarrenquist', 'zwarrenquist', 'Quorrigan', '07700 900 461', '1133.77'];

// Bytes that are nobody's, long enough to be known again.
const PICTURE = Buffer.from('a picture of Quillmere that only this test holds');

let studio: TestStudio;
let commission: Awaited<ReturnType<typeof aCommission>>;
let client: string;
let code: string;
let paper: string;
let quote: string;
const post = (url: string, fields: Record<string, string> = {}) =>
  studio.post(url, { once: randomUUID(), ...fields });
const api = async (method: string, url: string, body?: object) => {
  const answer = await studio.api(method, url, body);
  expect(answer.status, answer.text).toBeLessThan(300);
  return answer.json();
};

/** Which of the words can be read in the files a thief would have. */
const foundIn = (files: readonly string[], words: readonly string[] = PARTS): string[] => {
  const bytes = files.map((file) => readFileSync(file));
  return words.filter((word) => bytes.some((one) => one.includes(word)));
};
const dataFiles = (): string[] => {
  const folder = dirname(studio.app.get(Backups).folder);
  return readdirSync(folder)
    .filter((name) => /sqlite/.test(name))
    .map((name) => join(folder, name));
};

/** Which columns still say one of the words. */
const columnsSaying = async (words: RegExp): Promise<string[]> => {
  const found = new Set<string>();
  for (const { target, tableName } of studio.read.manager.connection.entityMetadatas)
    for (const row of await studio.read.manager.find(target))
      for (const [column, value] of Object.entries(row))
        if (typeof value === 'string' && words.test(value)) found.add(`${tableName}.${column}`);
  return [...found];
};

beforeAll(async () => {
  studio = await openTestStudio();
  await furnishHouse(studio);
  await setRates(studio, '30.00');
  commission = await aCommission(studio, [{ name: 'Coat of Ottoline' }], {
    client: NAME,
    title: 'Zwarrenquist greatcoat',
  });
  client = commission.clientId;
  const { version, ...card } = await api('GET', `/api/clients/${client}`);
  code = card.code;
  const said = {
    name: NAME,
    address: '9 Quorrigan Steps\nQuillmere',
    phone: '07700 900 461',
    notes: 'Left-handed',
  };
  const corrected = await studio.api('PUT', `/api/clients/${client}`, said, { 'if-match': `"${version}"` });
  expect(corrected.status, corrected.text).toBe(200);
  await api('POST', `/api/clients/${client}/measurements`, {
    takenOn: '2026-01-05',
    takenBy: 'Odalys Fenwright',
    figuration: 'stands erect',
    values: [{ dimension: 'chest-girth', typed: '1133.77 mm' }],
  });
  await api('POST', '/api/clients/enquiries', { name: NAME.toUpperCase(), what: 'A cape for Zwarrenquist' });
  await api('POST', '/api/counter', {
    name: NAME,
    reachedAt: '07700 900 461',
    what: 'Hem',
    cameOn: '2026-01-10',
    lines: [{ job: 'Hem', price: '12.00' }],
  });
  quote = (await issueQuote(studio, await beginQuote(studio, commission.url))).split('/').at(-1)!;
  paper = await issued(studio, client, 'Z-2026-001', '100.00');
  await studio.unit.write(studio.visit, async (writing) => {
    const photo = {
      about: `client/${client}`,
      clientId: client,
      takenOn: '2026-02-01',
      words: 'back',
      scope: 'workroom' as const,
      consentBy: NAME,
      until: undefined,
      width: 4,
      height: 3,
      addedBy: 'Odalys Fenwright',
    };
    await photoBook.add(writing, photo, { picture: PICTURE, small: PICTURE });
    writing.says('Added a photograph', `client/${client}`);
  });
  // Somebody else's remark names them too.
  await api('POST', '/api/clients', { name: 'Corvin Haddlestone', notes: `Sent here by ${NAME}.` });
}, 120_000);
afterAll(() => studio.close());

describe('what is held on a client', () => {
  it('stands on one page, counted and linked, and can be taken along', async () => {
    const { text } = await studio.get(`/clients/${client}/held`);
    const words = text.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ');
    expect(words).toMatch(/Measured values 1 goes/);
    expect(words).toMatch(/Photographs 1 goes/);
    expect(words).toMatch(/Enquiries 1 goes/);
    expect(words).toMatch(/Counter work 1 loses the name/);
    expect(words).toMatch(/Quotes 1 an accepted one stays/);
    expect(words).toMatch(/Invoices and credit notes 1 stays/);
    expect(text).toContain(`href="/clients/${client}/measurements"`);
    const csv = await studio.get(`/clients/${client}/export.csv`);
    expect(csv.text).toContain('Measured values,1,typed,1133.77 mm');
    expect(csv.text).not.toContain('folded');
    const told = await api('GET', `/api/clients/${client}/export`);
    expect(told.held.find(({ kind }: any) => kind === 'Card').records[0].phone).toBe('07700 900 461');
    // What it cost the studio is the studio's own affair.
    expect(JSON.stringify(told)).not.toMatch(/"costs"|profit_share|certainty/);
  });
});

describe('erasing', () => {
  it('is refused while work, things of theirs or money stand between, and says which', async () => {
    const { text } = await studio.get(`/clients/${client}/erasure`);
    expect(text).toContain('cannot be undone');
    expect(text).toContain('ask a licensed adviser how long');
    expect(text).toContain('is not finished');
    expect(text).toContain('was not collected');
    expect(text).toContain('They owe €100.00');
    expect(text).not.toContain('Erase for good');
    const refused = await studio.api('POST', `/api/clients/${client}/erasure`, { number: code });
    expect(refused.status).toBe(409);
    expect(foundIn(dataFiles())).toEqual(expect.arrayContaining(['Ottoline', 'Quorrigan', '1133.77']));
    expect(foundIn(dataFiles(), [PICTURE.toString('base64')])).toHaveLength(1);
  });

  it('asks for the number of the right client', async () => {
    const garment = `${commission.url}/garments/${commission.garments[0]}`;
    const cancelled = await post(`${garment}/cancel`, { on: '2026-03-02', words: 'Zwarrenquist moved away' });
    expect(cancelled.status, cancelled.text).toBe(303);
    const [ticket] = (await api('GET', '/api/counter')).items;
    await api('POST', `/api/counter/${ticket.id}/collected`, {
      collectedOn: '2026-03-02',
      collectedBy: NAME,
    });
    await api('POST', '/api/payments', {
      clientId: client,
      on: '2026-03-02',
      amount: '100.00',
      how: `transfer`,
      note: `from ${NAME}`,
      parts: [{ paperId: paper, amount: '100.00' }],
    });
    const wrong = await post(`/clients/${client}/erasure`, { number: 'C-9999' });
    expect(wrong.status).toBe(422);
    expect(wrong.text).toContain(`Write ${code}`);
    expect(wrong.text).toContain('value="C-9999"');
  });

  it('takes everything away but the papers, from the file and from the next backup', async () => {
    const erased = await post(`/clients/${client}/erasure`, { number: code.toLowerCase() });
    expect(erased.status, erased.text).toBe(303);
    const page = await studio.get(String(erased.headers.location));
    expect(page.text).toContain('Erased on');
    expect(page.text).not.toMatch(/Ottoline|Zwarrenquist/);
    expect(await columnsSaying(/Ottoline|Zwarrenquist|Quorrigan|1133\.77/i)).toEqual([]);
    expect(foundIn(dataFiles())).toEqual([]);
    expect(foundIn(dataFiles(), [PICTURE.toString('base64')])).toEqual([]);
    const backups = studio.app.get(Backups);
    const { name } = await backups.make();
    expect(foundIn([join(backups.folder, name)])).toEqual([]);
  });

  it('leaves the ledger its number, date and amount, and every page readable', async () => {
    const [kept] = (await api('GET', `/api/payments?clientId=${client}`)).items;
    expect(kept.amount).toBe('100.00');
    const pages = [
      `/clients/${client}`,
      `/papers/accounts/${client}`,
      commission.url,
      `${commission.url}/garments/${commission.garments[0]}`,
      `/history?about=client/${client}`,
      `/history?about=commission/${commission.id}`,
      '/history',
      '/bench/counter',
      '/papers',
    ];
    for (const url of pages) {
      const { status, text } = await studio.get(url);
      expect([url, status]).toEqual([url, 200]);
      expect(text).not.toMatch(/Zwarrenquist|Ottoline|undefined|\bnull\b/i);
    }
    expect((await studio.get(`/papers/${quote}.pdf`)).status).toBe(404);
    expect((await studio.get('/find?q=zwarrenquist')).text).toContain('Nothing');
  });

  it('leaves nobody in the lists, and nothing more is written about them', async () => {
    expect(
      (await api('GET', '/api/clients?limit=100')).items.map((one: { id: string }) => one.id),
    ).not.toContain(client);
    expect((await studio.get('/clients')).text).not.toContain(code);
    const { version } = await api('GET', `/api/clients/${client}`);
    const values = [{ dimension: 'chest-girth', typed: '977 mm' }];
    const set = { values, takenOn: '2026-03-02', takenBy: 'O. F.' };
    for (const [method, url, body] of [
      ['PUT', `/api/clients/${client}`, { name: 'Back Again' }],
      ['POST', `/api/clients/${client}/measurements`, set],
      ['POST', '/api/commissions', { clientId: client, garments: [{ typeId: 'waistcoat' }] }],
    ] as const) {
      const answer = await studio.api(method, url, body, { 'if-match': `"${version}"` });
      expect([url, answer.status, answer.json().code], answer.text).toEqual([url, 409, 'erased']);
    }
    expect((await post(`/clients/${client}`, { version: String(version), name: 'Back Again' })).status).toBe(
      409,
    );
  });

  it('happens once, and no undo brings anything back', async () => {
    expect((await studio.api('POST', `/api/clients/${client}/erasure`, { number: code })).status).toBe(409);
    const { items } = await api('GET', `/api/history?about=client/${client}`);
    expect(items.length).toBeGreaterThan(2);
    for (const { id } of items)
      expect((await studio.api('POST', `/api/history/${id}/undo`)).status).toBe(409);
  });
});
