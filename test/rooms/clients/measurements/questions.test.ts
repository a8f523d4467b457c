import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

const client = async (): Promise<string> =>
  String((await studio.api('POST', '/api/clients', { name: 'Asked About' })).json().id);
const take = (id: string, values: object[], more: object = {}) =>
  studio.api('POST', `/api/clients/${id}/measurements`, {
    takenOn: '2026-01-05',
    takenBy: 'OF',
    values,
    ...more,
  });
const form = (id: string, fields: Record<string, string>) =>
  studio.post(`/clients/${id}/measurements`, {
    once: randomUUID(),
    takenOn: '2026-02-05',
    takenBy: 'OF',
    ...fields,
  });
const sets = async (id: string) => (await studio.api('GET', `/api/clients/${id}/measurements`)).json().items;

describe('“is that right?”', () => {
  it('is asked of a value far from the last one, and offers what may have been meant', async () => {
    const id = await client();
    expect((await take(id, [{ dimension: 'chest-girth', typed: '104 cm' }])).status).toBe(201);
    const fields = { 'v.chest-girth': '104 in', 'v.waist-girth': '92 cm' };
    const asked = await form(id, fields);
    expect(asked.status).toBe(422);
    expect(asked.text).toContain('Chest'.toLowerCase());
    expect(asked.text).toContain('last time it was 104 cm. Is that right?');
    expect(asked.text).toContain('href="#field-v.chest-girth"');
    expect(asked.text).toMatch(/type="radio" name="said.v.chest-girth" value="104 cm"/);
    expect(asked.text).toContain('value="92 cm"');
    expect(await sets(id)).toHaveLength(1);
    const meant = { 'asked.v.chest-girth': '104 in', 'said.v.chest-girth': '104 cm' };
    expect((await form(id, { ...fields, ...meant })).status).toBe(303);
    expect((await sets(id))[0].values[0]).toMatchObject({ typed: '104 cm', unit: 'cm', confirmed: false });
  });

  it('keeps the value on confirmation, marked so, and carries the yes through a further round', async () => {
    const id = await client();
    await take(id, [{ dimension: 'chest-girth', typed: '104 cm' }]);
    const yes = { 'asked.v.chest-girth': '120 cm', 'said.v.chest-girth': 'yes' };
    const round = await form(id, { 'v.chest-girth': '120 cm', 'v.waist-girth': 'wide', ...yes });
    expect(round.status).toBe(422);
    expect(round.text).toContain('name="said.v.chest-girth" value="yes"');
    const answer = await form(id, { 'v.chest-girth': '120 cm', 'v.waist-girth': '92 cm', ...yes });
    expect(answer.status).toBe(303);
    const [newest] = await sets(id);
    expect(newest.values[0]).toMatchObject({ shown: '120 cm', confirmed: true });
    expect((await studio.get(String(answer.headers.location))).text).toContain('asked about, and right');
    const again = await studio.get(`/clients/${id}/measurements/new?again=${newest.id}`);
    expect(again.text).toContain('value="120 cm"');
    const mended = await form(id, {
      insteadOf: newest.id,
      'v.chest-girth': '120 cm',
      'v.waist-girth': '91 cm',
    });
    expect(mended.status).toBe(303);
  });

  it('is asked by the survey only where nothing was measured before, and only of what a slip explains', async () => {
    // ANSUR II, 2012: smallest and largest chest circumference of all surveyed 695 and 1,469 mm; asked beyond 25 %.
    const id = await client();
    const asked = await take(id, [{ dimension: 'chest-girth', typed: '1040 cm', confirmed: true }]);
    expect(asked.status).toBe(201);
    const fresh = await client();
    expect((await take(fresh, [{ dimension: 'chest-girth', typed: '184 cm' }])).status).toBe(422);
    expect((await take(fresh, [{ dimension: 'chest-girth', typed: '183 cm' }])).status).toBe(201);
  });

  it('comes to programs as 422 with the place, and goes with confirmed: true', async () => {
    const id = await client();
    const asked = await take(id, [
      { dimension: 'waist-girth', typed: '90 cm' },
      { dimension: 'chest-girth', typed: '30 cm' },
    ]);
    expect(asked.status).toBe(422);
    expect(asked.json()).toMatchObject({ code: 'asked', errors: [{ pointer: '/values/1/typed' }] });
    expect(await sets(id)).toEqual([]);
  });
});

describe('measurements for programs', () => {
  it('name every field at fault', async () => {
    const id = await client();
    const answer = await take(
      id,
      [
        { dimension: 'chest-girth', typed: 'wide' },
        { dimension: 'no-such', typed: '1 in' },
      ],
      { takenOn: '2031-01-01' },
    );
    expect(answer.status).toBe(422);
    const pointers = answer.json().errors.map(({ pointer }: { pointer: string }) => pointer);
    expect(pointers.sort()).toEqual(['/takenOn', '/values/0/typed', '/values/1/dimension']);
    expect((await take(id, [], { weight: '80' })).json().errors[0].detail).toContain('no field “weight”');
    expect((await take(id, [])).json().errors).toMatchObject([{ pointer: '/values' }]);
    expect((await take(id, [{ typed: '1 in' }])).json().errors[0].pointer).toBe('/values/0/dimension');
    const twice = [1, 2].map(() => ({ dimension: 'waist-girth', typed: '90 cm' }));
    expect((await take(id, twice)).json().errors).toMatchObject([{ pointer: '/values/waist-girth' }]);
    expect((await take(id, [], { garmentType: 'no-such' })).status).toBe(422);
    expect((await take(randomUUID(), [])).status).toBe(404);
  });

  it('answer with the set, its differences and its address', async () => {
    const id = await client();
    await take(id, [{ dimension: 'waist-girth', typed: '36 in' }], { takenOn: '2025-01-05' });
    const made = await take(id, [{ name: 'WAIST', typed: '36 1/4 in' }]);
    expect(made.status).toBe(201);
    expect(made.json()).toMatchObject({
      client: id,
      stands: true,
      values: [{ dimension: 'waist-girth', mm: '920.75', difference: { mm: '6.35', since: '2025-01-05' } }],
    });
    expect((await studio.api('GET', String(made.headers.location))).json().id).toBe(made.json().id);
    const other = await client();
    expect((await studio.api('GET', `/api/clients/${other}/measurements/${made.json().id}`)).status).toBe(
      404,
    );
    const dimensions = (await studio.api('GET', '/api/body-dimensions')).json().items;
    expect(dimensions).toContainEqual(expect.objectContaining({ id: 'hip-girth', tradeWord: 'seat' }));
  });

  it('take names of 400 characters no further than the field, and say so', async () => {
    const id = await client();
    const long = await take(id, [{ dimension: 'waist-girth', typed: '36 in' }], { takenBy: 'Ü'.repeat(400) });
    expect(long.json().errors).toEqual([{ pointer: '/takenBy', detail: 'At most 200 characters.' }]);
  });
});
