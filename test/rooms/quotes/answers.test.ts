import { randomUUID } from 'node:crypto';
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

const DAY = 24 * 60;

type Quote = { url: string; paper: string; at: string; garments: string[]; commission: string };

/** An issued quote of three garments with one option. */
const anIssuedQuote = async (): Promise<Quote> => {
  const { url, garments } = await aCommission(studio);
  const draft = await beginQuote(studio, url);
  const { choices } = (await studio.api('GET', `/api${draft}`)).json();
  const options = [{ text: 'Lining of printed silk', price: '145.00' }];
  expect((await studio.api('PUT', `/api${draft}`, { ...choices, options })).status).toBe(200);
  const paper = await issueQuote(studio, draft);
  return { url, paper, at: `${url}/quotes/${paper.split('/').at(-1)}`, garments, commission: url };
};

const accept = (changes: Record<string, string>) => ({
  once: randomUUID(),
  answer: 'accepted',
  answeredOn: studio.clock.now().slice(0, 10),
  byWhom: 'Corvin Haddlestone',
  how: 'in person',
  words: '',
  ...changes,
});
const ticks = (refs: string[]): Record<string, string> =>
  Object.fromEntries(refs.map((ref) => [`taken.${ref}`, 'yes']));
const stateOf = async (paper: string): Promise<string> =>
  (await studio.api('GET', `/api${paper}`)).json().state;

describe('the answer to a quote', () => {
  it('is put down once: who, how, when; the whole price', async () => {
    const { at, paper, garments } = await anIssuedQuote();
    expect((await studio.get(`${at}/answer`)).text).toContain('Lining of printed silk, 145.00');
    const done = await studio.post(`${at}/answer`, accept(ticks(garments)));
    expect(done.status).toBe(303);
    const { text } = await studio.get(String(done.headers.location));
    expect(text).toContain('Accepted by Corvin Haddlestone, in person, everything in the price');
    expect(await stateOf(paper)).toBe('accepted');
    const second = await studio.post(`${at}/answer`, accept({ answer: 'declined', ...ticks(garments) }));
    expect(second.status).toBe(409);
    expect(second.text).toContain('take it back with a reason first');
  });

  it('settles what the commission’s page calls the price, whatever an hour costs from then on', async () => {
    const { at, url, garments } = await anIssuedQuote();
    const pricesOn = async () =>
      [...(await studio.get(url)).text.matchAll(/€[\d,]+\.\d\d(?=[^€]*agreed)/g)].length;
    const foot = async () => /Together[\s\S]*?€([\d,.]+)/.exec((await studio.get(url)).text)?.[1];
    const before = await foot();
    expect(await pricesOn()).toBe(0);
    await studio.post(`${at}/answer`, accept(ticks(garments)));
    await setRates(studio, '44.00');
    expect(await pricesOn()).toBe(garments.length);
    expect(await foot()).toBe(before);
    await setRates(studio, '30.00');
  });

  it('is taken back with a reason, both stay readable, and another may follow', async () => {
    const { at, paper, garments } = await anIssuedQuote();
    await studio.post(`${at}/answer`, accept(ticks(garments)));
    expect((await studio.post(`${at}/correction`, { once: randomUUID(), reason: ' ' })).status).toBe(422);
    const reason = 'It was the other <b>quote</b>';
    expect((await studio.post(`${at}/correction`, { once: randomUUID(), reason })).status).toBe(303);
    expect(await stateOf(paper)).toBe('open');
    const declined = accept({ answer: 'declined', words: 'Too dear by a third' });
    expect((await studio.post(`${at}/answer`, declined)).status).toBe(303);
    const { text } = await studio.get(paper);
    expect(text).toContain('took this answer back: It was the other &lt;b&gt;quote&lt;/b&gt;');
    expect(text).toContain('“Too dear by a third”');
    expect(await stateOf(paper)).toBe('declined');
  });

  it('cannot be undone from the history, only taken back', async () => {
    const { at, garments } = await anIssuedQuote();
    const done = await studio.post(`${at}/answer`, accept(ticks(garments)));
    const act = new URL(String(done.headers.location), 'http://x').searchParams.get('done');
    const undone = await studio.post(`/history/${act}/undo`, { once: randomUUID(), back: '/' });
    expect(undone.status).toBe(409);
  });

  it('to a part lays ready the next version, with just that, at the prices of the paper', async () => {
    const { at, paper, garments, url } = await anIssuedQuote();
    const [jacket] = garments as [string];
    const before = (await studio.api('GET', `/api${paper}`)).json();
    const done = await studio.post(`${at}/answer`, accept(ticks([jacket, 'option-1'])));
    expect(done.status).toBe(303);
    const draft = String(done.headers.location).split('?')[0]!;
    expect(draft).toContain('/drafts/');
    expect(await stateOf(paper)).toBe('accepted-in-part');
    expect(before.document.sheet.options).toEqual([
      { name: 'Lining of printed silk', words: 'before tax', price: '145.00' },
    ]);
    expect((await studio.get(draft)).text).toContain('It keeps the prices of the version');
    await setRates(studio, '77.00', 'EUR', '2026-02-02');
    const next = await issueQuote(studio, draft);
    await setRates(studio, '30.00', 'EUR', '2026-02-03');
    const after = (await studio.api('GET', `/api${next}`)).json();
    expect([after.number, after.version]).toEqual([before.number, 2]);
    const [first] = before.document.sheet.garments;
    expect(after.document.sheet.garments.map(({ name, price }: never) => [name, price])).toEqual([
      ['Jacket', first.price],
      ['Lining of printed silk', '145.00'],
    ]);
    expect(after.costs.garments.map(({ name }: { name: string }) => name)).toEqual(['Jacket']);
    expect(after.costs.rates.perHour).toBe('30.00');
    const text = (await readPdf(await bytesOf(studio, `${next}.pdf`))).pages.join(' ');
    expect(text).not.toContain('Waistcoat');
    expect(await stateOf(paper)).toBe('accepted-in-part');
    expect(
      (
        await studio.post(
          `${url}/quotes/${next.split('/').at(-1)}/answer`,
          accept(ticks([jacket, 'option-1'])),
        )
      ).status,
    ).toBe(303);
    expect(await stateOf(next)).toBe('accepted');
  });

  it('to nothing is refused with what was typed kept', async () => {
    const { at } = await anIssuedQuote();
    const none = await studio.post(`${at}/answer`, accept({ words: 'kept words' }));
    expect(none.status).toBe(422);
    expect(none.text).toContain('Nothing was chosen');
    expect(none.text).toContain('kept words');
    const odd = await studio.post(`${at}/answer`, accept(ticks(['somebody-else'])));
    expect(odd.status).toBe(422);
    const early = accept({ answeredOn: '2026-01-01' });
    expect((await studio.post(`${at}/answer`, early)).text).toContain('The quote was issued on');
    const late = accept({ answeredOn: '2099-01-01' });
    expect((await studio.post(`${at}/answer`, late)).text).toContain('This day has not come yet');
  });

  it('that comes late asks whether the studio still stands by it', async () => {
    await furnishHouse(studio, { quotes: { days: 1 } });
    const { at, paper, garments } = await anIssuedQuote();
    await furnishHouse(studio, { quotes: { days: 30 } });
    studio.clock.forward(2 * DAY);
    expect(await stateOf(paper)).toBe('lapsed');
    expect((await studio.get('/papers')).text).toContain('lapsed: it was valid until');
    const asked = await studio.post(`${at}/answer`, accept(ticks(garments)));
    expect(asked.status).toBe(422);
    expect(asked.text).toContain('Does the studio still stand by it?');
    const sure = await studio.post(`${at}/answer`, accept({ ...ticks(garments), 'confirm.late': 'yes' }));
    expect(sure.status).toBe(303);
    expect(await stateOf(paper)).toBe('accepted');
  });
});

