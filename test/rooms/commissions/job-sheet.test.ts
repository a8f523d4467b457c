import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { aJacket, garmentsOf, openCommission, planOf } from './an-opening.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

describe('the job sheet', () => {
  it('stands under its own commission only', async () => {
    const [one, other] = [await aJacket(studio), await openCommission(studio)];
    expect((await studio.get(one)).status).toBe(200);
    expect((await studio.get(`${other}/garments/${one.split('/').at(-1)}`)).status).toBe(404);
  });

  it('shows the plan in stages with its totals, and names what has no minutes yet', async () => {
    const url = await aJacket(studio);
    await studio.post(`${url}/plan/add`, { once: randomUUID(), line: 'embroidery 40 cm2' });
    const { text } = await studio.get(url);
    for (const words of ['Draft <span', 'Baste <span', 'Finish <span', 'Planned time by stage and mode'])
      expect(text).toContain(words);
    expect(text).toContain('Nobody has said yet how long “Embroidery” takes');
    expect(text).toContain('not said');
  });

  it('without an operation explains itself, and so does a price list', async () => {
    const url = await aJacket(studio, { 'garments.0.type': 'alteration' });
    expect((await studio.get(url)).text).toContain('This is a price list');
    const jacket = await aJacket(studio);
    for (const { id } of await planOf(studio, jacket))
      await studio.post(`${jacket}/plan`, { once: randomUUID(), act: `out:${id}` });
    const { text } = await studio.get(jacket);
    expect(text).toContain('No operation yet');
    expect((await studio.get(jacket.split('/garments')[0]!)).text).toContain('has no plan yet');
  });
});

describe('materials, expenses and the price by hand', () => {
  it('take cloth with its price in one field, and are opened, changed and taken out', async () => {
    const url = await aJacket(studio);
    const cloth = {
      name: 'hand-woven tweed',
      quantity: '3.2m @ 46',
      waste: '5',
      wasteOf: 'net',
      handling: 'yes',
    };
    expect((await studio.post(`${url}/materials`, { once: randomUUID(), ...cloth })).status).toBe(303);
    const { text } = await studio.get(url);
    for (const words of ['hand-woven tweed', '3.2 m', 'with handling', '5 % of what is used'])
      expect(text).toContain(words);
    const [, at] = /href="([^"]*\/materials\/[^"]*)"/.exec(text)!;
    const stash = {
      ...cloth,
      quantity: '11 pieces',
      unitCost: '0',
      replacementUnitCost: '3.20',
      chargeAt: 'replacement',
    };
    expect((await studio.post(at!, { once: randomUUID(), version: '1', ...stash })).status).toBe(303);
    expect((await studio.get(url)).text).toContain('stash, 3.2 to replace, charged at replacement');
    const stale = await studio.post(at!, {
      once: randomUUID(),
      version: '1',
      ...stash,
      name: 'horn buttons',
    });
    expect(stale.status).toBe(409);
    expect((await studio.post(`${at}/take-out`, { once: randomUUID(), version: '2' })).status).toBe(303);
    expect((await studio.get(at!)).status).toBe(404);
  });

  it('say what is missing or cannot be meant', async () => {
    const url = await aJacket(studio);
    const cloth = { name: 'tweed', quantity: '3 m', unitCost: '46', waste: '0', wasteOf: 'net' };
    for (const [field, value, said] of [
      ['name', '', 'What is it?'],
      ['quantity', '', 'How much of it?'],
      ['quantity', '-3 m', 'cannot be less than nought'],
      ['quantity', '3 furlongs', 'is not a unit here'],
      ['quantity', '3m @ 47', 'Keep one of the two'],
      ['unitCost', '', 'What does one cost?'],
      ['unitCost', '1e308', 'Write a number'],
      ['waste', 'NaN', 'is not a percentage'],
    ] as const) {
      const fields = { once: randomUUID(), ...cloth, [field]: value };
      const answer = await studio.post(`${url}/materials`, fields);
      expect([field, value, answer.status]).toEqual([field, value, 422]);
      expect(answer.text).toContain(said);
      expect(answer.text).toContain(`name="${field}" type="text"`);
    }
    expect((await studio.get(url)).text).toContain('Nothing yet. Write the cloth first');
  });

  it('list expenses', async () => {
    const url = await aJacket(studio);
    const bad = await studio.post(`${url}/expenses`, {
      once: randomUUID(),
      expense: 'courier',
      amount: 'much',
    });
    expect(bad.status).toBe(422);
    expect(
      (await studio.post(`${url}/expenses`, { once: randomUUID(), expense: 'courier', amount: '12' })).status,
    ).toBe(303);
    const { text } = await studio.get(url);
    expect(text).toContain('12.00');
    const [, at] = /href="([^"]*\/expenses\/[^"]*)"/.exec(text)!;
    const changed = {
      once: randomUUID(),
      version: '1',
      expense: 'courier',
      amount: '13.50',
      shownToClient: 'yes',
    };
    expect((await studio.post(at!, changed)).status).toBe(303);
    expect((await studio.get(url)).text).toContain('the client reads “courier”');
  });

  it('ask before a garment is given away at nought', async () => {
    const url = await aJacket(studio);
    const asked = await studio.post(`${url}/price`, { once: randomUUID(), version: '1', ownPrice: '0.00' });
    expect(asked.status).toBe(422);
    expect(asked.text).toContain('gives the garment away');
    const fields = { once: randomUUID(), version: '1', ownPrice: '0', 'confirm.ownPrice': 'yes' };
    expect((await studio.post(`${url}/price`, fields)).status).toBe(303);
    const stale = await studio.post(`${url}/price`, { once: randomUUID(), version: '1', ownPrice: '310' });
    expect(stale.status).toBe(409);
    expect(
      (await studio.post(`${url}/price`, { once: randomUUID(), version: '2', ownPrice: '' })).status,
    ).toBe(303);
  });
});

describe('a garment', () => {
  it('is added, corrected and taken out, but never the last one', async () => {
    const commission = await openCommission(studio);
    const [only] = await garmentsOf(studio, commission);
    const kept = await studio.post(`${only}/take-out`, { once: randomUUID(), version: '1' });
    expect(kept.status).toBe(409);
    const added = await studio.post(`${commission}/garments`, {
      once: randomUUID(),
      type: 'waistcoat',
      make: 'all-hand',
      wearer: 'Wilhelmina Oake',
      'confirm.wearer': 'yes',
    });
    expect(added.status).toBe(303);
    const url = String(added.headers.location).split('?')[0]!;
    expect((await studio.get(url)).text).toContain('Wilhelmina Oake');
    const corrected = {
      once: randomUUID(),
      version: '1',
      type: 'waistcoat',
      make: 'machine',
      dueOn: '2026-05-01',
    };
    expect((await studio.post(url, corrected)).status).toBe(303);
    expect((await studio.get(url)).text).toContain('1 May 2026');
    expect((await studio.post(url, { ...corrected, once: randomUUID() })).status).toBe(409);
    expect((await studio.post(`${url}/take-out`, { once: randomUUID(), version: '2' })).status).toBe(303);
    expect(await garmentsOf(studio, commission)).toHaveLength(1);
  });
});
