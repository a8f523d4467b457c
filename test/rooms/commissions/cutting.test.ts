import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readLength } from '../../../src/domain/measuring/length-entry.js';
import { dimensionBook } from '../../../src/storage/books/measuring/dimension-book.js';
import { measurementBook } from '../../../src/storage/books/measuring/measurement-book.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { aMaterial, aSupplier, buy, wordsOf } from '../cloth-room/a-shelf.js';
import { aCommission, beginQuote, furnishHouse, issueQuote, setRates } from '../quotes/a-commission.js';

let studio: TestStudio;
let order: { id: string; url: string; clientId: string; garments: string[] };
let job: string;
beforeAll(async () => {
  studio = await openTestStudio();
  await furnishHouse(studio);
  await setRates(studio, '20.00');
  order = await aCommission(studio, [
    { name: 'Jacket', minutes: 2400, cloth: '250.00' },
    { name: 'Waistcoat' },
    { name: 'Breeches' },
  ]);
  job = `${order.url}/garments/${order.garments[0]}`;
});
afterAll(() => studio.close());

const yes = { measurements: 'yes', cloth: 'yes', deposit: 'yes', quote: 'yes', on: '2026-03-02' };
const cut = (url: string, fields: Record<string, string> = {}) =>
  studio.post(`${url}/cut`, { once: randomUUID(), ...yes, ...fields });

const measure = async (takenOn: string, values: Record<string, string>): Promise<void> => {
  studio.clock.forward(1);
  await studio.unit.write(studio.visit, async (writing) => {
    const known = await dimensionBook.all(writing);
    await measurementBook.add(writing, {
      id: writing.newId(),
      wearer: order.clientId,
      takenOn,
      takenBy: 'Odalys Fenwright',
      over: 'shirt and trousers',
      figuration: '',
      guardian: '',
      garmentType: '',
      insteadOf: undefined,
      values: Object.entries(values).map(([place, typed]) => {
        const read = readLength(typed, { preferred: 'in' });
        if (read.kind !== 'ok') throw new Error(typed);
        return { dimension: known[Number(place)]!.id, entry: read.value, confirmed: false };
      }),
    });
    writing.says('Measured', `client/${order.clientId}`);
  });
};

describe('before a garment is cut', () => {
  it('is said what is known: nothing measured, no deposit, no quote', async () => {
    const { text } = await studio.get(`${job}/cut`);
    for (const words of [
      'No measurements of Corvin Haddlestone are kept.',
      'Planned: hand-woven tweed 1 m.',
      'None was taken from the cloth room yet.',
      'No deposit invoice went out.',
      'No quote went out.',
    ])
      expect(text).toContain(words);
  });

  it('each question wants an answer, and words where it is not yet so', async () => {
    const none = await studio.post(`${job}/cut`, {
      once: randomUUID(),
      on: '2026-03-02',
      words: 'chalked twice',
    });
    expect(none.status).toBe(422);
    expect(none.text).toContain('Answer yes or not yet.');
    expect(none.text).toContain('chalked twice');
    const no = await cut(job, { deposit: 'no' });
    expect(no.status).toBe(422);
    expect(no.text).toContain('Say why it is cut all the same.');
    expect((await cut(job, { on: '2026-03-09' })).text).toContain('This day is still to come.');
  });

  it('is said what there is: the newest set, the cloth, the accepted version', async () => {
    await measure('2026-02-20', { 0: '40 in', 1: '36 1/2 in' });
    const paper = await issueQuote(studio, await beginQuote(studio, order.url));
    await studio.post(`${order.url}/quotes/${paper.split('/').at(-1)}/answer`, {
      once: randomUUID(),
      answer: 'accepted',
      answeredOn: '2026-03-02',
      byWhom: 'Corvin Haddlestone',
      ...Object.fromEntries(order.garments.map((id) => [`taken.${id}`, 'yes'])),
    });
    const supplierId = await aSupplier(studio);
    const materialId = await aMaterial(studio);
    const { lots } = await buy(studio, supplierId, [{ materialId, quantity: '3', unitPrice: '46' }]);
    const issue = {
      kind: 'issue',
      quantity: '1',
      lot: lots[0]!.id,
      garment: order.garments[0],
      on: '2026-03-02',
    };
    const issued = await studio.api('POST', `/api/materials/${materialId}/movements`, issue);
    expect(issued.status, issued.text).toBeLessThan(300);
    const text = wordsOf((await studio.get(`${job}/cut`)).text);
    expect(text).toContain('last measured on 20 February 2026 by Odalys Fenwright, 2 measurements');
    expect(text).toContain('Taken from the cloth room: Country tweed 1 m.');
    expect(text).toContain('accepted');
  });
});

