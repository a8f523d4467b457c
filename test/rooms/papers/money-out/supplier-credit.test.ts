import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../../support/studio.js';
import { aMaterial, aSupplier, buy, wordsOf } from '../../cloth-room/a-shelf.js';

let studio: TestStudio;
let today: string;
const HERE = '/papers/money-out';
const post = (url: string, fields: Record<string, string>) =>
  studio.post(url, { once: randomUUID(), ...fields });
const owed = async () => (await studio.api('GET', '/api/money-out/owed')).json();

beforeAll(async () => {
  studio = await openTestStudio();
  today = studio.clock.now().slice(0, 10);
});
afterAll(() => studio.close());

/** Two metres at 50 with tax of 21, one of which goes back. */
const sendBack = async (supplier: string, paperNumber: string) => {
  const materialId = await aMaterial(studio);
  const bought = await buy(studio, supplier, [{ materialId, quantity: '2', unitPrice: '50' }], {
    boughtOn: today,
    paperNumber,
    tax: '21.00',
    taxRecoverable: true,
  });
  const sent = await studio.api('POST', `/api/lots/${bought.lots[0]!.id}/sent-back`, {
    quantity: '1',
    reason: 'a flaw by the selvedge',
  });
  expect(sent.status, sent.text).toBe(201);
  const { items } = (await studio.api('GET', `/api/materials/${materialId}/movements`)).json();
  const { id } = items.find(({ kind }: { kind: string }) => kind === 'sent-back');
  const reversed = () =>
    studio.api('POST', `/api/materials/${materialId}/movements/${id}/reversal`, { reason: 'kept after all' });
  return { about: `sent-back/${id}`, purchase: bought.id, movement: `/cloth-room/movements/${id}`, reversed };
};

describe('the credit of a supplier', () => {
  it('comes off what is owed, is settled once, and goes with the movement when that is reversed', async () => {
    const mill = await aSupplier(studio, 'Hollow Mill');
    const { about, purchase, movement, reversed } = await sendBack(mill, 'HM-50');
    expect(await owed()).toMatchObject({
      merchants: [
        { about: `purchase/${purchase}`, amount: '121.00' },
        { about, to: 'Hollow Mill', paperNumber: 'HM-50', amount: '-60.50' },
      ],
      byMerchant: [{ toId: mill, to: 'Hollow Mill', amount: '60.50' }],
    });
    const page = wordsOf((await studio.get(HERE)).text);
    for (const words of ['€60.50 is owed.', 'sent back', '−60.50', 'Mark as settled'])
      expect(page).toContain(words);
    expect(wordsOf((await studio.get(movement)).text)).toContain('€60.50, not settled yet');

    const pay = await studio.get(`${HERE}/pay?about=${about}`);
    for (const words of ['Credit from Hollow Mill', '€60.50 from Hollow Mill', 'It is settled', 'Settled on'])
      expect(pay.text).toContain(words);
    expect((await post(`${HERE}/pay`, { about, paidOn: '2199-01-01', how: '' })).status).toBe(422);
    expect((await post(`${HERE}/pay`, { about, paidOn: today, how: 'off the bill' })).status).toBe(303);
    expect((await post(`${HERE}/pay`, { about, paidOn: today, how: '' })).status).toBe(409);
    expect((await owed()).byMerchant).toMatchObject([{ amount: '121.00' }]);
    expect((await studio.get(`${HERE}/pay?about=${about}`)).text).toContain('off the bill.');
    expect(wordsOf((await studio.get(movement)).text)).toContain('€60.50, settled');

    // Settled, the movement stands, on the page and for programs.
    const refused = await reversed();
    expect([refused.status, refused.json().code]).toEqual([409, 'credit-settled']);
    const onPage = await post(`${movement}/reverse`, { on: today, reason: 'kept after all' });
    expect(onPage.status).toBe(409);
    expect(onPage.text).toContain('was not settled after all');

    expect((await post(`${HERE}/unpay`, { about })).status).toBe(303);
    expect((await owed()).byMerchant).toMatchObject([{ amount: '60.50' }]);
    expect((await reversed()).status).toBe(201);
    expect(await owed()).toMatchObject({ merchants: [{ amount: '121.00' }] });
    expect((await studio.api('POST', '/api/money-out/paid', { about, paidOn: today })).json().code).toBe(
      'reversed',
    );
    expect(wordsOf((await studio.get(movement)).text)).toContain('Supplier’s credit none');
  });

  it('stands alone when the delivery is paid, beside other merchants', async () => {
    const weir = await aSupplier(studio, 'Weir Bridge Mill');
    const { about, purchase } = await sendBack(weir, 'WB-1');
    const paid = { about: `purchase/${purchase}`, paidOn: today };
    expect((await studio.api('POST', '/api/money-out/paid', paid)).status).toBe(200);
    const { byMerchant } = await owed();
    expect(byMerchant).toMatchObject([
      { to: 'Hollow Mill', amount: '121.00' },
      { toId: weir, amount: '-60.50' },
    ]);
    const second = await sendBack(weir, 'WB-2');
    const { text } = await studio.get(HERE);
    expect(text).toContain('Weir Bridge Mill, in all');
    expect(text).not.toContain('Hollow Mill, in all');
    for (const one of [about, second.about])
      expect(
        (await studio.api('POST', '/api/money-out/paid', { about: one, paidOn: today })).json(),
      ).toMatchObject({ about: one, paidOn: today });
  });

  it('says what is owed when merchants owe as much, or more', async () => {
    for (const { about } of (await owed()).merchants)
      await studio.api('POST', '/api/money-out/paid', { about, paidOn: today });
    const { about, purchase } = await sendBack(await aSupplier(studio, 'Third Mill'), 'T-1');
    await studio.api('POST', '/api/money-out/paid', { about: `purchase/${purchase}`, paidOn: today });
    expect((await studio.get(HERE)).text).toContain('Merchants owe €60.50 more than is owed.');
    const bill = { kind: 'tools', on: today, amount: '60.50', payee: 'Needle stall' };
    await studio.api('POST', '/api/money-out', bill);
    expect((await studio.get(HERE)).text).toContain('come to the same');
    await studio.api('POST', '/api/money-out/paid', { about, paidOn: today });
    expect((await studio.get(HERE)).text).toContain('€60.50 is owed.');
  });

  it('is of nothing else: not of a movement that is not, nor of a delivery that came', async () => {
    const { purchase } = await sendBack(await aSupplier(studio, 'Fourth Mill'), 'F-1');
    for (const id of ['no-such', purchase])
      expect(
        (await studio.api('POST', '/api/money-out/paid', { about: `sent-back/${id}`, paidOn: today })).status,
      ).toBe(404);
    expect((await studio.get(`${HERE}/pay?about=sent-back/no-such`)).status).toBe(404);
  });
});
