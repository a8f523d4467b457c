import { afterAll, beforeAll, expect, it } from 'vitest';
import { auditInEverySight } from '../../support/audit.js';
import { Maker } from '../../support/maker.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { aMaterial, aSupplier, buy } from './a-shelf.js';
import { accepted, anOrder, plan } from './an-accepted-quote.js';

/* Every page of the cloth room, full: the automated audit finds nothing, nothing is wider than the page. */

let studio: TestStudio;
let maker: Maker;
let pages: string[];
beforeAll(async () => {
  studio = await openTestStudio();
  const supplier = await aSupplier(studio);
  const order = await anOrder(studio, [{ name: 'Jacket', dueOn: '2026-10-09' }]);
  const garment = order.garments[0]!;
  const lineId = await plan(studio, garment, 'Hand-woven tweed', '5.20', '46.00');
  await plan(studio, garment, 'Striped silesia', '1.5', '9.50');
  await accepted(studio, order);
  const materialId = await aMaterial(studio, { name: 'Hand-woven tweed', width: '150 cm' });
  const bought = await buy(
    studio,
    supplier,
    [{ materialId, quantity: '5.20', unitPrice: '49.70', lineId, dyeLot: 'D4' }],
    { freight: '9.00', paperNumber: 'WB 1207' },
  );
  const issued = { quantity: '5', lot: bought.lots[0]!.id, garment };
  const movement = (await studio.api('POST', `/api/materials/${materialId}/movements`, issued)).json();
  const old = { materialId, origin: 'stash', quantity: '2', age: 'old' };
  const stash = (await studio.api('POST', '/api/lots', old)).json();
  const material = `/cloth-room/materials/${materialId}`;
  pages = [
    '/cloth-room',
    '/cloth-room?q=nothing-of-the-kind',
    material,
    ...['correct', 'take', 'promise', 'stash', 'custody'].map((act) => `${material}/${act}`),
    '/cloth-room/materials/new',
    '/cloth-room/suppliers',
    `/cloth-room/suppliers/${supplier}`,
    '/cloth-room/purchases',
    '/cloth-room/purchases/new',
    `/cloth-room/purchases/${bought.id}`,
    `/cloth-room/lots/${stash.id}`,
    `/cloth-room/lots/${stash.id}/correct`,
    '/cloth-room/stocktake',
    `/cloth-room/movements/${movement.id}`,
    '/cloth-room/shopping-list',
    '/cloth-room/need?length=2+m&width=150+cm&otherWidth=110+cm',
    '/cloth-room/need?length=&width=150+cm&otherWidth=110+cm',
    '/cloth-room/thread',
    `/commissions/${order.id}/materials`,
  ];
  maker = await Maker.sitDown(await studio.listen(), studio.cookie);
}, 120_000);
afterAll(async () => {
  await maker?.leave();
  await studio?.close();
});

it('passes the automated audit at a desk and on a phone, light and dark', async () => {
  const found: string[] = [];
  for (const path of pages) {
    const status = await maker.open(path);
    if (status !== 200 && status !== 422) found.push(`${path} answered ${status}`);
    found.push(...(await auditInEverySight(maker.page, path)));
  }
  expect(found).toEqual([]);
  expect(maker.strangers).toEqual([]);
}, 300_000);
