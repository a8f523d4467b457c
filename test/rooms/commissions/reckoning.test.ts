import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { lessonBook } from '../../../src/storage/lesson/lesson-book.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { aMaterial, aSupplier, buy, pressed, wordsOf } from '../cloth-room/a-shelf.js';

let studio: TestStudio;
let commission: string;
let garment: string;
let operations: { id: string; name: string }[];

const made = async (path: string, body: unknown) => {
  const answer = await studio.api('POST', path, body);
  expect(answer.status, answer.text).toBe(201);
  return answer.json();
};

beforeAll(async () => {
  studio = await openTestStudio();
  const rates = {
    from: '2026-01-01',
    people: [{ name: 'Odalys Fenwright', plainPerHour: '24.00' }],
    overhead: [],
  };
  const set = await studio.api('POST', '/api/rates', rates);
  expect([200, 201], set.text).toContain(set.status);
  const client = await made('/api/clients', { name: 'Corvin Haddlestone' });
  const opened = await made('/api/commissions', {
    clientId: client.id,
    title: 'A waistcoat',
    garments: [{ typeId: 'waistcoat', name: 'Waistcoat', make: 'all-hand' }],
  });
  commission = opened.id;
  garment = (await studio.api('GET', `/api/commissions/${commission}/garments`)).json().items[0].id;
  operations = (await studio.api('GET', `/api/garments/${garment}/plan`)).json().items;
});
afterAll(() => studio.close());

const page = () => studio.get(`/commissions/${commission}/garments/${garment}/reckoning`);
const look = async () => (await studio.api('GET', `/api/garments/${garment}/reckoning`)).json();
const addsUp = (one: { quotedProfit: string; actualProfit: string; bridge: { amount: string }[] }) => {
  const cents = (text: string) => Math.round(Number(text) * 100);
  const bridge = one.bridge.reduce((sum, { amount }) => sum + cents(amount), 0);
  expect(cents(one.quotedProfit) + bridge).toBe(cents(one.actualProfit));
};