describe('a garment that was cut', () => {
  it('keeps the measurements it was cut by, and the words why it went on', async () => {
    const done = await cut(job, { deposit: 'no', depositWords: 'He pays at the fitting', words: 'Nap down' });
    expect(done.status, wordsOf(done.text)).toBe(303);
    const { standing, items } = (await studio.api('GET', `/api/garments/${order.garments[0]}/marks`)).json();
    expect(standing).toBe('cut');
    expect(
      items[0].document.set.values.map(({ entry }: { entry: { typed: string } }) => entry.typed),
    ).toEqual(['40 in', '36 1/2 in']);
    const { text } = await studio.get(job);
    for (const words of ['Deposit not settled when it was cut: He pays at the fitting', 'Nap down'])
      expect(text).toContain(words);
    expect(text).not.toContain('Measured otherwise since it was cut');
  });

  it('is cut once', async () => {
    expect((await cut(job)).status).toBe(409);
  });

  it('shows on its job sheet what was measured otherwise since', async () => {
    await measure('2026-03-02', { 0: '40 in', 1: '37 in' });
    const text = wordsOf((await studio.get(job)).text.split('id="life"')[1]!);
    expect(text).toContain('Measured otherwise since it was cut');
    expect(text).toContain('36 1/2 in');
    expect(text).toContain('+1/2 in');
    expect(text).not.toMatch(/40 in/);
  });

  it('is uncut again once that was taken back with a reason, and both stay on record', async () => {
    const [, back] = /href="([^"]*\/marks\/[^"]*\/take-back)"/.exec((await studio.get(job)).text)!;
    const without = await studio.post(back!, { once: randomUUID(), reason: ' ' });
    expect(without.status).toBe(422);
    expect((await studio.post(back!, { once: randomUUID(), reason: 'It was the waistcoat' })).status).toBe(
      303,
    );
    const { standing, items } = (await studio.api('GET', `/api/garments/${order.garments[0]}/marks`)).json();
    expect(standing).toBe('to-make');
    expect(items.map(({ words, stands }: { words: string; stands: boolean }) => [words, stands])).toEqual([
      ['Nap down', false],
      ['It was the waistcoat', false],
    ]);
    expect((await studio.post(back!, { once: randomUUID(), reason: 'Again' })).status).toBe(409);
    expect((await cut(job)).status).toBe(303);
  });

  it('is recorded by programs, and pressed twice only once', async () => {
    const answer = { isSo: true };
    const sent = { on: '2026-03-02', measurements: answer, cloth: answer, deposit: answer, quote: answer };
    const url = `/api/garments/${order.garments[1]}/cut`;
    const key = { 'idempotency-key': randomUUID() };
    const [one, two] = [await studio.api('POST', url, sent, key), await studio.api('POST', url, sent, key)];
    expect([one.status, two.status]).toEqual([201, 201]);
    expect(two.text).toBe(one.text);
    expect(
      (await studio.api('POST', `/api/garments/${order.garments[2]}/cut`, { ...sent, cloth: undefined }))
        .status,
    ).toBe(422);
    expect((await studio.get(`${order.url}/garments/${randomUUID()}/cut`)).status).toBe(404);
  });
});
