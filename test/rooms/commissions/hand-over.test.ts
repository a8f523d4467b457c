import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openGarments } from '../../../src/storage/books/bench/open-garments.js';
import { readPdf } from '../../printing/papers/read-pdf.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { aMaterial, aSupplier, buy, wordsOf } from '../cloth-room/a-shelf.js';
import {
  aCommission,
  beginQuote,
  bytesOf,
  furnishHouse,
  issueQuote,
  setRates,
} from '../quotes/a-commission.js';
import { workedOn } from './at-work.js';

let studio: TestStudio;
let order: { id: string; url: string; clientId: string; garments: string[] };
let jobs: string[];
let tweed: string;
let piece: string;

beforeAll(async () => {
  studio = await openTestStudio();
  await furnishHouse(studio, {
    quotes: { terms: 'When it is cancelled after cutting, 25 % of the price is due.' },
  });
  await setRates(studio, '20.00');
  order = await aCommission(
    studio,
    ['Jacket', 'Waistcoat', 'Gown', 'Cape'].map((name) => ({
      name,
      minutes: 600,
      dueOn: '2026-02-27',
      ownPrice: '800.00',
    })),
  );
  jobs = order.garments.map((id) => `${order.url}/garments/${id}`);
  tweed = await aMaterial(studio, { care: 'Brush; air; press under a damp cloth.' });
  const { lots } = await buy(studio, await aSupplier(studio), [
    { materialId: tweed, quantity: '6', unitPrice: '40' },
  ]);
  piece = lots[0]!.id;
});
afterAll(() => studio.close());

const take = (garment: number, quantity = '1') =>
  studio.api('POST', `/api/materials/${tweed}/movements`, {
    kind: 'issue',
    quantity,
    lot: piece,
    garment: order.garments[garment],
    on: '2026-03-02',
  });
const work = (garment: number, minutes: number) => workedOn(studio, order, order.garments[garment]!, minutes);
const handOver = (url: string, fields: Record<string, string> = {}) =>
  studio.post(`${url}/hand-over`, {
    once: randomUUID(),
    receivedBy: 'Corvin Haddlestone',
    on: '2026-03-02',
    ...fields,
  });
const leaving = async (): Promise<string[]> =>
  (await openGarments(studio.read))
    .filter(({ commissionId }) => commissionId === order.id)
    .map(({ name }) => name);

describe('handing over', () => {
  it('shows what is open, and the care of what went into it', async () => {
    expect((await take(0)).status).toBe(201);
    const { text } = await studio.get(`${jobs[0]}/hand-over`);
    expect(text).toContain('No invoice of this commission has gone out yet.');
    expect(text).toContain('Country tweed: Brush; air; press under a damp cloth.');
  });

  it('says which clock still runs on it and which cloth is still promised to it, with what to do', async () => {
    const [garment] = order.garments;
    const promised = await studio.api('POST', `/api/materials/${tweed}/reservations`, {
      garment,
      quantity: '1.5',
    });
    expect(promised.status, promised.text).toBe(201);
    const away = { garment, what: 'Heavier chest piece', mode: 'hand', cause: 'own choice' };
    expect((await studio.api('POST', '/api/bench/clock', away)).status).toBe(201);
    const { text } = await studio.get(`${jobs[0]}/hand-over`);
    const words = wordsOf(text);
    expect(words).toContain('still runs on it: Heavier chest piece.');
    expect(words).toContain('Stop it at the bench');
    // 1.5 m were promised, 1 m was taken.
    expect(words).toContain('0.5 m of Country tweed, promised to it, were never taken.');
    expect(text).toContain(`href="/cloth-room/materials/${tweed}"`);
    await studio.api('DELETE', '/api/bench/clock');
    expect(wordsOf((await studio.get(`${jobs[0]}/hand-over`)).text)).not.toContain('still runs on it');
  });

  it('wants somebody who received it, on a day that has come', async () => {
    const nobody = await handOver(jobs[0]!, { receivedBy: '', spares: 'Two horn buttons' });
    expect(nobody.status).toBe(422);
    expect(nobody.text).toContain('Who received it?');
    expect(nobody.text).toContain('Two horn buttons');
    expect((await handOver(jobs[0]!, { on: '2026-03-05' })).text).toContain('This day is still to come.');
  });

  it('takes the garment off the leaving order, and prints a slip to sign', async () => {
    expect(await leaving()).toContain('Jacket');
    const said = { spares: 'Two horn buttons\nThread', remnants: 'Half a metre <i>', care: 'Brush; air.' };
    expect((await handOver(jobs[0]!, said)).status).toBe(303);
    expect(await leaving()).not.toContain('Jacket');
    expect((await handOver(jobs[0]!)).status).toBe(409);
    expect(wordsOf((await studio.get(order.url)).text)).toContain('Jacket handed over');
    expect(wordsOf((await studio.get(order.url)).text)).toContain('Waistcoat not cut yet');
    expect(wordsOf((await studio.get('/commissions')).text)).toContain('4 garments 1 handed over');
    const { items } = (await studio.api('GET', '/api/commissions')).json();
    expect(items.find(({ id }: { id: string }) => id === order.id).standings).toEqual({ delivered: 1 });
    const pdf = await readPdf(await bytesOf(studio, `${jobs[0]}/hand-over.pdf`));
    expect(pdf.pages).toHaveLength(1);
    for (const words of [
      'Jacket',
      'Two horn buttons',
      'Half a metre <i>',
      'Received by Corvin Haddlestone',
      '2 March 2026',
    ])
      expect(pdf.pages[0]).toContain(words);
    expect(pdf.size).toEqual([420, 595]);
  });

  it('is followed by notes that open nothing again', async () => {
    expect((await studio.get(`${jobs[0]}/aftercare`)).text).toContain('a small garment of their own');
    const note = { once: randomUUID(), words: 'Cuff button sewn on again', on: '2026-03-02' };
    expect((await studio.post(`${jobs[0]}/aftercare`, note)).status).toBe(303);
    expect((await studio.get(`${jobs[0]}/aftercare`)).text).toContain('Cuff button sewn on again');
    const marks = (await studio.api('GET', `/api/garments/${order.garments[0]}/marks`)).json();
    expect(marks.standing).toBe('delivered');
    const early = await studio.api('POST', `/api/garments/${order.garments[1]}/aftercare`, {
      on: '2026-03-02',
      words: 'x',
    });
    expect(early.status).toBe(409);
  });

  it('is taken back with a reason, and the garment should leave again', async () => {
    const { items } = (await studio.api('GET', `/api/garments/${order.garments[0]}/marks`)).json();
    const { id } = items.find(({ kind }: { kind: string }) => kind === 'delivered');
    const back = await studio.api('POST', `/api/garments/${order.garments[0]}/marks/${id}/take-back`, {
      reason: 'It was left here after all',
    });
    expect(back.status).toBe(201);
    expect(await leaving()).toContain('Jacket');
  });
});

