import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readPdf } from '../../printing/papers/read-pdf.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { garmentsOf, openCommission } from '../commissions/an-opening.js';
import { bytesOf } from '../quotes/a-commission.js';
import { aMaterial, aSupplier, bookOf, buy, pressed, wordsOf } from './a-shelf.js';

let studio: TestStudio;
let supplier: string;
beforeAll(async () => {
  studio = await openTestStudio();
  supplier = await aSupplier(studio);
});
afterAll(() => studio.close());

const stash = (materialId: string, more: Record<string, string> = {}) =>
  pressed(studio, `/cloth-room/materials/${materialId}/stash`, {
    quantity: '11',
    on: '2026-03-02',
    costIs: 'nil',
    chargeAt: 'replacement',
    replacementUnitCost: '3.20',
    age: 'unknown',
    ...more,
  });
const custody = {
  quantity: '2.25',
  on: '2026-03-02',
  flaws: 'moth at one corner',
  smell: 'camphor',
  shrinkTest: 'not done',
  age: 'old',
};

describe('the stash', () => {
  it('costs nothing in the book, and keeps what it would cost to replace beside it', async () => {
    const materialId = await aMaterial(studio, { name: 'Horn buttons', kind: 'notion', unit: 'piece' });
    const lot = await stash(materialId, { provenance: 'grandmother’s tin' });
    const text = wordsOf((await studio.get(lot)).text);
    for (const words of [
      '11 pieces of 11 pieces are left',
      '3.2',
      'grandmother’s tin',
      'Stash, of unknown age',
    ])
      expect(text).toContain(words);
    expect(await bookOf(studio, materialId)).toEqual({ left: 11, value: '0.00' });
  });

  it('may have cost something, known or not', async () => {
    const materialId = await aMaterial(studio);
    await stash(materialId, { quantity: '2', costIs: 'known', unitCost: '4.50' });
    const unknown = await stash(materialId, { quantity: '2', costIs: 'unknown' });
    expect(wordsOf((await studio.get(unknown)).text)).toContain('nobody knows');
    expect((await bookOf(studio, materialId)).value).toBe('9.00');
  });

  it('wants a reason where it is not charged at replacement, and a cost where it is known', async () => {
    const materialId = await aMaterial(studio);
    const send = (more: Record<string, string>) =>
      studio.post(`/cloth-room/materials/${materialId}/stash`, {
        once: randomUUID(),
        quantity: '1',
        on: '2026-03-02',
        ...more,
      });
    expect((await send({ chargeAt: 'nil' })).text).toContain('Say why it is not charged');
    expect((await send({ costIs: 'known' })).text).toContain('What did one cost?');
    expect((await send({ quantity: '0' })).status).toBe(422);
  });

  it('that is old or of unknown age carries its cautions; put away, they stay on the record', async () => {
    const materialId = await aMaterial(studio, { name: 'Green silk', fibres: 'silk' });
    const lot = await stash(materialId);
    const { text } = await studio.get(lot);
    for (const words of [
      'arsenic',
      'treated against moth',
      'mothballs left behind',
      'Weighted silk shatters',
    ])
      expect(text).toContain(words);
    await pressed(studio, `${lot}/cautions/green-dyes`, {});
    const after = (await studio.get(lot)).text;
    expect(after).toContain('Put away by Odalys Fenwright on 2 March 2026.');
    expect(after).not.toContain('Put away: Old green dyes');
    expect((await studio.get(await stash(materialId, { age: 'new' }))).text).not.toContain('arsenic');
  });
});

describe('a client’s own cloth', () => {
  it('is looked over, worth nothing to us, cut for its owner only, and handed back', async () => {
    const commission = await openCommission(studio, { client: 'Ines Marlowe' });
    const theirs = (await garmentsOf(studio, commission))[0]!.split('/').at(-1)!;
    const others = (await garmentsOf(studio, await openCommission(studio)))[0]!.split('/').at(-1)!;
    const owner = (await studio.api('GET', '/api/clients?q=ines')).json().items[0].id;
    const materialId = await aMaterial(studio, { name: 'Greatcoat melton' });
    const url = `/cloth-room/materials/${materialId}`;
    const lot = await pressed(studio, `${url}/custody`, { ...custody, owner });
    const id = lot.split('/').at(-1)!;
    const { text } = await studio.get(lot);
    for (const words of ['none of it ours', 'moth at one corner', 'camphor', 'If there is too little of it'])
      expect(wordsOf(text) + text).toContain(words);
    const take = (garment: string) =>
      studio.post(`${url}/take`, {
        once: randomUUID(),
        kind: 'issue',
        garment,
        lot: id,
        quantity: '2',
        on: '2026-03-02',
      });
    expect((await take(others)).text).toContain('cut for nobody else and never sold');
    expect((await take(theirs)).status).toBe(303);
    await pressed(studio, `${lot}/away`, { quantity: '0.25', reason: 'to Ines', on: '2026-03-02' });
    expect(await bookOf(studio, materialId)).toEqual({ left: 0, value: '0.00' });
    expect((await studio.get(lot)).text).toContain('Handed back to the client');
  });

  it('gets a receipt to sign: its condition, its worth, and what went back', async () => {
    const owner = (await studio.api('POST', '/api/clients', { name: 'Ines Marlowe' })).json().id;
    const materialId = await aMaterial(studio, { name: 'Inherited melton' });
    const worth = { ...custody, owner, width: '142 cm', replacementUnitCost: '60' };
    const lot = await pressed(studio, `/cloth-room/materials/${materialId}/custody`, worth);
    await pressed(studio, `${lot}/away`, { quantity: '0.25', reason: 'to Ines', on: '2026-03-02' });
    const { pages, size } = await readPdf(await bytesOf(studio, `${lot}/receipt.pdf`));
    expect(size).toEqual([420, 595]);
    const text = pages.join(' ').replace(/\s+/g, ' ');
    for (const words of [
      'Ines Marlowe',
      '2.25 m',
      '142 cm',
      'moth at one corner',
      '60.00 EUR',
      'Handed back',
    ])
      expect(text).toContain(words);
    expect(text).toContain('In our keeping now: 2 m.');
    const ours = (await buy(studio, supplier, [{ materialId, quantity: '1', unitPrice: '1' }])).lots[0]!;
    expect((await studio.get(`/cloth-room/lots/${ours.id}/receipt.pdf`)).status).toBe(404);
  }, 60_000);

  it('is not taken in unlooked', async () => {
    const materialId = await aMaterial(studio);
    const answer = await studio.post(`/cloth-room/materials/${materialId}/custody`, {
      once: randomUUID(),
      quantity: '2',
      on: '2026-03-02',
    });
    for (const words of ['Whose cloth is it?', 'Say how it is', 'Say how it smells', 'shrink test showed'])
      expect(answer.text).toContain(words);
  });
});

