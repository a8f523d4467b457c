import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  creditorReference,
  referenceInFours,
} from '../../../../src/domain/papers/payment/creditor-reference.js';
import { openTestStudio, type TestStudio } from '../../../support/studio.js';
import { fieldsOf, upload } from '../../clients/import/steps.js';
import { aClient, issued, wordsOf } from './papers-of.js';

let studio: TestStudio;
let corvin: string;
let maud: string;
let invoice: string;
beforeAll(async () => {
  studio = await openTestStudio();
  corvin = await aClient(studio, 'Corvin Haddlestone');
  maud = await aClient(studio, 'Maud Ellery');
  invoice = await issued(studio, corvin, 'I-2026-001', '120.50');
  await issued(studio, maud, 'I-2026-002', '75.00');
});
afterAll(() => studio.close());

const bank = '/papers/payments/bank';
/** From a file to the page of its lines, with the columns that were guessed. */
const brought = async (bytes: string | Uint8Array, changes: Record<string, string> = {}) => {
  const columns = await upload(studio, bytes, 'statement.csv', true, `${bank}/columns`);
  expect([columns.status, columns.status === 200 ? '' : wordsOf(columns.text)]).toEqual([200, '']);
  return studio.post(`${bank}/bring`, { ...fieldsOf(columns.text), once: randomUUID(), ...changes });
};
const landed = async (...asked: Parameters<typeof brought>) => {
  const answer = await brought(...asked);
  expect([answer.status, answer.status === 303 ? '' : wordsOf(answer.text)]).toEqual([303, '']);
  return String(answer.headers.location).replace(/\?.*$/, '');
};
const linesOf = async (url: string) => {
  const answer = await studio.api('GET', `/api/payments/bank/${url.split('/').at(-1)}/lines?limit=100`);
  return answer.json().items as {
    id: string;
    on: string;
    amount: string;
    payer: string;
    words: string;
    standing: string;
    paymentId: string | null;
    matches: { clientId: string; papers: string[]; sure: string; why: string[] }[];
  }[];
};
const told = async (url: string) =>
  (await linesOf(url)).map(({ on, amount, payer }) => `${on} ${amount} ${payer}`);
const balance = async (client: string) =>
  (await studio.api('GET', `/api/clients/${client}/account`)).json().balance;

