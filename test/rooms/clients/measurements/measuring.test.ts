import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../../support/studio.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

const client = async (fields: Record<string, unknown> = {}): Promise<string> => {
  const made = await studio.api('POST', '/api/clients', { name: 'Corvin Haddlestone', ...fields });
  expect(made.status).toBe(201);
  return String(made.json().id);
};
const set = (fields: Record<string, string>) => ({
  once: randomUUID(),
  takenOn: '2026-01-05',
  takenBy: 'Odalys Fenwright',
  over: 'shirt',
  garmentType: 'lounge-jacket',
  ...fields,
});
const keep = async (id: string, fields: Record<string, string>) =>
  studio.post(`/clients/${id}/measurements`, set(fields));
type Kept = {
  stands: boolean;
  guardian: string;
  figuration: string;
  values: {
    dimension: string;
    typed: string;
    unit: string;
    mm: string;
    note: string | null;
    difference?: { shown: string };
  }[];
};
const kept = async (id: string): Promise<[Kept, ...Kept[]]> =>
  (await studio.api('GET', `/api/clients/${id}/measurements`)).json().items;

describe('measuring a client', () => {
  it('keeps text, unit and exact value of each, in the order of the list', async () => {
    const id = await client();
    const page = await studio.get(`/clients/${id}/measurements/new?type=breeches`);
    expect(page.text).toMatch(
      /Waist<\/span>[\s\S]*Seat<\/span> <span class="iso">hip girth[\s\S]*Outside leg/,
    );
    const answer = await keep(id, {
      'v.waist-girth': '36 3/4 in full',
      'v.hip-girth': ' 97,8 cm',
      'v.balance': '-1/4 in',
      'v.chest-girth': '',
    });
    expect(answer.status).toBe(303);
    const shown = await studio.get(String(answer.headers.location));
    expect(shown.text).toContain('Measured Corvin Haddlestone on');
    expect(shown.text).toContain('36 3/4 in full');
    const [only] = await kept(id);
    expect(only.values.map((one) => [one.dimension, one.typed, one.unit, one.mm, one.note])).toEqual([
      ['waist-girth', '36 3/4 in full', 'in', '933.45', 'full'],
      ['hip-girth', ' 97,8 cm', 'cm', '978', null],
      ['balance', '-1/4 in', 'in', '-6.35', null],
    ]);
  });

  it('never overwrites a set, and says what changed since, dimension by dimension', async () => {
    const id = await client();
    await keep(id, { takenOn: '2020-03-02', 'v.waist-girth': '36 in', 'v.neck-girth': '15 1/2 in' });
    await keep(id, { takenOn: '2021-03-02', 'v.waist-girth': '36 1/2 in' });
    const last = await keep(id, {
      takenOn: '2022-03-02',
      'v.waist-girth': '36 1/4 in',
      'v.neck-girth': '40 cm',
    });
    const [third] = await kept(id);
    expect(third.values.map((one) => one.difference)).toEqual([
      { mm: '-6.35', shown: '−1/4 in', since: '2021-03-02' },
      { mm: '6.3', shown: '+0.63 cm', since: '2020-03-02' },
    ]);
    expect(await kept(id)).toHaveLength(3);
    const page = await studio.get(String(last.headers.location));
    expect(page.text).toContain('−1/4 in');
    const card = await studio.get(`/clients/${id}`);
    expect(card.text).toContain('2 March 2020');
    expect(card.text).toContain(`/commissions?client&#x3D;${id}`);
    expect(card.text).toContain(`/history?about&#x3D;client/${id}`);
  });

  it('takes a set again to mend a slip: the old one stays readable and the new one stands', async () => {
    const id = await client();
    await keep(id, { takenOn: '2020-03-02', 'v.waist-girth': '36 in' });
    const slip = String(
      (await keep(id, { takenOn: '2021-03-02', 'v.waist-girth': '37 in' })).headers.location,
    );
    const slipId = /measurements\/([^?]+)/.exec(slip)![1]!;
    const again = await studio.get(`/clients/${id}/measurements/new?again=${slipId}`);
    expect(again.text).toContain(`name="insteadOf" value="${slipId}`);
    expect(again.text).toContain('value="37 in"');
    const mended = await keep(id, { takenOn: '2021-03-02', insteadOf: slipId, 'v.waist-girth': '36 1/4 in' });
    expect(mended.status).toBe(303);
    const items = await kept(id);
    expect(items.map((one) => [one.stands, one.values[0]?.difference?.shown])).toEqual([
      [true, '+1/4 in'],
      [false, '+1 in'],
      [true, undefined],
    ]);
    expect((await studio.get(slip)).text).toContain('This set was taken again.');
    const twice = await keep(id, { insteadOf: slipId, 'v.waist-girth': '36 in' });
    expect(twice.status).toBe(409);
    expect(twice.text).toContain('taken again already');
  });

  it('can be undone, and a second press makes no second set', async () => {
    const id = await client();
    const fields = set({ 'v.waist-girth': '36 in' });
    const both = await Promise.all([1, 2].map(() => studio.post(`/clients/${id}/measurements`, fields)));
    expect(both.map(({ status }) => status)).toEqual([303, 303]);
    expect(await kept(id)).toHaveLength(1);
    const act = new URL(String(both[0]!.headers.location), 'http://x').searchParams.get('done');
    expect((await studio.post(`/history/${act}/undo`, { once: randomUUID() })).status).toBe(303);
    expect(await kept(id)).toEqual([]);
  });

  it('adds a measurement by any name: the trade’s word finds it, a new one is asked about once', async () => {
    const id = await client();
    const fields = {
      'extra.0.name': 'Chest',
      'extra.0.value': '41 in',
      'extra.1.name': 'خصر {{x}} <b>',
      'extra.1.value': '12 in',
    };
    const asked = await keep(id, fields);
    expect(asked.status).toBe(422);
    expect(asked.text).toContain('is not measured here yet');
    expect(asked.text).not.toContain('<b>');
    const sure = { 'asked.extra.1.name': fields['extra.1.name'], 'said.extra.1.name': 'yes' };
    expect((await keep(id, { ...fields, ...sure })).status).toBe(303);
    const [only] = await kept(id);
    expect(only.values[0]?.dimension).toBe('chest-girth');
    expect(only.values[1]?.dimension).toMatch(/^own-/);
    const next = await studio.get(`/clients/${id}/measurements/new`);
    expect(next.text).toContain('خصر {{x}} &lt;b&gt;');
    expect(next.text).toContain('Last time');
  });

  it('offers another list without losing what was typed, and keeps nothing by it', async () => {
    const id = await client();
    const answer = await studio.post(
      `/clients/${id}/measurements/list`,
      set({ garmentType: 'breeches', 'v.chest-girth': '41 in', 'v.waist-girth': '36 in' }),
    );
    expect(answer.status).toBe(200);
    expect(answer.text).toContain('name="v.calf-girth"');
    expect(answer.text).toMatch(/name="v.chest-girth" type="text" value="41 in"/);
    expect(await kept(id)).toEqual([]);
  });

  it('keeps figuration in neutral words, and asks about what no pattern needs', async () => {
    const id = await client();
    const fields = { 'v.waist-girth': '36 in', 'fig.head-forward': 'yes', figuration: 'lost weight' };
    const asked = await keep(id, fields);
    expect(asked.status).toBe(422);
    expect(asked.text).toContain('is not needed for a pattern');
    expect(asked.text).toMatch(/name="fig.head-forward" type="checkbox" value="yes" checked/);
    const written = await keep(id, { ...fields, figuration: 'right shoulder lower by 3/8 in' });
    expect(written.status).toBe(303);
    expect((await kept(id))[0].figuration).toBe('head forward\nright shoulder lower by 3/8 in');
  });
});

describe('a child', () => {
  it('is measured with a guardian named, and never compared', async () => {
    const id = await client({ name: 'Small One', isChild: true, guardian: 'Ada One' });
    expect((await keep(id, { 'v.chest-girth': '26 in', guardian: '' })).text).toContain('Name the guardian');
    expect(
      (await keep(id, { takenOn: '2020-01-02', 'v.chest-girth': '22 in', guardian: 'Ada One' })).status,
    ).toBe(303);
    expect((await keep(id, { 'v.chest-girth': '27 in', guardian: 'Ada One' })).status).toBe(303);
    expect((await kept(id))[0]).toMatchObject({ guardian: 'Ada One', values: [{ confirmed: false }] });
  });

  it('is one by the date of birth on the day of measuring', async () => {
    const id = await client({ birthDate: '2010-06-01' });
    const asked = await keep(id, { takenOn: '2020-06-01', 'v.chest-girth': '26 in' });
    expect(asked.text).toContain('Name the guardian');
  });
});
