import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Decimal } from '../../../src/domain/kernel/decimal.js';
import { withOwnMinutes } from '../../../src/domain/making/operation.js';
import { planBook } from '../../../src/storage/books/plan-book.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { aJacket, held, planOf, typedInto } from './an-opening.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

describe('the plan written in place', () => {
  it('takes minutes as people type them, quantities and the tick, in one form', async () => {
    const url = await aJacket(studio);
    const [first, second, third] = await planOf(studio, url);
    const { text } = await studio.get(url);
    const fields = {
      ...(await typedInto(studio, url, first!.id, { minutes: '1h30', quantity: '1', shown: 'no' }, text)),
      ...(await typedInto(studio, url, second!.id, { minutes: '90m', shown: 'yes' }, text)),
      ...(await typedInto(studio, url, third!.id, { minutes: '25', quantity: '2,5' }, text)),
      act: 'keep',
    };
    const answer = await studio.post(`${url}/plan`, fields);
    expect(answer.status).toBe(303);
    const after = await planOf(studio, url);
    expect(after[0]).toMatchObject({ fixedMinutes: '90', fromStartingValues: false, shownToClient: false });
    expect(after[1]).toMatchObject({ fixedMinutes: '90', shownToClient: true });
    expect(after[2]).toMatchObject({ driver: 'each', quantity: '2.5', minutesPerUnit: '25' });
    const page = await studio.get(String(answer.headers.location));
    expect(page.text).toContain('Changed the plan of the Lounge jacket');
    expect(held(page.text, first!.id)).toMatchObject({ minutes: '1h30' });
    const act = new URL(String(answer.headers.location), 'http://x').searchParams.get('done');
    expect((await studio.post(`/history/${act}/undo`, { once: randomUUID(), back: url })).status).toBe(303);
    expect((await planOf(studio, url))[0]).toMatchObject({ fixedMinutes: '60', fromStartingValues: true });
  });

  it('keeps what cannot be meant, beside its field, and changes nothing', async () => {
    const url = await aJacket(studio);
    const [first] = await planOf(studio, url);
    for (const [field, value, said] of [
      ['minutes', 'NaN', 'is not a time'],
      ['minutes', '1e308', 'is not a time'],
      ['minutes', '-5', 'cannot be less than nought'],
      ['minutes', '9999999', 'is not a time'],
      ['quantity', '', 'Write how many'],
      ['quantity', '-1', 'Write a number from 0'],
      ['quantity', '{{x}}', 'Write a number from 0'],
    ] as const) {
      const answer = await studio.post(
        `${url}/plan`,
        await typedInto(studio, url, first!.id, { [field]: value }),
      );
      expect([field, value, answer.status]).toEqual([field, value, 422]);
      expect(answer.text).toContain('<title>Error:');
      expect(answer.text.replace(/\s+/g, ' ')).toContain(said);
      expect(held(answer.text, first!.id)[field]).toBe(value);
    }
    expect((await planOf(studio, url))[0]).toMatchObject({ fixedMinutes: '60', quantity: '1' });
  });

  it('moves an operation and takes it out, keeping what was typed, and brings the focus back', async () => {
    const url = await aJacket(studio);
    const [first, second] = await planOf(studio, url);
    const fields = await typedInto(studio, url, first!.id, { minutes: '2h' });
    const moved = await studio.post(`${url}/plan`, { ...fields, act: `down:${first!.id}` });
    expect(moved.headers.location).toContain(`at=down:${first!.id}`);
    const after = await planOf(studio, url);
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
    const url = await aJacket(studio);
    const [first, second] = await planOf(studio, url);
    const seen = (await studio.get(url)).text;
    const mine = await typedInto(studio, url, first!.id, { minutes: '100' }, seen);
    expect((await studio.post(`${url}/plan`, mine)).status).toBe(303);
    await studio.post(`${url}/plan`, { once: randomUUID(), act: `down:${first!.id}` });
    const elsewhere = await typedInto(studio, url, second!.id, { minutes: '33' }, seen);
    expect((await studio.post(`${url}/plan`, elsewhere)).status).toBe(303);
    const crossing = await typedInto(studio, url, first!.id, { minutes: '200' }, seen);
    const answer = await studio.post(`${url}/plan`, crossing);
    expect(answer.status).toBe(409);
    expect(answer.text).toContain('<q>1h40</q>');
    expect(held(answer.text, first!.id).minutes).toBe('200');
    expect(answer.text.match(/Saved meanwhile/g)).toHaveLength(1);
    const insisting = await typedInto(studio, url, first!.id, { minutes: '200' }, answer.text);
    expect((await studio.post(`${url}/plan`, insisting)).status).toBe(303);
    const after = await planOf(studio, url);
    expect(after.find(({ id }) => id === first!.id)).toMatchObject({ fixedMinutes: '200' });
    expect(after.find(({ id }) => id === second!.id)).toMatchObject({ fixedMinutes: '33' });
  });

  it('answers the sum as it is typed, keeping nothing', async () => {
    const url = await aJacket(studio);
    const [first] = await planOf(studio, url);
    const fields = await typedInto(studio, url, first!.id, { minutes: '9h', quantity: 'x' });
    const answer = await studio.post(`${url}/plan/sum`, fields);
    expect(answer.status).toBe(200);
    expect(answer.text).toContain('<turbo-frame id="sum"');
    expect((await planOf(studio, url))[0]).toMatchObject({ fixedMinutes: '60' });
  });

  it('stays usable with two hundred operations', async () => {
    const url = await aJacket(studio);
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
    const plan = await planOf(studio, url);
    const fields = Object.assign(
      {},
      ...(await Promise.all(plan.map(({ id }) => typedInto(studio, url, id, { minutes: '6' }, text)))),
    );
    expect((await studio.post(`${url}/plan`, fields)).status).toBe(303);
    expect((await studio.get(url)).text).toContain('200 operations, 20 h');
  }, 30_000);
});

