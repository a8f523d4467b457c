import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { aMaterial, aSupplier, bookOf, buy, pressed, wordsOf } from './a-shelf.js';

let studio: TestStudio;
let supplier: string;
beforeAll(async () => {
  studio = await openTestStudio();
  supplier = await aSupplier(studio);
});
afterAll(() => studio.close());

const form = (materialId: string, more: Record<string, string> = {}): Record<string, string> => ({
  supplierId: supplier,
  boughtOn: '2026-03-02',
  sharedBy: 'value',
  taxRecoverable: 'no',
  'lines.0.materialId': materialId,
  'lines.0.quantity': '5.20',
  'lines.0.unitPrice': '46.00',
  ...more,
});
const send = async (fields: Record<string, string>) =>
  studio.post('/cloth-room/purchases', { once: randomUUID(), ...fields });

describe('a delivery', () => {
  it('shares carriage by value into landed cost: 9.00 on 30.00 and 60.00 gives 33.00 and 66.00 (WS-18, passonhandmade.blogspot.com, July 2010)', async () => {
    const [one, other] = [await aMaterial(studio), await aMaterial(studio, { name: 'Canvas' })];
    const lines = [
      { materialId: one, quantity: '1', unitPrice: '30.00' },
      { materialId: other, quantity: '1', unitPrice: '60.00' },
    ];
    const { lots } = await buy(studio, supplier, lines, { freight: '9.00' });
    expect(lots.map(({ landed }) => landed)).toEqual(['33.00', '66.00']);
  });

  it('shares 230 over 20 at 20 and 20 at 5: 184 and 46 (INV-13, allinterview.com, question 112970)', async () => {
    const [one, other] = [await aMaterial(studio), await aMaterial(studio)];
    const lines = [
      { materialId: one, quantity: 20, unitPrice: '20' },
      { materialId: other, quantity: 20, unitPrice: '5' },
    ];
    const { lots } = await buy(studio, supplier, lines, { freight: '130.00', duty: '100.00' });
    expect(lots.map(({ landed }) => landed)).toEqual(['584.00', '146.00']);
  });

  it('counts tax only where it does not come back (IAS 2, paragraph 11)', async () => {
    const materialId = await aMaterial(studio);
    const line = [{ materialId, quantity: '1', unitPrice: '100.00' }];
    const back = await buy(studio, supplier, line, { tax: '21.00', taxRecoverable: true });
    const not = await buy(studio, supplier, line, { tax: '21.00', taxRecoverable: false });
    expect([back.lots[0]!.landed, not.lots[0]!.landed]).toEqual(['100.00', '121.00']);
    expect(wordsOf((await studio.get(`/cloth-room/purchases/${back.id}`)).text)).toContain(
      'comes back: not a cost',
    );
  });

  it('is put down by hand, line by line, and stays on record', async () => {
    const materialId = await aMaterial(studio, { width: '150 cm' });
    const fields = form(materialId, {
      paperNumber: 'WB 1207',
      orderNumber: 'order 7',
      freight: '9.00',
      'lines.1.materialId': '',
      'lines.2.materialId': materialId,
      'lines.2.quantity': '2 3/4 yd',
      'lines.2.unitPrice': '1,046.50',
      'lines.2.width': '148 cm',
      'lines.2.dyeLot': 'D4',
    });
    const url = await pressed(studio, '/cloth-room/purchases', fields);
    const { text } = await studio.get(url);
    for (const words of ['WB 1207', '2.5146 m', 'order 7', '9.00']) expect(wordsOf(text)).toContain(words);
    const part = await pressed(studio, '/cloth-room/purchases', form(materialId, { orderNumber: 'order 7' }));
    expect(wordsOf((await studio.get(part)).text)).toContain('Other deliveries of this order');
    expect((await studio.get('/cloth-room/purchases')).text).toContain(url);
    const history = (await studio.api('GET', '/api/history')).text;
    expect(history).toContain('Bought 2 lines from Weir Bridge Mill');
    expect((await bookOf(studio, materialId)).left).toBeCloseTo(5.2 + 2.5146 + 5.2, 6);
  });

  it.each([
    [{ 'lines.0.quantity': '0' }, 'A quantity here must be above 0.'],
    [{ 'lines.0.quantity': '-3' }, 'less than nought'],
    [{ 'lines.0.quantity': '3 pieces' }, 'This is counted in metres.'],
    [{ 'lines.0.quantity': '1e308' }, '1e308'],
    [{ 'lines.0.unitPrice': 'NaN' }, 'Write a number'],
    [{ 'lines.0.unitPrice': '1234567890123' }, 'Write a number'],
    [{ 'lines.0.unitPrice': '-1' }, 'Write a number'],
    [{ 'lines.0.materialId': 'none' }, 'There is no such material.'],
    [{ 'lines.0.lineId': 'none' }, 'No accepted garment waits for this.'],
    [{ supplierId: 'none' }, 'There is no such supplier.'],
    [{ freight: '9.00', 'lines.0.unitPrice': '0' }, 'share by quantity'],
    [{ boughtOn: '2026-02-30' }, 'Write the date'],
    [{ paperNumber: 'x'.repeat(400) }, 'At most 100 characters.'],
  ])('refuses %j and keeps nothing of it', async (wrong, sentence) => {
    const materialId = await aMaterial(studio);
    const answer = await send(form(materialId, { notes: 'kept as typed', ...wrong }));
    expect([answer.status, wordsOf(answer.text)]).toEqual([422, expect.stringContaining('Not saved yet')]);
    expect(answer.text).toContain(sentence);
    expect(answer.text).toContain('kept as typed');
    expect(await bookOf(studio, materialId)).toEqual({ left: 0, value: '0.00' });
  });

  it('takes a gift at no price, and its freight by quantity', async () => {
    const materialId = await aMaterial(studio);
    const line = { materialId, quantity: '3', unitPrice: '0' };
    const { lots } = await buy(studio, supplier, [line], { freight: '6.00', sharedBy: 'quantity' });
    expect(lots[0]!.landed).toBe('6.00');
    expect((await buy(studio, supplier, [line])).lots[0]!.landed).toBe('0.00');
  });

  it('is kept once when the button is pressed twice', async () => {
    const materialId = await aMaterial(studio);
    const once = randomUUID();
    const both = await Promise.all(
      [1, 2].map(() => studio.post('/cloth-room/purchases', { once, ...form(materialId) })),
    );
    expect(both.map(({ status }) => status)).toEqual([303, 303]);
    expect((await bookOf(studio, materialId)).left).toBe(5.2);
  });

  it('says what is missing before anything can be bought', async () => {
    const empty = await openTestStudio();
    expect((await empty.get('/cloth-room/purchases')).text).toContain('Put down the first delivery');
    expect((await empty.get('/cloth-room/purchases/new')).text).toContain('There is no supplier yet');
    await empty.close();
  });

  it('refuses unknown fields and empty lists from programs, by pointer', async () => {
    const sent = { supplierId: supplier, boughtOn: '2026-03-02', lines: [], colour: 1 };
    const answer = await studio.api('POST', '/api/purchases', sent);
    expect(answer.status).toBe(422);
    expect(
      answer
        .json()
        .errors.map(({ pointer }: { pointer: string }) => pointer)
        .sort(),
    ).toEqual(['/colour', '/lines']);
  });
});
