import { createHash, randomUUID } from 'node:crypto';
import { writeFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { accountWords } from '../../../../src/printing/papers/account-words.js';
import { clientBook } from '../../../../src/storage/books/client-book.js';
import { studioBook } from '../../../../src/storage/books/studio-book.js';
import { readPdf } from '../../../printing/papers/read-pdf.js';
import { openTestStudio, type TestStudio } from '../../../support/studio.js';
import { furnishHouse } from '../../quotes/a-commission.js';
import { aClient, issued, pressed, refused, wordsOf } from './papers-of.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
  await furnishHouse(studio);
  await studio.unit.write(studio.visit, async (writing) => {
    const house = await studioBook.the(writing);
    const papers = {
      ...house.papers,
      iban: 'DE89370400440532013000',
      accountName: 'Odalys Fenwright',
      bank: 'River Bank',
    };
    await studioBook.correct(writing, { ...house, papers });
    writing.says('Said where money goes', 'house');
  });
});
afterAll(() => studio.close());

/** A PDF of ours; with LOOK set it is also written there, to be looked at. */
const pdfAt = async (url: string) => {
  const answer = await studio.app.inject({ method: 'GET', url, headers: { cookie: studio.cookie } });
  expect([url, answer.statusCode, answer.headers['content-type']]).toEqual([url, 200, 'application/pdf']);
  if (process.env.LOOK)
    writeFileSync(`${process.env.LOOK}/${url.replace(/[^a-z0-9.]+/gi, '-').slice(-60)}`, answer.rawPayload);
  const { pages, ...facts } = await readPdf(answer.rawPayload);
  return { bytes: answer.rawPayload, text: pages.join('\n').replace(/\s+/g, ' '), pages, ...facts };
};
const amountsIn = (text: string): number[] =>
  [...text.matchAll(/€([\d,]+\.\d\d)/g)].map(
    ([, amount]) => Math.trunc(Number(amount!.replace(/,/g, '')) * 1000) / 1000,
  );