describe('adding to the plan by typing', () => {
  it('understands a known line with its number', async () => {
    const url = await aJacket(studio);
    const before = (await planOf(studio, url)).length;
    const answer = await studio.post(`${url}/plan/add`, { once: randomUUID(), line: 'inside pocket 2' });
    expect(answer.status).toBe(303);
    const plan = await planOf(studio, url);
    expect(plan).toHaveLength(before + 1);
    expect(plan.filter(({ name }) => name === 'Inside pockets').at(-1)).toMatchObject({ quantity: '2' });
    expect((await studio.get(String(answer.headers.location))).text).toMatch(/id="field-line"[^>]*autofocus/);
  });

  it('offers choices where several may be meant, each one press', async () => {
    const url = await aJacket(studio);
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
    const url = await aJacket(studio);
    const asked = await studio.post(`${url}/plan/add`, { once: randomUUID(), line: 'Bellows gusset 2' });
    expect(asked.status).toBe(422);
    for (const words of ['is new here', 'In which stage', 'name="minutes"', 'value="Bellows gusset 2"'])
      expect(asked.text).toContain(words);
    const said = { line: 'Bellows gusset 2', isNew: 'yes', minutes: '45', stage: 'make', mode: 'hand' };
    expect((await studio.post(`${url}/plan/add`, { once: randomUUID(), ...said })).status).toBe(303);
    expect((await planOf(studio, url)).find(({ name }) => name === 'Bellows gusset')).toMatchObject({
      quantity: '2',
      minutesPerUnit: '45',
      stage: 'make',
      driver: 'each',
    });
    const again = await studio.post(`${url}/plan/add`, { once: randomUUID(), line: 'bellows gussets 3' });
    expect(again.status).toBe(303);
    const next = await aJacket(studio);
    expect((await planOf(studio, next)).some(({ name }) => name === 'Bellows gusset')).toBe(false);
  });

  it('refuses nothing at all, and keeps markup as text', async () => {
    const url = await aJacket(studio);
    const nothing = await studio.post(`${url}/plan/add`, { once: randomUUID(), line: '  ' });
    expect(nothing.status).toBe(422);
    expect(nothing.text).toContain('What is to be done?');
    const markup = { line: '<b>x</b> {{y}}', isNew: 'yes', minutes: '5', stage: 'cut', mode: 'bench' };
    expect((await studio.post(`${url}/plan/add`, { once: randomUUID(), ...markup })).status).toBe(303);
    expect((await studio.get(url)).text).toContain('&lt;b&gt;x&lt;/b&gt; {{y}}');
  });
});