describe('the tape', () => {
  it('is followed by the book: what is missing leaves at its cost, what is more comes in at none', async () => {
    const materialId = await aMaterial(studio);
    const { lots } = await buy(studio, supplier, [{ materialId, quantity: '5', unitPrice: '10.00' }]);
    const lot = `/cloth-room/lots/${lots[0]!.id}`;
    await pressed(studio, `${lot}/measured`, { measured: '4.6', reason: 'short delivery', on: '2026-03-02' });
    expect(await bookOf(studio, materialId)).toEqual({ left: 4.6, value: '46.00' });
    await pressed(studio, `${lot}/measured`, { measured: '5 1/2 m', reason: 'a slip', on: '2026-03-02' });
    expect(await bookOf(studio, materialId)).toEqual({ left: 5.5, value: '46.00' });
    const same = { once: randomUUID(), measured: '5.5', reason: 'again', on: '2026-03-02' };
    expect((await studio.post(`${lot}/measured`, same)).text).toContain('The book says the same already');
    const wordless = { once: randomUUID(), measured: '5', reason: '', on: '2026-03-02' };
    expect((await studio.post(`${lot}/measured`, wordless)).text).toContain('Say why it differs');
    await pressed(studio, `${lot}/measured`, { measured: '0', reason: 'burnt', on: '2026-03-02' });
    expect(await bookOf(studio, materialId)).toEqual({ left: 0, value: '0.00' });
  });

  it('goes along all shelves', async () => {
    const materialId = await aMaterial(studio, { name: 'Silesia', place: 'drawer 4' });
    const { lots } = await buy(studio, supplier, [{ materialId, quantity: '5', unitPrice: '10.00' }]);
    const text = wordsOf((await studio.get(`/cloth-room/stocktake?material=${materialId}`)).text);
    expect(text).toContain(`Measure ${lots[0]!.code} again`);
    expect((await studio.get('/cloth-room')).text).toContain('drawer 4');
  });
});

describe('what was bought', () => {
  it.each(['lot', 'first-in-first-out', 'weighted-average'])(
    'goes back to the supplier, costed by %s',
    async (method) => {
      const materialId = await aMaterial(studio, { method });
      const lines = [
        { materialId, quantity: '2', unitPrice: '10.00' },
        { materialId, quantity: '2', unitPrice: '20.00' },
      ];
      const { lots } = await buy(studio, supplier, lines);
      await pressed(studio, `/cloth-room/lots/${lots[1]!.id}/away`, {
        quantity: '1',
        reason: 'a hole',
        on: '2026-03-02',
      });
      expect(await bookOf(studio, materialId)).toEqual({
        left: 3,
        value: method === 'weighted-average' ? '45.00' : '40.00',
      });
      const answer = await studio.api('POST', `/api/lots/${lots[1]!.id}/sent-back`, {
        quantity: '2',
        reason: 'more',
      });
      expect([answer.status, answer.json().code]).toEqual([422, 'shortfall']);
    },
  );

  it('may be told more about, and both versions are shown when two do so', async () => {
    const materialId = await aMaterial(studio);
    const { lots } = await buy(studio, supplier, [{ materialId, quantity: '2', unitPrice: '1.00' }]);
    const lot = `/cloth-room/lots/${lots[0]!.id}`;
    const version = /name="version" value="(\d+)"/.exec((await studio.get(`${lot}/correct`)).text)![1]!;
    await pressed(studio, lot, { version, flaws: 'a knot', width: '148 cm' });
    const second = await studio.post(lot, { once: randomUUID(), version, flaws: 'none' });
    expect([second.status, second.text.includes('<q>a knot</q>')]).toEqual([409, true]);
  });

  it('answers programs by lot', async () => {
    const materialId = await aMaterial(studio);
    const sent = { materialId, origin: 'stash', quantity: '3', provenance: 'found' };
    const made = await studio.api('POST', '/api/lots', sent);
    expect(made.status, made.text).toBe(201);
    const url = `/api/lots/${made.json().id}`;
    expect(
      (await studio.api('POST', `${url}/measured-again`, { measured: '2', reason: 'tape' })).json().left,
    ).toBe('2');
    expect((await studio.api('GET', '/api/lots')).json().items.length).toBeGreaterThan(0);
    expect((await studio.api('POST', '/api/lots', { ...sent, origin: 'bought' })).status).toBe(422);
    expect((await studio.api('POST', '/api/lots', { ...sent, colour: 'x' })).json().errors[0].pointer).toBe(
      '/colour',
    );
  });
});