describe('letters about money', () => {
  let client: string;
  let payment: string;
  beforeAll(async () => {
    client = await aClient(studio, 'Corvin Haddlestone');
    await issued(studio, client, 'I-2026-001', '1,467.12'.replace(',', ''), { dueOn: '2026-02-16' });
    await issued(studio, client, 'I-2026-002', '200.00', { issuedOn: '2026-02-10', dueOn: '2026-04-10' });
    payment = await pressed(studio, `/papers/payments/new?client=${client}`, {
      on: '2026-02-20',
      amount: '1000',
      how: 'bank transfer',
    });
  });

  it('a statement tells every paper and payment with the balance after it, and the sums hold', async () => {
    const { text, isTagged, language } = await pdfAt(`/papers/accounts/${client}/statement.pdf`);
    expect([isTagged, language]).toEqual([true, expect.stringMatching(/^en/)]);
    for (const said of [
      'Statement of account',
      'Corvin Haddlestone',
      'Invoice I-2026-001',
      'Payment',
      'DE89 3704 0044 0532 0130 00',
    ])
      expect(text).toContain(said);
    // Invoiced, balance; invoiced, balance; paid, balance; to pay.
    expect(amountsIn(text)).toEqual([1467.12, 1467.12, 200, 1667.12, 1000, 667.12, 667.12]);
    const march = await pdfAt(`/papers/accounts/${client}/statement.pdf?from=2026-02-15&to=2026-02-28`);
    expect(amountsIn(march.text)).toEqual([1667.12, 1000, 667.12, 667.12]);
    expect((await studio.get(`/papers/accounts/${client}/statement.pdf?from=2026-02-30`)).status).toBe(422);
  });

  it('a reminder names what is overdue alone, in neutral words', async () => {
    const first = await pdfAt(`/papers/accounts/${client}/reminder.pdf?which=1`);
    expect(amountsIn(first.text)).toEqual([1467.12, 467.12, 467.12]);
    expect(first.text).not.toContain('I-2026-002');
    const second = await pdfAt(`/papers/accounts/${client}/reminder.pdf?which=2`);
    expect(second.text).toContain('A second reminder');
    for (const { text } of [first, second])
      expect(text).not.toMatch(/court|lawyer|legal|interest|debt|proceed|charge/i);
    const page = wordsOf((await studio.get(`/papers/accounts/${client}`)).text);
    expect(page).toContain('Rules on reminders, interest and costs differ by country');
    const nobody = await aClient(studio, 'Ambrose Tuck');
    expect((await studio.get(`/papers/accounts/${nobody}/reminder.pdf`)).status).toBe(409);
  });

  it('a reminder that goes out is kept as it is, with when, to whom, how and its hash', async () => {
    const url = `/papers/accounts/${client}`;
    const once = randomUUID();
    const said = { which: '1', toWhom: 'Corvin <b>Haddlestone</b>', how: 'by post' };
    const twice = await Promise.all([1, 2].map(() => studio.post(`${url}/reminders`, { once, ...said })));
    expect(twice.map(({ status }) => status).sort()).toEqual([303, 303]);
    const list = () =>
      studio.api('GET', `/api/clients/${client}/account/reminders`).then((one) => one.json().items);
    const [kept, ...others] = await list();
    expect(others).toEqual([]);
    expect(kept).toMatchObject({ which: 1, sentOn: '2026-03-02', papers: ['I-2026-001'], how: 'by post' });
    const { bytes, text } = await pdfAt(`${url}/reminders/${kept.id}.pdf`);
    expect(amountsIn(text)).toEqual([1467.12, 467.12, 467.12]);
    expect(kept.sha256).toBe(createHash('sha256').update(bytes).digest('hex'));
    const page = await studio.get(url);
    expect(page.text).not.toContain('<b>Haddlestone');
    expect(wordsOf(page.text)).toContain('A reminder of I-2026-001, to Corvin &lt;b&gt;');
    const empty = await refused(studio, `${url}/reminders`, { which: '3', toWhom: '', how: 'by pigeon' });
    expect(empty).toContain('Say to whom it goes.');
    const sent = { which: '2', toWhom: 'Corvin Haddlestone', how: 'by mail' };
    const made = await studio.api('POST', `/api/clients/${client}/account/reminders`, sent);
    expect([made.status, made.json().which]).toEqual([201, 2]);
    expect(await list()).toHaveLength(2);
    const nobody = await aClient(studio, 'Odo Pell');
    expect((await studio.api('POST', `/api/clients/${nobody}/account/reminders`, sent)).status).toBe(409);
    expect((await studio.get(`/papers/accounts/${nobody}/reminders/${kept.id}.pdf`)).status).toBe(404);
    expect((await pdfAt(`${url}/reminders/${kept.id}.pdf`)).bytes.equals(bytes)).toBe(true);
  });

  it('a receipt is numbered in its own series, written once, and stays as it was', async () => {
    const answers = await Promise.all(
      [1, 2, 3].map(() => studio.post(`${payment}/receipt`, { once: randomUUID() })),
    );
    expect(answers.map(({ status }) => status).sort()).toEqual([303, 409, 409]);
    const { bytes, text } = await pdfAt(`${payment}/receipt.pdf`);
    for (const said of [
      'Receipt',
      'R-2026-001',
      'Received from Corvin Haddlestone, with thanks: €1,000.00',
      'I-2026-001',
      'bank transfer',
    ])
      expect(text).toContain(said);
    const { receipt } = (await studio.api('GET', payment.replace('/papers', '/api'))).json();
    expect(receipt).toEqual({
      number: 'R-2026-001',
      issuedOn: '2026-03-02',
      sha256: createHash('sha256').update(bytes).digest('hex'),
      stands: true,
    });
    await studio.unit.write(studio.visit, async (writing) => {
      const before = await clientBook.one(writing, client);
      await clientBook.correct(writing, client, { ...before, name: 'Somebody Else' });
      writing.says('Renamed', `client/${client}`);
    });
    expect((await pdfAt(`${payment}/receipt.pdf`)).bytes.equals(bytes)).toBe(true);
    const other = await pressed(studio, `/papers/payments/new?client=${client}`, {
      on: '2026-03-01',
      amount: '5',
      how: 'coin',
    });
    const made = await studio.api('POST', `${other.replace('/papers', '/api')}/receipt`, {});
    expect([made.status, made.json().receipt.number]).toEqual([201, 'R-2026-002']);
  });

  it('a receipt whose payment was reversed says so on its page, and its print stays as it was', async () => {
    const paid = await pressed(studio, `/papers/payments/new?client=${client}`, {
      on: '2026-03-01',
      amount: '7',
      how: 'cheque',
    });
    await studio.post(`${paid}/receipt`, { once: randomUUID() });
    const { bytes } = await pdfAt(`${paid}/receipt.pdf`);
    const fell = 'This payment was reversed after the receipt was written.';
    expect(wordsOf((await studio.get(paid)).text)).not.toContain(fell);
    await pressed(studio, `${paid}/reversal`, { reason: 'Came back from the bank', on: '2026-03-02' });
    const page = wordsOf((await studio.get(paid)).text);
    expect([page.includes(fell), /Receipt R-2026-\d{3}/.test(page)]).toEqual([true, true]);
    expect((await studio.api('GET', paid.replace('/papers', '/api'))).json().receipt.stands).toBe(false);
    expect((await pdfAt(`${paid}/receipt.pdf`)).bytes.equals(bytes)).toBe(true);
  });

  it.each([
    ['fr', '1 467,12'],
    ['de', '1.467,12'],
  ] as const)('are written in the client’s language: %s', async (language, amount) => {
    const reader = await aClient(studio, `Client ${language}`, language);
    await issued(studio, reader, `X-${language}`, '1467.12');
    const { text, language: said } = await pdfAt(`/papers/accounts/${reader}/statement.pdf`);
    expect(said).toMatch(new RegExp(`^${language}`));
    expect(text).toContain(accountWords(language).statement.title);
    expect(text.replace(/[\u00a0\u202f]/g, ' ')).toContain(amount);
  });

  it('of many lines run over several pages under a repeated head, and markup stays words', async () => {
    const busy = await aClient(studio, 'Theatre <img src="http://x.example/y.png"> Company');
    for (let place = 0; place < 90; place += 1)
      await issued(studio, busy, `B-${String(place).padStart(3, '0')}`, '10.01');
    const { pages, text } = await pdfAt(`/papers/accounts/${busy}/statement.pdf`);
    expect(pages.length).toBeGreaterThan(2);
    for (const one of pages.slice(0, -1)) expect(one.toUpperCase()).toContain('BALANCE');
    expect(text).toContain('€900.90');
    expect(text).toContain('<img src=');
  });
});
