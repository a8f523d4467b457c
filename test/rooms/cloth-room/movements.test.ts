import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { garmentsOf, openCommission } from '../commissions/an-opening.js';
import { aMaterial, aSupplier, bookOf, buy, pressed, wordsOf } from './a-shelf.js';

let studio: TestStudio;
let supplier: string;
let garment: string;
beforeAll(async () => {
  studio = await openTestStudio();
  supplier = await aSupplier(studio);
  garment = (await garmentsOf(studio, await openCommission(studio)))[0]!.split('/').at(-1)!;
});
afterAll(() => studio.close());

const shelf = async (method: string, lines: readonly [string, string][]) => {
  const materialId = await aMaterial(studio, { name: `by ${method}`, method, width: '150 cm' });
  const bought = lines.map(([quantity, unitPrice]) => ({ materialId, quantity, unitPrice }));
  const { lots } = await buy(studio, supplier, bought);
  return { materialId, lots, url: `/cloth-room/materials/${materialId}` };
};
const take = (url: string, fields: Record<string, string>) =>
  pressed(studio, `${url}/take`, { kind: 'issue', garment, on: '2026-03-02', ...fields });
const refused = async (url: string, fields: Record<string, string>): Promise<string> => {
  const answer = await studio.post(url, { once: randomUUID(), on: '2026-03-02', ...fields });
  expect([answer.status, wordsOf(answer.text)]).toEqual([422, expect.any(String)]);
  return answer.text;
};

describe('what goes out', () => {
  it.each([
    ['first-in-first-out', '21.00'],
    ['weighted-average', '27.62'],
  ])(
    'costs by %s: one of 150 at 21, 225 at 27, 210 at 33 is %s (OpenStax, Principles of Accounting 1, 10.1)',
    async (method, cost) => {
      const { materialId, url } = await shelf(method, [
        ['150', '21'],
        ['225', '27'],
        ['210', '33'],
      ]);
      const movement = await take(url, { quantity: '1' });
      expect(wordsOf((await studio.get(movement)).text)).toContain(cost);
      expect(await bookOf(studio, materialId)).toEqual({
        left: 584,
        value: (16_155 - Number(cost)).toFixed(2),
      });
    },
  );

  it('costs by the very piece, which must be named', async () => {
    const { materialId, lots, url } = await shelf('lot', [
      ['150', '21'],
      ['225', '27'],
    ]);
    const text = await refused(`${url}/take`, { kind: 'issue', garment, quantity: '1' });
    expect(text).toContain('Say which piece it is cut from.');
    await take(url, { quantity: '1', lot: lots[1]!.id });
    expect(await bookOf(studio, materialId)).toEqual({ left: 374, value: '9198.00' });
  });

  it('never goes below nought: says what is there, and offers to measure again', async () => {
    const { materialId, lots, url } = await shelf('lot', [['5.20', '46.00']]);
    const text = await refused(`${url}/take`, {
      kind: 'issue',
      garment,
      quantity: '5.3',
      lot: lots[0]!.id,
    });
    expect(text).toContain('There are 5.2 m here, and 5.3 m were asked for.');
    expect(text).toContain('measured again');
    const sent = { quantity: '6', lot: lots[0]!.id, garment };
    const answer = await studio.api('POST', `/api/materials/${materialId}/movements`, sent);
    expect([answer.status, answer.json().code]).toEqual([422, 'shortfall']);
    expect(await bookOf(studio, materialId)).toEqual({ left: 5.2, value: '239.20' });
  });

  it('may be waste, with a reason and with or without a garment', async () => {
    const { materialId, lots, url } = await shelf('lot', [['5.20', '46.00']]);
    const fields = { kind: 'waste', quantity: '0.2', lot: lots[0]!.id, garment: '' };
    expect(await refused(`${url}/take`, fields)).toContain('Give the reason');
    await take(url, { ...fields, reason: 'moth' });
    expect(await bookOf(studio, materialId)).toEqual({ left: 5, value: '230.00' });
  });

  it.each([
    [{ quantity: '0' }, 'above 0'],
    [{ quantity: '-1' }, 'less than nought'],
    [{ quantity: '' }, 'How much is taken?'],
    [{ quantity: '9'.repeat(400) }, 'Not saved yet'],
    [{ garment: '' }, 'Say which garment it is for.'],
    [{ garment: 'gone' }, 'There is no such garment any more.'],
    [{ on: '2026-03-03' }, 'This day is still to come.'],
    [{ lot: 'other' }, 'This piece is of another material.'],
    [{ reason: '{{x}}'.repeat(100) }, 'At most 400 characters.'],
  ])('refuses %j', async (wrong, sentence) => {
    const { lots, url } = await shelf('lot', [['5.20', '46.00']]);
    const fields = { kind: 'issue', garment, quantity: '1', lot: lots[0]!.id, ...wrong };
    expect(await refused(`${url}/take`, fields)).toContain(sentence);
  });

  it('is taken once when the button is pressed twice', async () => {
    const { materialId, url } = await shelf('weighted-average', [['10', '1.00']]);
    const fields = { once: randomUUID(), kind: 'issue', garment, quantity: '1', on: '2026-03-02' };
    await Promise.all([1, 2].map(() => studio.post(`${url}/take`, fields)));
    expect((await bookOf(studio, materialId)).left).toBe(9);
  });
});