describe('a garment that is cancelled', () => {
  it('shows what it came to beside what the terms name, as figures and nothing more', async () => {
    const paper = await issueQuote(studio, await beginQuote(studio, order.url));
    await studio.post(`${order.url}/quotes/${paper.split('/').at(-1)}/answer`, {
      once: randomUUID(),
      answer: 'accepted',
      answeredOn: '2026-03-02',
      byWhom: 'Corvin Haddlestone',
      ...Object.fromEntries(order.garments.map((id) => [`taken.${id}`, 'yes'])),
    });
    expect((await take(2, '2')).status).toBe(201);
    await work(2, 90);
    // By hand: 90 min at 20.00 an hour = 30.00; 2 m at 240 / 6 = 80.00; together 110.00. 25 % of 800.00 = 200.00.
    const text = wordsOf((await studio.get(`${jobs[2]}/cancel`)).text);
    for (const words of [
      '€30.00',
      '€80.00',
      '€110.00',
      '€800.00',
      '25 % of the agreed price',
      '€200.00',
      'Rules differ by country',
    ])
      expect(text).toContain(words);
    const told = (await studio.api('GET', `/api/garments/${order.garments[2]}/cost-to-date`)).json();
    expect(told).toMatchObject({
      figures: { cost: '110.00', time: '30.00', materials: '80.00' },
      agreedPrice: '800.00',
    });
  });

  it('wants a reason, keeps its record, and leaves the leaving order', async () => {
    const none = await studio.post(`${jobs[2]}/cancel`, { once: randomUUID(), words: '', on: '2026-03-02' });
    expect(none.status).toBe(422);
    const done = await studio.post(`${jobs[2]}/cancel`, {
      once: randomUUID(),
      words: 'The wedding was called off',
      on: '2026-03-02',
    });
    expect(done.status).toBe(303);
    expect((await studio.get(`${jobs[2]}/cancelled`)).text).toContain('The wedding was called off');
    expect(await leaving()).not.toContain('Gown');
  });

  it('takes no cloth, no plan, no extra, and no hand-over any more', async () => {
    const refused = await take(2);
    expect(refused.status).toBe(409);
    expect(refused.text).toContain('This garment was cancelled');
    expect((await studio.get(`/cloth-room/materials/${tweed}/take`)).text).not.toContain('Gown');
    expect((await studio.post(`${jobs[2]}/plan/add`, { once: randomUUID(), line: 'press' })).status).toBe(
      409,
    );
    expect(
      (
        await studio.post(`${jobs[2]}/materials`, {
          once: randomUUID(),
          name: 'silk',
          quantity: '1 m @ 9',
          waste: '0',
          wasteOf: 'net',
        })
      ).status,
    ).toBe(409);
    const extra = {
      garmentId: order.garments[2],
      cause: 'client asked',
      price: '5',
      operations: [{ line: 'bow', minutes: 9 }],
    };
    expect((await studio.api('POST', `/api${order.url}/extras`, extra)).status).toBe(409);
    expect((await handOver(jobs[2]!)).status).toBe(409);
    const draft = (await studio.api('POST', `/api${order.url}/quotes`)).json();
    expect(JSON.stringify(draft)).toContain('"included":false');
  });

  it('and one with work on record cannot leave its commission: it says what to do instead', async () => {
    const { text } = await studio.get(`${jobs[2]}/correct`);
    expect(text).toContain('Cancel it instead');
    const out = await studio.api('DELETE', `/api/garments/${order.garments[2]}`);
    expect(out.status).toBe(409);
    expect(out.text).toContain(
      'minutes at the bench, cloth or trimmings and what happened to it are on record',
    );
    expect((await studio.post(`${jobs[3]}/take-out`, { once: randomUUID() })).status).toBe(303);
  });
});
