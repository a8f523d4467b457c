import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { withOwnMinutes } from '../../../src/domain/making/operation.js';
import { planBook } from '../../../src/storage/books/plan-book.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { garmentsOf, openCommission } from './an-opening.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

const aJacket = async (fields: Record<string, string> = {}): Promise<string> =>
  (await garmentsOf(studio, await openCommission(studio, fields)))[0]!;

type Line = { id: string; name: string; place: number };
const planOf = async (url: string): Promise<(Line & Record<string, unknown>)[]> =>
  (await studio.api('GET', `/api/garments/${url.split('/').at(-1)}`)).json().plan;

/** What the page's plan form holds for one operation. */
const held = (text: string, id: string): Record<string, string> => {
  const of = (name: string): string =>
    new RegExp(`name="op\\.${id}\\.${name}"[^>]* value="([^"]*)"`).exec(text)?.[1] ?? '';
  return { quantity: of('quantity'), minutes: of('minutes'), was: of('was') };
};

const typedInto = async (
  url: string,
  id: string,
  typed: Record<string, string>,
  text = '',
): Promise<Record<string, string>> => {
  const { was } = held(text || (await studio.get(url)).text, id);
  return {
    once: randomUUID(),
    [`op.${id}.was`]: was!,
    ...Object.fromEntries(Object.entries(typed).map(([name, value]) => [`op.${id}.${name}`, value])),
  };
};

describe('the job sheet', () => {
  it('stands under its own commission only', async () => {
    const [one, other] = [await aJacket(), await openCommission(studio)];
    expect((await studio.get(one)).status).toBe(200);
    expect((await studio.get(`${other}/garments/${one.split('/').at(-1)}`)).status).toBe(404);
  });

  it('shows the plan in stages with its totals, and names what has no minutes yet', async () => {
    const url = await aJacket();
    await studio.post(`${url}/plan/add`, { once: randomUUID(), line: 'embroidery 40 cm2' });
    const { text } = await studio.get(url);
    for (const words of ['Draft <span', 'Baste <span', 'Finish <span', 'Planned time by stage and mode'])
      expect(text).toContain(words);
    expect(text).toContain('Nobody has said yet how long “Embroidery” takes');
    expect(text).toContain('not said');
  });

  it('without an operation explains itself, and so does a price list', async () => {
    const url = await aJacket({ 'garments.0.type': 'alteration' });
    expect((await studio.get(url)).text).toContain('This is a price list');
    const jacket = await aJacket();
    for (const { id } of await planOf(jacket))
      await studio.post(`${jacket}/plan`, { once: randomUUID(), act: `out:${id}` });
    const { text } = await studio.get(jacket);
    expect(text).toContain('No operation yet');
    expect((await studio.get(jacket.split('/garments')[0]!)).text).toContain('has no plan yet');
  });
});

