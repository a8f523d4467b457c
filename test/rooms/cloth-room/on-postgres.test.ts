import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { freshPostgres, isPostgresLeftOut } from '../../support/postgres.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { aMaterial, aSupplier, bookOf, buy, pressed, wordsOf } from './a-shelf.js';
import { accepted, anOrder, plan } from './an-accepted-quote.js';

describe.skipIf(isPostgresLeftOut)('the cloth room on PostgreSQL', () => {
  let studio: TestStudio;
  let drop: () => Promise<void>;
  beforeAll(async () => {
    const postgres = await freshPostgres();
    drop = postgres.drop;
    studio = await openTestStudio({ DATABASE_URL: postgres.url });
  }, 60_000);
  afterAll(async () => {
    await studio.close();
    await drop();
  });

  it('buys, promises, issues, takes back and lists as on SQLite', async () => {
    const supplier = await aSupplier(studio);
    const order = await anOrder(studio);
    const garment = order.garments[0]!;
    const lineId = await plan(studio, garment, 'Hand-woven tweed', '6', '46.00');
    await accepted(studio, order);
    const materialId = await aMaterial(studio, { name: 'Hand-woven tweed', method: 'weighted-average' });
    const { lots } = await buy(studio, supplier, [
      { materialId, quantity: '5.20', unitPrice: '49.70', lineId },
    ]);
    const movement = await pressed(studio, `/cloth-room/materials/${materialId}/take`, {
      kind: 'issue',
      garment,
      quantity: '5',
      on: '2026-03-02',
    });
    await pressed(studio, `${movement}/return`, { quantity: '1', on: '2026-03-02' });
    expect(await bookOf(studio, materialId)).toEqual({ left: 1.2, value: '59.64' });
    const [group] = (await studio.api('GET', '/api/shopping-list')).json().suppliers;
    expect(group.items[0].toBuy).toBe('0.8');
    const page = wordsOf((await studio.get(`/commissions/${order.id}/materials`)).text);
    expect(page).toContain('€198.80 have been used, against €276.00 planned');
    for (const url of ['/cloth-room?q=tweed', '/cloth-room/stocktake', `/cloth-room/materials/${materialId}`])
      expect((await studio.get(url)).status).toBe(200);
    // One of 5.20 goes back at 49.70: 258.44 less 49.70 is owed.
    const sent = { quantity: '1', reason: 'a flaw' };
    expect((await studio.api('POST', `/api/lots/${lots[0]!.id}/sent-back`, sent)).status).toBe(201);
    const owed = (await studio.api('GET', '/api/money-out/owed')).json();
    expect(owed.merchants).toMatchObject([{ amount: '258.44' }, { amount: '-49.70' }]);
    expect(owed.byMerchant).toMatchObject([{ amount: '208.74' }]);
  }, 60_000);
});