describe('the reckoning', () => {
  it('stands as it would be frozen, and adds up', async () => {
    for (const { id } of operations.slice(0, 6))
      await made(`/api/garments/${garment}/bench-entries`, {
        operation: id,
        minutes: 90,
        on: '2026-03-01',
        evenIfOdd: true,
      });
    await made(`/api/garments/${garment}/bench-entries`, {
      what: 'Re-cut the facing',
      cause: 'own error',
      mode: 'bench',
      minutes: 40,
      on: '2026-03-01',
      evenIfOdd: true,
    });
    const one = await look();
    expect(one.closed).toBe(false);
    addsUp(one);
    expect(one.byCause).toContainEqual({ cause: 'own error', minutes: 40 });
    expect(one.cost.labour).toBe('232.00');
    const { text, status } = await page();
    expect(status).toBe(200);
    expect(text).toContain('From the quoted profit to the actual one');
    expect(text).not.toMatch(/NaN|undefined/);
  });

  it('waits for a running clock', async () => {
    await made('/api/bench/clock', { garment, stage: 'make' });
    const refused = await studio.api('POST', `/api/garments/${garment}/reckoning`, {});
    expect(refused.status).toBe(409);
    expect((await page()).text).toContain('A clock still runs on it');
    await studio.api('POST', '/api/bench/clock/stop', {});
  });

  it('waits for cloth still promised to it, says so, and loses nothing', async () => {
    const tweed = await aMaterial(studio);
    await buy(studio, await aSupplier(studio), [{ materialId: tweed, quantity: '3', unitPrice: '40' }]);
    const kept = await made(`/api/materials/${tweed}/reservations`, { garment, quantity: '1.5' });
    const before = await look();
    const [words, where] = [
      'Cloth or trimmings are still promised to it.',
      `/commissions/${commission}/materials`,
    ];
    const shown = (await page()).text;
    expect(shown).toContain(words);
    expect(shown).toContain(`href="${where}"`);
    expect(wordsOf((await studio.get(where)).text)).toContain('Country tweed');
    const sent = await studio.api('POST', `/api/garments/${garment}/reckoning`, {});
    expect(sent.status).toBe(409);
    expect(sent.text).toContain(words);
    // Somebody promised it while the form was being filled in: what was typed comes back.
    const typed = {
      price: '321.50',
      unwritten: 'none',
      words: 'Narrower lapel <i>',
      once: 'promised-meanwhile',
    };
    const refused = await studio.post(`/commissions/${commission}/garments/${garment}/reckoning`, typed);
    expect(refused.status).toBe(409);
    for (const part of [words, 'value="321.50"', 'Narrower lapel &lt;i&gt;', `href="${where}"`])
      expect(refused.text).toContain(part);
    expect(await look()).toEqual(before);
    const promises = (await studio.api('GET', `/api/materials/${tweed}/reservations`)).json().items;
    expect(promises.map(({ id }: { id: string }) => id)).toEqual([kept.id]);
    await pressed(studio, `/cloth-room/reservations/${promises[0].id}/release`, {});
    expect((await page()).text).not.toContain(words);
  });

  it('freezes once, with a price of goodwill, and teaches', async () => {
    const url = `/commissions/${commission}/garments/${garment}/reckoning`;
    const wrong = await studio.post(url, { price: 'plenty', unwritten: 'as-planned', words: '<b>x</b>' });
    expect(wrong.status).toBe(422);
    expect(wrong.text).toContain('&lt;b&gt;x&lt;/b&gt;');
    const before = await lessonBook.upToDate(studio.read);
    const closed = await studio.post(url, {
      price: '250',
      unwritten: 'none',
      words: '<b>x</b>',
      once: 'close-it',
    });
    expect(closed.status).toBe(303);
    expect((await studio.post(url, { price: '1', unwritten: 'none', words: '' })).status).toBe(409);
    const one = await look();
    expect(one).toMatchObject({ closed: true, price: '250.00', closedOn: '2026-03-02' });
    addsUp(one);
    const sheet = (await studio.api('GET', `/api/garments/${url.split('/').at(-2)}/cost-sheet`)).json();
    expect(sheet.columns.actual).toEqual(one.cost);
    const landing = (await studio.get(url.replace('/reckoning', '/landing'))).text;
    expect(landing).toContain('Overhead together');
    expect(landing).toContain(`data-label="Actual"><span class="cell" dir="auto">${one.cost.cost}</span>`);
    const text = (await page()).text;
    expect(text).toContain('These figures do not change again.');
    expect(text).not.toContain('<b>x</b>');
    const after = await lessonBook.upToDate(studio.read);
    expect(after.garments).toBe(before.garments + 1);
  });

  it('lets nothing more be written to a closed garment, and stays as it was frozen', async () => {
    const frozen = await look();
    const refused = await studio.api('POST', `/api/garments/${garment}/bench-entries`, {
      stage: 'make',
      minutes: 5,
      on: '2026-03-01',
    });
    expect(refused.status).toBe(409);
    const rates = {
      from: '2026-01-02',
      people: [{ name: 'Odalys Fenwright', plainPerHour: '99.00' }],
      overhead: [],
    };
    await studio.api('POST', '/api/rates', rates);
    expect(await look()).toEqual(frozen);
    const { text } = await studio.get(`/commissions/${commission}/reckoning`);
    expect(text).toContain('Garment by garment');
  });

  it('is opened again with a reason, on record', async () => {
    const url = `/commissions/${commission}/garments/${garment}/reckoning`;
    expect((await studio.post(`${url}/reopen`, { reason: '' })).status).toBe(422);
    expect((await studio.post(`${url}/reopen`, { reason: 'A bill came late' })).status).toBe(303);
    expect((await look()).closed).toBe(false);
    expect((await studio.post(`${url}/reopen`, { reason: 'Again' })).status).toBe(409);
    const after = await lessonBook.upToDate(studio.read);
    expect(after.garments).toBe(0);
    await made(`/api/garments/${garment}/reckoning`, {});
  });
});