describe('the plan written in place', () => {
  it('takes minutes as people type them, quantities and the tick, in one form', async () => {
    const url = await aJacket();
    const [first, second, third] = await planOf(url);
    const { text } = await studio.get(url);
    const fields = {
      ...(await typedInto(url, first!.id, { minutes: '1h30', quantity: '1', shown: 'no' }, text)),
      ...(await typedInto(url, second!.id, { minutes: '90m', shown: 'yes' }, text)),
      ...(await typedInto(url, third!.id, { minutes: '25', quantity: '2,5' }, text)),
      act: 'keep',
    };
    const answer = await studio.post(`${url}/plan`, fields);
    expect(answer.status).toBe(303);
    const after = await planOf(url);
    expect(after[0]).toMatchObject({ fixedMinutes: '90', fromStartingValues: false, shownToClient: false });
    expect(after[1]).toMatchObject({ fixedMinutes: '90', shownToClient: true });
    expect(after[2]).toMatchObject({ driver: 'each', quantity: '2.5', minutesPerUnit: '25' });
    const page = await studio.get(String(answer.headers.location));
    expect(page.text).toContain('Changed the plan of the lounge jacket');
    expect(held(page.text, first!.id)).toMatchObject({ minutes: '1h30' });
    const act = new URL(String(answer.headers.location), 'http://x').searchParams.get('done');
    expect((await studio.post(`/history/${act}/undo`, { once: randomUUID(), back: url })).status).toBe(303);
    expect((await planOf(url))[0]).toMatchObject({ fixedMinutes: '60', fromStartingValues: true });
  });

  it('keeps what cannot be meant, beside its field, and changes nothing', async () => {
    const url = await aJacket();
    const [first] = await planOf(url);
    for (const [field, value, said] of [
      ['minutes', 'NaN', 'is not a time'],
      ['minutes', '1e308', 'is not a time'],
      ['minutes', '-5', 'cannot be less than nought'],
      ['minutes', '9999999', 'is not a time'],
      ['quantity', '', 'Write how many'],
      ['quantity', '-1', 'Write a number from 0'],
      ['quantity', '{{x}}', 'Write a number from 0'],
    ] as const) {
      const answer = await studio.post(`${url}/plan`, await typedInto(url, first!.id, { [field]: value }));
      expect([field, value, answer.status]).toEqual([field, value, 422]);
      expect(answer.text).toContain('<title>Error:');
      expect(answer.text.replace(/\s+/g, ' ')).toContain(said);
      expect(held(answer.text, first!.id)[field]).toBe(value);
    }
    expect((await planOf(url))[0]).toMatchObject({ fixedMinutes: '60', quantity: '1' });
  });

  it('moves an operation and takes it out, keeping what was typed, and brings the focus back', async () => {
    const url = await aJacket();
    const [first, second] = await planOf(url);
    const fields = await typedInto(url, first!.id, { minutes: '2h' });
    const moved = await studio.post(`${url}/plan`, { ...fields, act: `down:${first!.id}` });
    expect(moved.headers.location).toContain(`at=down:${first!.id}`);
    const after = await planOf(url);
    expect(after.slice(0, 2).map(({ id }) => id)).toEqual([second!.id, first!.id]);
    expect(after[1]).toMatchObject({ fixedMinutes: '120' });
    const page = await studio.get(String(moved.headers.location));
    expect(page.text).toMatch(new RegExp(`value="down:${first!.id}"[^>]*autofocus`));
    const out = await studio.post(`${url}/plan`, { once: randomUUID(), act: `out:${second!.id}` });
    expect(out.status).toBe(303);
    const again = await studio.post(`${url}/plan`, { once: randomUUID(), act: `out:${second!.id}` });
    expect(again.status).toBe(409);
    expect(again.text).toContain('took this operation out meanwhile');
  });

  it('lets two people work on one plan, and shows both texts where they cross', async () => {
    const url = await aJacket();
    const [first, second] = await planOf(url);
    const seen = (await studio.get(url)).text;
    const mine = await typedInto(url, first!.id, { minutes: '100' }, seen);
    expect((await studio.post(`${url}/plan`, mine)).status).toBe(303);
    await studio.post(`${url}/plan`, { once: randomUUID(), act: `down:${first!.id}` });
    const elsewhere = await typedInto(url, second!.id, { minutes: '33' }, seen);
    expect((await studio.post(`${url}/plan`, elsewhere)).status).toBe(303);
    const crossing = await typedInto(url, first!.id, { minutes: '200' }, seen);
    const answer = await studio.post(`${url}/plan`, crossing);
    expect(answer.status).toBe(409);
    expect(answer.text).toContain('<q>1h40</q>');
    expect(held(answer.text, first!.id).minutes).toBe('200');
    expect(answer.text.match(/Saved meanwhile/g)).toHaveLength(1);
    const insisting = await typedInto(url, first!.id, { minutes: '200' }, answer.text);
    expect((await studio.post(`${url}/plan`, insisting)).status).toBe(303);
    const after = await planOf(url);
    expect(after.find(({ id }) => id === first!.id)).toMatchObject({ fixedMinutes: '200' });
    expect(after.find(({ id }) => id === second!.id)).toMatchObject({ fixedMinutes: '33' });
  });

  it('answers the sum as it is typed, keeping nothing', async () => {
    const url = await aJacket();
    const [first] = await planOf(url);
    const fields = await typedInto(url, first!.id, { minutes: '9h', quantity: 'x' });
    const answer = await studio.post(`${url}/plan/sum`, fields);
    expect(answer.status).toBe(200);
    expect(answer.text).toContain('<turbo-frame id="sum"');
    expect((await planOf(url))[0]).toMatchObject({ fixedMinutes: '60' });
  });

  it('stays usable with two hundred operations', async () => {
    const url = await aJacket();
    const garment = url.split('/').at(-1)!;
    await studio.unit.write(studio.visit, async (writing) => {
      const [one] = await planBook.of(writing, garment);
      const many = Array.from({ length: 200 }, (_, place) => ({
        ...withOwnMinutes(one!, new Decimal(5)),
        id: writing.newId(),
        name: `stitch ${place + 1}`,
      }));
      await planBook.keep(writing, garment, many);
    });
    const { text } = await studio.get(url);
    expect(text).toContain('200 operations, 16 h 40');
    const plan = await planOf(url);
    const fields = Object.assign(
      {},
      ...(await Promise.all(plan.map(({ id }) => typedInto(url, id, { minutes: '6' }, text)))),
    );
    expect((await studio.post(`${url}/plan`, fields)).status).toBe(303);
    expect((await studio.get(url)).text).toContain('200 operations, 20 h');
  }, 30_000);
});

