import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { studioBook } from '../../../../src/storage/books/studio-book.js';
import { openTestStudio, type TestStudio } from '../../../support/studio.js';

/*
 * What a person types for a measurement, over the form and over JSON. The rows are the studio's own table of what must be
 * understood; 1 in = 25.4 mm exactly by the international yard and pound agreement of 1959.
 */

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

const client = async (): Promise<string> =>
  String((await studio.api('POST', '/api/clients', { name: 'Typed At' })).json().id);
const workIn = async (lengthUnit: 'cm' | 'in') => {
  const present = await studioBook.the(studio.read);
  await studio.unit.write(studio.visit, async (writing) => {
    await studioBook.correct(writing, { ...present, identity: { ...present.identity, lengthUnit } });
    writing.says('Chose the unit', 'house');
  });
};
const keep = (id: string, fields: Record<string, string>) =>
  studio.post(`/clients/${id}/measurements`, {
    once: randomUUID(),
    takenOn: '2026-01-05',
    takenBy: 'Odalys Fenwright',
    ...fields,
  });
const values = async (id: string) =>
  (await studio.api('GET', `/api/clients/${id}/measurements`)).json().items[0]?.values;

// A dimension without survey limits, so that only the reading itself is seen.
const FIELD = 'v.knee-girth';

describe('a studio that works in inches', () => {
  beforeAll(() => workIn('in'));

  it.each([
    ['38 1/2', '977.9', 'in'],
    ['38½', '977.9', 'in'],
    ['38-1/2', '977.9', 'in'],
    ['38.5', '977.9', 'in'],
    [' 38  1 / 2 ', '977.9', 'in'],
    ['97.8 cm', '978', 'cm'],
    ['97,8 cm', '978', 'cm'],
    ['978 mm', '978', 'mm'],
    ['0.978 m', '978', 'm'],
    ['38 5/8', '981.075', 'in'],
    ['38 1/16', '966.7875', 'in'],
    ['1/2', '12.7', 'in'],
    ['38 1/3', '2921/3', 'in'],
    ['38½ full', '977.9', 'in'],
    ['38 1/2 bare', '977.9', 'in'],
    ['٣٨ ١/٢', '977.9', 'in'],
  ])('keeps “%s” as typed, as %s mm', async (typed, mm, unit) => {
    const id = await client();
    expect((await keep(id, { [FIELD]: typed })).status).toBe(303);
    const [value] = await values(id);
    expect(value).toMatchObject({ typed, mm, unit });
  });

  it.each([
    '38 3/2',
    '1/0',
    '-1/4',
    '38 1/2 97.8',
    'thirty eight',
    '38 1/2 + 1',
    'NaN',
    '1e308',
    '9'.repeat(400),
  ])('refuses “%s” beside its field, the text kept and nothing stored', async (typed) => {
    const id = await client();
    const answer = await keep(id, { [FIELD]: typed, 'v.chest-girth': '41 in' });
    expect(answer.status).toBe(422);
    expect(answer.text).toContain('<title>Error:');
    expect(answer.text).toContain(`id="field-${FIELD}-error"`);
    expect(answer.text).toContain(`value="${typed}"`);
    expect(answer.text).toContain('value="41 in"');
    expect(await values(id)).toBeUndefined();
  });

  it('warns about 32 feet, and keeps it when the person stands by it', async () => {
    const id = await client();
    const asked = await keep(id, { [FIELD]: '385' });
    expect(asked.status).toBe(422);
    expect(asked.text).toContain('32 feet');
    const sure = { [`asked.${FIELD}`]: '385', [`said.${FIELD}`]: 'yes' };
    expect((await keep(id, { [FIELD]: '385', ...sure })).status).toBe(303);
    expect((await values(id))[0]).toMatchObject({ typed: '385', mm: '9779', confirmed: true });
  });

  it('asks which of two is meant by 38/2', async () => {
    const id = await client();
    const asked = await keep(id, { [FIELD]: '38/2' });
    expect(asked.text).toMatch(/type="radio" name="said.v.knee-girth" value="19 in"/);
    const chosen = { [`asked.${FIELD}`]: '38/2', [`said.${FIELD}`]: '38 1/2 in' };
    expect((await keep(id, { [FIELD]: '38/2', ...chosen })).status).toBe(303);
    expect((await values(id))[0]).toMatchObject({ typed: '38/2', mm: '977.9' });
  });
});

describe('a studio that works in centimetres', () => {
  beforeAll(() => workIn('cm'));

  it.each([
    '38 1/2 in',
    '38 1/2"',
    '38½ inches',
    '38 1/2 ″',
    '38 1/2”',
    '3 ft 2 1/2 in',
    '3\'2½"',
    '1 yd 2 1/2 in',
  ])('lets the unit typed win: %s', async (typed) => {
    const id = await client();
    expect((await keep(id, { [FIELD]: typed })).status).toBe(303);
    expect((await values(id))[0]).toMatchObject({ typed, mm: '977.9', unit: 'in' });
  });

  it('asks “centimetres or inches?” of a bare fraction, and never guesses', async () => {
    const id = await client();
    const asked = await keep(id, { [FIELD]: '38 1/2', 'v.chest-girth': '104' });
    expect(asked.status).toBe(422);
    expect(asked.text).toContain('Is that right?');
    expect(asked.text).toContain('38 1/2: centimetres or inches?');
    expect(asked.text).toMatch(/type="radio" name="said.v.knee-girth" value="38 1\/2 in"/);
    expect(await values(id)).toBeUndefined();
    const said = { [`asked.${FIELD}`]: '38 1/2', [`said.${FIELD}`]: '38 1/2 in' };
    expect((await keep(id, { [FIELD]: '38 1/2', ...said })).status).toBe(303);
    expect((await values(id))[0]).toMatchObject({ typed: '38 1/2', unit: 'in', mm: '977.9' });
  });

  it('asks again when the text was changed after the question', async () => {
    const id = await client();
    const stale = { [`asked.${FIELD}`]: '38 1/2', [`said.${FIELD}`]: '38 1/2 in' };
    expect((await keep(id, { [FIELD]: '39 1/2', ...stale })).status).toBe(422);
  });
});
