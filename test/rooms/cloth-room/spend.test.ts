import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { aMaterial, aSupplier, buy, pressed, wordsOf } from './a-shelf.js';
import { accepted, anOrder, plan } from './an-accepted-quote.js';

let studio: TestStudio;
let supplier: string;
beforeAll(async () => {
  studio = await openTestStudio();
  supplier = await aSupplier(studio);
});
afterAll(() => studio.close());

const spendOf = async (commission: string) =>
  (await studio.api('GET', `/api/commissions/${commission}/materials`)).json();
const issue = (materialId: string, body: object) =>
  studio.api('POST', `/api/materials/${materialId}/movements`, body);

describe('the material spend of a commission', () => {
  it('WS-10: cloth of 5.20 m quoted at 46.00 and bought at 49.70 is 19.24 dearer, bought and then used (constructed)', async () => {
    const order = await anOrder(studio);
    const [garment] = order.garments;
    const lineId = await plan(studio, garment!, 'Hand-woven tweed', '5.20', '46.00');
    await accepted(studio, order);
    const materialId = await aMaterial(studio, { name: 'Hand-woven tweed' });
    const delivery = await buy(studio, supplier, [
      { materialId, quantity: '5.20', unitPrice: '49.70', lineId },
    ]);
    const shown = wordsOf((await studio.get(`/cloth-room/purchases/${delivery.id}`)).text);
    expect(shown).toContain('dearer than quoted');
    const before = await spendOf(order.id);
    expect(before.garments[0].rows[0]).toMatchObject({
      planned: '5.2',
      reserved: '5.2',
      bought: { quantity: '5.2', cost: '258.44' },
      priceVariance: '-19.24',
      toIssue: '5.2',
    });
    expect((await issue(materialId, { quantity: '5.20', lot: delivery.lots[0]!.id, garment })).status).toBe(
      201,
    );
    const after = await spendOf(order.id);
    expect(after.garments[0].rows[0]).toMatchObject({
      reserved: '0',
      issued: { quantity: '5.2', cost: '258.44' },
      usedCost: '258.44',
      priceVariance: '-19.24',
      usageVariance: '0.00',
      toIssue: '0',
    });
    const page = wordsOf((await studio.get(`/commissions/${order.id}/materials`)).text);
    for (const words of [
      '€258.44 have been used, against €239.20 planned',
      '€19.24 dearer in price',
      '−19.24',
    ])
      expect(page).toContain(words);
  });

  it('follows returns, offcuts, waste and reversals, and what nobody planned', async () => {
    const order = await anOrder(studio);
    const [garment] = order.garments;
    await plan(studio, garment!, 'Canvas', '2', '10.00', '0.1');
    const materialId = await aMaterial(studio, { name: 'canvas', method: 'first-in-first-out' });
    const other = await aMaterial(studio, { name: 'Bone wax', method: 'first-in-first-out' });
    await buy(studio, supplier, [
      { materialId, quantity: '10', unitPrice: '10.00' },
      { materialId: other, quantity: '1', unitPrice: '3.00' },
    ]);
    const out = (await issue(materialId, { quantity: '3', garment })).json();
    const wrong = (await issue(materialId, { quantity: '1', garment })).json();
    const url = `/api/materials/${materialId}/movements`;
    await studio.api('POST', `${url}/${wrong.id}/reversal`, { reason: 'wrong roll' });
    await studio.api('POST', `${url}/${out.id}/return`, { quantity: '0.5' });
    await studio.api('POST', `${url}/${out.id}/offcut`, { length: '0.3' });
    await issue(materialId, { kind: 'waste', quantity: '0.4', garment, reason: 'scorched' });
    await issue(other, { quantity: '1', garment });
    const { garments, together } = await spendOf(order.id);
    expect(garments[0].rows).toHaveLength(2);
    expect(garments[0].rows[0]).toMatchObject({
      planned: '2.2',
      issued: { quantity: '4', cost: '40.00' },
      returned: { quantity: '1.8', cost: '18.00' },
      wasted: { quantity: '0.4', cost: '4.00' },
      used: '2.6',
      usageVariance: '-4.00',
    });
    expect(garments[0].rows[1]).toMatchObject({ isPlanned: false, usageVariance: '-3.00' });
    expect(together).toEqual({ planned: '22.00', used: '29.00', price: '0.00', usage: '-7.00' });
    expect(wordsOf((await studio.get(`/commissions/${order.id}/materials`)).text)).toContain('not planned');
  });

  it('carries the cautions of old cloth to the garment it went into', async () => {
    const order = await anOrder(studio);
    const [garment] = order.garments;
    const materialId = await aMaterial(studio, { name: 'Inherited braid' });
    const lot = (
      await studio.api('POST', '/api/lots', { materialId, origin: 'stash', quantity: '3', age: 'old' })
    ).json();
    await issue(materialId, { quantity: '1', lot: lot.id, garment });
    expect((await studio.get(`/commissions/${order.id}/materials`)).text).toContain('treated against moth');
  });

  it('explains itself when there is nothing, and is not there for nobody', async () => {
    const order = await anOrder(studio);
    expect((await studio.get(`/commissions/${order.id}/materials`)).text).toContain('Nothing is planned');
    expect((await studio.get('/commissions/none/materials')).status).toBe(404);
  });
});