describe('an old quote at today’s rates', () => {
  it('shows then and now by cause, and becomes the next version, which takes its place', async () => {
    const { at, paper, url } = await anIssuedQuote();
    expect((await studio.get(`${at}/again`)).text).toContain('today’s price is the same');
    await setRates(studio, '33.00', 'EUR', '2026-02-05');
    const { text } = await studio.get(`${at}/again`);
    expect(text).toContain('what an hour costs +');
    expect(text).not.toContain('; hours');
    const begun = await studio.post(`${at}/again`, { once: randomUUID() });
    expect(begun.status).toBe(303);
    expect(await stateOf(paper)).toBe('open');
    const next = await issueQuote(studio, String(begun.headers.location).split('?')[0]!);
    expect(await stateOf(paper)).toBe('superseded');
    const [was, is] = await Promise.all(
      [paper, next].map(async (one) => (await studio.api('GET', `/api${one}`)).json()),
    );
    expect([is.number, is.version]).toEqual([was.number, 2]);
    expect(Number(is.total)).toBeGreaterThan(Number(was.total));
    const superseded = await studio.post(`${at}/answer`, accept({}));
    expect(superseded.status).toBe(409);
    expect(superseded.text).toContain('A later version took the place of this one');
    expect((await studio.get(`${url}/quotes`)).text).toContain('a later version took its place');
  });
});

describe('the list of papers', () => {
  it('finds by number, client, commission, and pages by key', async () => {
    const { paper } = await anIssuedQuote();
    const { number } = (await studio.api('GET', `/api${paper}`)).json();
    expect((await studio.get(`/papers?q=${number}`)).text).toContain(number);
    expect((await studio.get('/papers?q=haddlestone')).text).toContain('Corvin Haddlestone');
    expect((await studio.get('/papers?q=no-such-paper')).text).toContain('No paper of these words');
    const first = (await studio.api('GET', '/api/papers?limit=1')).json();
    const second = (await studio.api('GET', `/api/papers?limit=1&after=${first.next}`)).json();
    expect(second.items[0].id < first.items[0].id).toBe(true);
    expect((await studio.get('/papers/nothing-here')).status).toBe(404);
    expect((await studio.get('/papers/nothing-here.pdf')).status).toBe(404);
  });
});