describe('adding to the plan by typing', () => {
  it('understands a known line with its number', async () => {
    const url = await aJacket();
    const before = (await planOf(url)).length;
    const answer = await studio.post(`${url}/plan/add`, { once: randomUUID(), line: 'inside pocket 2' });
    expect(answer.status).toBe(303);
    const plan = await planOf(url);
    expect(plan).toHaveLength(before + 1);
    expect(plan.filter(({ name }) => name === 'Inside pockets').at(-1)).toMatchObject({ quantity: '2' });
    expect((await studio.get(String(answer.headers.location))).text).toMatch(/id="field-line"[^>]*autofocus/);
  });

  it('offers choices where several may be meant, each one press', async () => {
    const url = await aJacket();
    const answer = await studio.post(`${url}/plan/add`, { once: randomUUID(), line: 'pocket' });
    expect(answer.status).toBe(422);
    const choices = [...answer.text.matchAll(/name="line" value="([^"]*)" data-turbo-frame/g)].map(
      ([, one]) => one!,
    );
    expect(choices.length).toBeGreaterThan(1);
    expect((await studio.post(`${url}/plan/add`, { once: randomUUID(), line: choices[0]! })).status).toBe(
      303,
    );
  });

  it('asks minutes, stage and mode of something new, and knows it the next time', async () => {
    const url = await aJacket();
    const asked = await studio.post(`${url}/plan/add`, { once: randomUUID(), line: 'Bellows gusset 2' });
    expect(asked.status).toBe(422);
    for (const words of ['is new here', 'In which stage', 'name="minutes"', 'value="Bellows gusset 2"'])
      expect(asked.text).toContain(words);
    const said = { line: 'Bellows gusset 2', isNew: 'yes', minutes: '45', stage: 'make', mode: 'hand' };
    expect((await studio.post(`${url}/plan/add`, { once: randomUUID(), ...said })).status).toBe(303);
    expect((await planOf(url)).find(({ name }) => name === 'Bellows gusset')).toMatchObject({
      quantity: '2',
      minutesPerUnit: '45',
      stage: 'make',
      driver: 'each',
    });
    const again = await studio.post(`${url}/plan/add`, { once: randomUUID(), line: 'bellows gussets 3' });
    expect(again.status).toBe(303);
    const next = await aJacket();
    expect((await planOf(next)).some(({ name }) => name === 'Bellows gusset')).toBe(false);
  });

  it('refuses nothing at all, and keeps markup as text', async () => {
    const url = await aJacket();
    const nothing = await studio.post(`${url}/plan/add`, { once: randomUUID(), line: '  ' });
    expect(nothing.status).toBe(422);
    expect(nothing.text).toContain('What is to be done?');
    const markup = { line: '<b>x</b> {{y}}', isNew: 'yes', minutes: '5', stage: 'cut', mode: 'bench' };
    expect((await studio.post(`${url}/plan/add`, { once: randomUUID(), ...markup })).status).toBe(303);
    expect((await studio.get(url)).text).toContain('&lt;b&gt;x&lt;/b&gt; {{y}}');
  });
});

describe('materials, expenses and the price by hand', () => {
  it('take cloth with its price in one field, and are opened, changed and taken out', async () => {
    const url = await aJacket();
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
    const url = await aJacket();
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
    const url = await aJacket();
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
    const url = await aJacket();
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