describe('what comes back', () => {
  it('goes back at the cost it left with, and never more than went out', async () => {
    const { materialId, url } = await shelf('first-in-first-out', [
      ['2', '10.00'],
      ['2', '20.00'],
    ]);
    const movement = await take(url, { quantity: '3' });
    await pressed(studio, `${movement}/return`, { quantity: '1.5', on: '2026-03-02' });
    expect(await bookOf(studio, materialId)).toEqual({ left: 2.5, value: '45.00' });
    expect(await refused(`${movement}/return`, { quantity: '2' })).toContain(
      'Only 1.5 m of this are still out',
    );
  });

  it('may be an offcut: 0.50 m of half the width is 0.25 m of the cloth, and worth as much', async () => {
    const { materialId, lots, url } = await shelf('lot', [['4', '40.00']]);
    const movement = await take(url, { quantity: '4', lot: lots[0]!.id });
    const lot = await pressed(studio, `${movement}/offcut`, {
      length: '0.5',
      width: '75 cm',
      on: '2026-03-02',
    });
    expect(wordsOf((await studio.get(lot)).text)).toContain('0.5 m of 0.5 m are left, in the book at €10.00');
    expect(await bookOf(studio, materialId)).toEqual({ left: 0.5, value: '10.00' });
    expect(wordsOf((await studio.get(movement)).text)).toContain('3.75 m of it are still out');
    expect(await refused(`${movement}/offcut`, { length: '1', width: '160 cm' })).toContain(
      'wider than the cloth',
    );
    expect(await refused(`${movement}/offcut`, { length: '4' })).toContain('still out');
  });

  it('may be put down wrongly: reversed, not rubbed out', async () => {
    const { materialId, lots, url } = await shelf('lot', [['4', '40.00']]);
    const movement = await take(url, { quantity: '4', lot: lots[0]!.id });
    expect(await refused(`${movement}/reverse`, { reason: '' })).toContain('Give the reason');
    await pressed(studio, `${movement}/reverse`, { reason: 'the other cloth', on: '2026-03-02' });
    expect(await bookOf(studio, materialId)).toEqual({ left: 4, value: '160.00' });
    const again = await studio.post(`${movement}/reverse`, {
      once: randomUUID(),
      reason: 'again',
      on: '2026-03-02',
    });
    expect([again.status, wordsOf(again.text)]).toEqual([409, expect.stringContaining('come back already')]);
    expect(wordsOf((await studio.get(url)).text)).toMatch(/Reversed.*Issued.*Bought/);
  });

  it('cannot be a delivery from which something was cut since', async () => {
    const { materialId, lots, url } = await shelf('lot', [['4', '40.00']]);
    await take(url, { quantity: '1', lot: lots[0]!.id });
    const { items } = (await studio.api('GET', `/api/materials/${materialId}/movements`)).json();
    const bought = items.at(-1).id;
    const answer = await studio.api('POST', `/api/materials/${materialId}/movements/${bought}/reversal`, {
      reason: 'wrong price',
    });
    expect([answer.status, answer.json().code]).toEqual([409, 'moved-since']);
  });

  it('is not undone from the history, since it stays on record', async () => {
    const { lots, url } = await shelf('lot', [['4', '40.00']]);
    const answer = await studio.post(`${url}/take`, {
      once: randomUUID(),
      kind: 'issue',
      garment,
      quantity: '1',
      lot: lots[0]!.id,
      on: '2026-03-02',
    });
    const act = new URL(String(answer.headers.location), 'http://x').searchParams.get('done');
    const undone = await studio.post(`/history/${act}/undo`, { once: randomUUID(), back: url });
    expect([undone.status, wordsOf(undone.text)]).toEqual([409, expect.stringContaining('stays on record')]);
  });
});