describe('a promise', () => {
  it('given twice is asked about, and kept when that is right', async () => {
    const [one, other] = [await anOrder(studio), await anOrder(studio)];
    const materialId = await aMaterial(studio, { name: 'Promised cloth' });
    const { lots } = await buy(studio, supplier, [{ materialId, quantity: '5', unitPrice: '10.00' }]);
    const url = `/cloth-room/materials/${materialId}/promise`;
    await pressed(studio, url, { garment: one.garments[0]!, quantity: '4', lot: lots[0]!.id });
    const fields = { garment: other.garments[0]!, quantity: '2', lot: lots[0]!.id };
    const asked = await studio.post(url, { once: randomUUID(), ...fields });
    expect([asked.status, wordsOf(asked.text)]).toEqual([422, expect.stringContaining('Only 1 m are free')]);
    expect(asked.text).toContain('name="evenIfPromised"');
    const sent = await studio.api('POST', `/api/materials/${materialId}/reservations`, fields);
    expect([sent.status, sent.json().code]).toEqual([422, 'asked']);
    await pressed(studio, url, { ...fields, evenIfPromised: 'yes' });
    const page = wordsOf((await studio.get(`/cloth-room/materials/${materialId}`)).text);
    expect(page).toContain('Promised');
    expect(page).toMatch(/no\. 1, Jacket .*4 m.*no\. 1, Jacket .*2 m/);
  });

  it('is asked about when cloth promised to one is taken for another, and is served by its own issue', async () => {
    const [one, other] = [await anOrder(studio), await anOrder(studio)];
    const materialId = await aMaterial(studio, { name: 'Free thread', method: 'weighted-average' });
    await buy(studio, supplier, [{ materialId, quantity: '5', unitPrice: '1.00' }]);
    await pressed(studio, `/cloth-room/materials/${materialId}/promise`, {
      garment: one.garments[0]!,
      quantity: '4',
    });
    const asked = await issue(materialId, { quantity: '2', garment: other.garments[0] });
    expect([asked.status, asked.json().code]).toEqual([422, 'asked']);
    expect((await issue(materialId, { quantity: '4', garment: one.garments[0] })).status).toBe(201);
    expect((await issue(materialId, { quantity: '1', garment: other.garments[0] })).status).toBe(201);
  });

  it('can be let go, and that can be undone', async () => {
    const order = await anOrder(studio);
    const materialId = await aMaterial(studio, { name: 'Loose cloth' });
    const url = `/cloth-room/materials/${materialId}`;
    await pressed(studio, `${url}/promise`, { garment: order.garments[0]!, quantity: '1' });
    const action = /action="(\/cloth-room\/reservations\/[^"]+)"/.exec((await studio.get(url)).text)![1]!;
    const gone = await studio.post(action, { once: randomUUID() });
    expect((await studio.get(url)).text).not.toContain('Let it go');
    const act = new URL(String(gone.headers.location), 'http://x').searchParams.get('done');
    await studio.post(`/history/${act}/undo`, { once: randomUUID(), back: url });
    expect((await studio.get(url)).text).toContain('Let it go');
  });
});