describe('a statement', () => {
  const wanted = ['2026-03-13 120.50 Zoë Quern', '2026-03-14 -1400.00 Landlady'];
  const latin1 = (text: string) => Buffer.from(text, 'latin1');
  it.each([
    [
      'commas and points',
      'Date,Amount,Name,Details\n13/03/2026,120.50,Zoë Quern,a1\n14/03/2026,"-1,400.00",Landlady,rent',
    ],
    [
      'semicolons and decimal commas',
      'Date;Amount;Name;Details\n13.03.2026;120,50;Zoë Quern;b1\n14.03.2026;-1.400,00;Landlady;rent',
    ],
    [
      'tabs and two columns',
      'Date\tPaid out\tPaid in\tName\tDetails\n2026-03-13\t\t120.50\tZoë Quern\tc1\n2026-03-14\t1400.00\t\tLandlady\trent',
    ],
    [
      'Windows-1252',
      latin1(
        'Buchungstag;Betrag;S/H;Name;Verwendungszweck\r\n13.03.26;120,50;H;Zoë Quern;d1\r\n14.03.26;1400,00;S;Landlady;Miete\r\n',
      ),
    ],
    [
      'UTF-16',
      Buffer.concat([
        Buffer.from([0xff, 0xfe]),
        Buffer.from(
          'Date,Amount,Name,Details\n20260313,120.50,Zoë Quern,e1\n20260314,-1400.00,Landlady,rent',
          'utf16le',
        ),
      ]),
    ],
    [
      'American order, by the dates',
      '\ufeffDate,Amount,Name,Details\n03/13/2026,120.50,Zoë Quern,f1\n03/14/2026,"($1,400.00)",Landlady,rent',
    ],
  ] as [string, string | Buffer][])('comes in with %s', async (name, bytes) => {
    const text = typeof bytes === 'string' ? bytes.replaceAll('rent', `rent ${name}`) : bytes;
    expect(await told(await landed(text))).toEqual(wanted);
  });

  it('asks where it could be read both ways, keeps the file meanwhile, and goes by the answer', async () => {
    const text = 'Date,Amount,Name\n03/04/2026,1.234,Ambrose';
    const asked = await brought(text);
    expect(asked.status).toBe(422);
    expect(wordsOf(asked.text)).toContain('Every date here could be read both ways');
    const amount = await studio.post(`${bank}/bring`, {
      ...fieldsOf(asked.text),
      once: randomUUID(),
      dateOrder: 'day-first',
    });
    expect(wordsOf(amount.text)).toContain('Every amount here could be read both ways');
    const url = await landed(text, { dateOrder: 'month-first', decimalSign: ',' });
    expect(await told(url)).toEqual(['2026-03-04 1234.00 Ambrose']);
  });

  it('names each line it cannot read, and brings in nothing until somebody says so', async () => {
    const text =
      'Date,Amount,Name\n2026-03-01,12.00,g1\nopening balance,,\n2026-03-01,12.345,g2\n2026-03-01,x,<script>alert(1)</script>';
    const refused = await brought(text);
    expect(refused.status).toBe(422);
    const words = wordsOf(refused.text);
    for (const said of [
      '3 of the lines cannot be read',
      '“opening balance” is not a date',
      '“12.345” is not an amount',
    ])
      expect(words).toContain(said);
    expect(await told(await landed(text, { leaveTroubles: 'yes' }))).toEqual(['2026-03-01 12.00 g1']);
  });

  it.each([
    ['', 'Choose a file, or paste the list.'],
    ['Date,Amount\n', 'There are no lines in this table.'],
    ['Date,Amount\n"2026-03-01,5', 'a quotation mark is opened and not closed'],
    [Buffer.from([0x89, 0x50, 0, 0, 1]), 'This is not a text file'],
    [`Date,Amount\n${'2026-03-01,5.00\n'.repeat(20_001)}`, 'at most 20000'],
    ['x'.repeat(6 * 1024 * 1024 + 1), 'larger than 6 MB'],
  ] as [string | Buffer, string][])('that is no statement is refused (%#)', async (bytes, sentence) => {
    const answer = await upload(studio, bytes, 'statement.csv', true, `${bank}/columns`);
    expect([answer.status, wordsOf(answer.text)]).toEqual([422, expect.stringContaining(sentence)]);
  });

  it('whose formulas and markup are words stays words', async () => {
    const url = await landed(
      'Date,Amount,Name,Details\n2026-03-01,1.00,"=HYPERLINK(""http://x.example"",""pay"")",<img src=x onerror=alert(1)>',
    );
    const { text } = await studio.get(url);
    expect(text).not.toContain('<img src=x');
    expect(text).not.toMatch(/href="http:\/\/x\.example/);
    expect(wordsOf(text)).toContain('HYPERLINK');
  });
});

describe('the lines', () => {
  it('are proposed with reasons, booked only by hand, and never twice', async () => {
    const reference = referenceInFours(creditorReference('I-2026-001'));
    const text = `Date,Amount,Name,Details\n2026-03-01,120.50,C HADDLESTONE,"thank you ${reference}"\n2026-03-01,80.00,ELLERY MAUD,cape\n2026-03-01,-9.00,Needles,`;
    const url = await landed(text);
    const [first, second, third] = await linesOf(url);
    expect(first?.matches[0]).toEqual({
      clientId: corvin,
      papers: [invoice],
      sure: 'Sure',
      why: ['The creditor reference of I-2026-001 stands in the words.', 'The amount is just what is open.'],
    });
    expect([second?.matches[0]?.clientId, second?.matches[0]?.sure, third?.matches]).toEqual([
      maud,
      'Perhaps',
      [],
    ]);
    expect([await balance(corvin), await balance(maud)]).toEqual(['120.50', '75.00']);
    expect(wordsOf((await studio.get(url)).text)).toContain('Sure. The creditor reference of I-2026-001');

    const nothing = await studio.post(url, { once: randomUUID(), [`line.${first?.id}`]: '' });
    expect([nothing.status, wordsOf(nothing.text)]).toEqual([
      422,
      expect.stringContaining('Nothing was chosen'),
    ]);
    const wrong = await studio.post(url, {
      once: randomUUID(),
      [`line.${first?.id}`]: `${corvin}:${invoice}`,
      [`line.${second?.id}`]: '',
      [`who.${second?.id}`]: 'X-99',
    });
    expect([wrong.status, await balance(corvin)]).toEqual([422, '120.50']);
    expect(wordsOf(wrong.text)).toContain('There is no client with the number “X-99”');

    const code = (await studio.api('GET', `/api/clients/${maud}`)).json().code;
    const done = await studio.post(url, {
      once: randomUUID(),
      [`line.${first?.id}`]: `${corvin}:${invoice}`,
      [`line.${second?.id}`]: '',
      [`who.${second?.id}`]: code,
      [`line.${third?.id}`]: 'aside',
    });
    expect([done.status, await balance(corvin), await balance(maud)]).toEqual([303, '0.00', '-5.00']);
    const again = await studio.api('POST', `/api/payments/bank/lines/${first?.id}/payment`, {
      clientId: corvin,
    });
    expect([again.status, again.json().code]).toEqual([409, 'line-taken']);

    const twice = await studio.api('POST', '/api/payments/bank', {
      text: `${text}\n2026-03-02,80.00,ELLERY MAUD,cape`,
      headed: true,
      columns: ['date', 'amount', 'payer', 'words'],
    });
    expect([twice.status, twice.json().known, twice.json().lines]).toEqual([201, 3, 1]);
    expect(await balance(corvin)).toBe('0.00');
    const { paymentId } = (await linesOf(url))[0]!;
    await studio.api('POST', `/api/payments/${paymentId}/reversal`, { reason: 'the wrong client' });
    expect((await linesOf(url))[0]?.standing).toBe('open');
  });

  it('of one statement are taken once, however many press at once', async () => {
    await issued(studio, corvin, 'I-2026-077', '33.00');
    const before = Number(await balance(corvin));
    const url = await landed('Date,Amount,Name,Details\n2026-03-01,33.00,x,I-2026-077');
    const { id } = (await linesOf(url))[0]!;
    const answers = await Promise.all(
      [1, 2, 3, 4].map(() =>
        studio.api('POST', `/api/payments/bank/lines/${id}/payment`, { clientId: corvin }),
      ),
    );
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409, 409, 409]);
    expect(Number(await balance(corvin))).toBe(before - 33);
  });

  it('may be 20,000, brought in once and read by pages', async () => {
    const rows = Array.from(
      { length: 20_000 },
      (_, place) =>
        `2026-02-${String(1 + (place % 28)).padStart(2, '0')},${place + 1}.10,Payer ${place},words`,
    );
    const text = `Date,Amount,Name,Details\n${rows.join('\n')}`;
    const columns = ['date', 'amount', 'payer', 'words'];
    const made = await studio.api('POST', '/api/payments/bank', { text, headed: true, columns });
    expect([made.status, made.json().lines]).toEqual([201, 20_000]);
    const last = ['Date,Amount,Name,Details', ...rows.slice(-900), '2026-03-01,1.00,New,words'].join('\n');
    const again = await studio.api('POST', '/api/payments/bank', { text: last, headed: true, columns });
    expect([again.json().lines, again.json().known]).toEqual([1, 900]);
    const page = await studio.get(`${bank}/${made.json().id}`);
    expect([page.status, wordsOf(page.text)]).toEqual([200, expect.stringContaining('20000 lines open')]);
  }, 120_000);

  it('brought in wrongly go away again in one press', async () => {
    const url = await landed('Date,Amount,Name,Details\n2026-01-01,1.00,undone,h1');
    const history = await studio.api('GET', '/api/history?about=payments');
    const act = history
      .json()
      .items.find(({ sentence }: { sentence: string }) => /bank statement of 1 line/.test(sentence));
    const undone = await studio.api('POST', `/api/history/${act?.id}/undo`, {});
    expect([undone.status, undone.text]).toEqual([expect.any(Number), expect.any(String)]);
    expect((await studio.get(url)).status).toBe(404);
  });
});
