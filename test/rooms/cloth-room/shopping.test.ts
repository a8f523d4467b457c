import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readPdf } from '../../printing/papers/read-pdf.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { bytesOf } from '../quotes/a-commission.js';
import { aMaterial, aSupplier, buy, pressed, wordsOf } from './a-shelf.js';
import { accepted, anOrder, plan } from './an-accepted-quote.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

const list = async () => (await studio.api('GET', '/api/shopping-list')).json().suppliers;

describe('the shopping list', () => {
  it('is empty until a quote is accepted', async () => {
    const order = await anOrder(studio);
    await plan(studio, order.garments[0]!, 'Unwanted silk', '3', '30.00');
    expect((await studio.get('/cloth-room/shopping-list')).text).toContain('nothing to buy at present');
    expect(await list()).toEqual([]);
  });

  it('holds what accepted garments still need, by supplier, with the price their quote allows', async () => {
    const supplierId = await aSupplier(studio);
    await aMaterial(studio, { name: 'Country tweed', supplierId });
    const order = await anOrder(studio, [{ name: 'Jacket', dueOn: '2026-10-09' }, { name: 'Cape' }]);
    const tweed = await plan(studio, order.garments[0]!, 'Country tweed', '2.90', '46.00', '0.1');
    await plan(studio, order.garments[0]!, 'Mystery braid', '1', '5.00');
    await plan(studio, order.garments[1]!, 'Country tweed', '4', '46.00');
    await accepted(studio, order, [order.garments[0]!]);
    const groups = await list();
    expect(groups.map(({ supplierName }: { supplierName: string }) => supplierName)).toEqual([
      'Weir Bridge Mill',
      '',
    ]);
    // WS-14 (constructed): 2.90 m and a tenth of it.
    expect(groups[0].items).toHaveLength(1);
    expect(groups[0].items[0]).toMatchObject({ toBuy: '3.19', highest: '46', isTicked: false });
    const { text } = await studio.get('/cloth-room/shopping-list');
    for (const words of ['2 things still to buy', '3.19 m', '46.00 EUR', 'by 9 October', 'No supplier yet'])
      expect(wordsOf(text)).toContain(words);
    expect(text).not.toContain('Haddlestone');

    await pressed(studio, `/cloth-room/shopping-list/${tweed}/tick`, {});
    await pressed(studio, `/cloth-room/shopping-list/${tweed}/tick`, {});
    expect((await studio.get('/cloth-room/shopping-list')).text).toContain('ticked as bought');
    await pressed(studio, `/cloth-room/shopping-list/${tweed}/untick`, {});
    const gone = await studio.post('/cloth-room/shopping-list/none/tick', { once: randomUUID() });
    expect(gone.status).toBe(404);

    const material = groups[0].items[0].material.id;
    await buy(studio, supplierId, [
      { materialId: material, quantity: '2', unitPrice: '40.00', lineId: tweed },
    ]);
    expect((await list())[0].items[0].toBuy).toBe('1.19');
    await buy(studio, supplierId, [
      { materialId: material, quantity: '2', unitPrice: '40.00', lineId: tweed },
    ]);
    expect(await list()).toHaveLength(1);
  });

  it('asks again for what went back to the supplier', async () => {
    const supplierId = await aSupplier(studio, 'Ferry Stairs Market');
    const materialId = await aMaterial(studio, { name: 'Flawed flannel', supplierId });
    const order = await anOrder(studio);
    const lineId = await plan(studio, order.garments[0]!, 'Flawed flannel', '3', '20.00');
    await accepted(studio, order);
    const line = { materialId, quantity: '3', unitPrice: '20.00', lineId };
    const { lots } = await buy(studio, supplierId, [line]);
    const wanted = async () =>
      (await list()).find((group: { supplierId: string }) => group.supplierId === supplierId);
    expect(await wanted()).toBeUndefined();
    await pressed(studio, `/cloth-room/lots/${lots[0]!.id}/away`, {
      quantity: '3',
      reason: 'a hole in each metre',
      on: '2026-03-02',
    });
    expect((await wanted()).items[0].toBuy).toBe('3');
  });

  it('offers a delivery form with the line in it', async () => {
    const order = await anOrder(studio);
    const line = await plan(studio, order.garments[0]!, 'Silk <b>twill</b>', '2', '12.50');
    await accepted(studio, order);
    const { text } = await studio.get('/cloth-room/shopping-list');
    expect(text).toContain('Silk &lt;b&gt;twill&lt;/b&gt;');
    const form = await studio.get(`/cloth-room/purchases/new?line=${line}`);
    expect(form.text).toContain(`<option value="${line}" selected>`);
  });

  it('is printed on A5, and bears no client’s name', async () => {
    const bytes = await bytesOf(studio, '/cloth-room/shopping-list.pdf');
    const { pages, size, tags } = await readPdf(bytes);
    // A5 in points: 148 by 210 mm.
    expect(size).toEqual([420, 595]);
    expect(tags).toContain('Table');
    const text = pages.join(' ').replace(/\s+/g, ' ');
    for (const words of ['Mystery braid', 'Silk <b>twill</b>', '12.50 EUR', 'No supplier yet', '1 of 1'])
      expect(text).toContain(words);
    expect(text).not.toContain('Haddlestone');
  }, 60_000);
});
