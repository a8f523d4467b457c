import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { garmentsOf, openCommission } from './an-opening.js';

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

const aGarment = async (fields: Record<string, string> = {}): Promise<string> =>
  (await garmentsOf(studio, await openCommission(studio, fields)))[0]!;
const apiOf = (url: string): string => `/api/garments/${url.split('/').at(-1)}`;
const planOf = async (url: string) => (await studio.api('GET', `${apiOf(url)}/plan`)).json().items;

describe('the page of an operation', () => {
  const fields = {
    name: 'Fell the lining',
    stage: 'finish',
    mode: 'hand',
    basting: 'no',
    driver: 'once',
    quantity: '1',
    shownToClient: 'yes',
    clientWording: 'Lining felled by hand',
  };

  it('reckons minutes from the stitches, the same as the published sum of a hand seam', async () => {
    const url = await aGarment();
    const [first] = await planOf(url);
    const at = `${url}/plan/${first.id}`;
    expect((await studio.get(at)).text).toContain('A seam sewn by hand');
    const seam = { seamLength: '2 m', stitchesPerCm: '4', stitchesPerMinute: '20' };
    const thread = { threadUse: '4', needleful: '50', changeMinutes: '1' };
    const { version } = first;
    const kept = await studio.post(at, {
      once: randomUUID(),
      version: String(version),
      ...fields,
      ...seam,
      ...thread,
    });
    expect(kept.status).toBe(303);
    const [after] = await planOf(url);
    // 200 cm × 4 / 20 = 40 minutes of stitching; 800 cm of thread in needlefuls of 50 cm are 16 changes.
    expect(after).toMatchObject({
      fixedMinutes: '56',
      clientWording: 'Lining felled by hand',
      kind: first.kind,
    });
    const { text } = await studio.get(at);
    expect(text).toContain('800 stitches and 16 threads: 56 min.');
    const half = await studio.post(at, { once: randomUUID(), ...fields, seamLength: '2 m', threadUse: '4' });
    expect(half.status).toBe(422);
    for (const words of ['Give stitches to the centimetre.', 'Give the length of one needleful.'])
      expect(half.text).toContain(words);
    const still = { ...fields, ...seam, stitchesPerMinute: '0' };
    expect((await studio.post(at, { once: randomUUID(), ...still })).text).toContain('above 0 stitches');
  });

  it('shares the minutes over modes that add up to a hundred', async () => {
    const url = await aGarment();
    const [first] = await planOf(url);
    const at = `${url}/plan/${first.id}`;
    const shares = { 'share-hand': '60', 'share-press': '40' };
    const said = { ...fields, fixedMinutes: '1h40' };
    expect((await studio.post(at, { once: randomUUID(), ...said, ...shares })).status).toBe(303);
    expect((await planOf(url))[0]).toMatchObject({
      fixedMinutes: '100',
      modeShares: [
        { mode: 'hand', share: '0.6' },
        { mode: 'press', share: '0.4' },
      ],
    });
    const wrong = await studio.post(at, { once: randomUUID(), ...said, ...shares, 'share-press': '50' });
    expect(wrong.status).toBe(422);
    expect(wrong.text).toContain('must add up to 100 %');
  });

  it('goes by a driver with minutes once and for each; a stale one shows both versions', async () => {
    const url = await aGarment();
    const [first] = await planOf(url);
    const at = `${url}/plan/${first.id}`;
    const said = { ...fields, driver: 'each', quantity: '11', fixedMinutes: '10', minutesPerUnit: '25' };
    const version = String(first.version);
    expect((await studio.post(at, { once: randomUUID(), version, ...said })).status).toBe(303);
    expect((await studio.get(url)).text).toContain('4 h 45');
    const stale = await studio.post(at, { once: randomUUID(), version, ...said, name: 'Another' });
    expect(stale.status).toBe(409);
    expect(stale.text).toContain('<q>Fell the lining</q>');
    expect((await studio.get(`${url}/plan/${randomUUID()}`)).status).toBe(404);
  });
});

describe('a plan taken over', () => {
  it('from an earlier garment of the type, in place of the present one or after it', async () => {
    const earlier = await aGarment({ title: 'The earlier one' });
    await studio.post(`${earlier}/plan/add`, { once: randomUUID(), line: 'inside pocket 5' });
    const url = await aGarment();
    const page = await studio.get(`${url}/plan/copy`);
    expect(page.text).toContain('The earlier one');
    const from = earlier.split('/').at(-1)!;
    const take = (how: string) => studio.post(`${url}/plan/copy`, { once: randomUUID(), from, how });
    expect((await take('instead')).status).toBe(303);
    const [copied, original] = [await planOf(url), await planOf(earlier)];
    expect(copied.map(({ name }: { name: string }) => name)).toEqual(
      original.map(({ name }: { name: string }) => name),
    );
    expect(copied[0].id).not.toBe(original[0].id);
    expect((await take('after')).status).toBe(303);
    expect(await planOf(url)).toHaveLength(2 * original.length);
    expect((await studio.get(`${url}/plan/copy?q=nothing-such`)).text).toContain('No garment with a plan');
    expect((await studio.get(`${url}/plan/copy?q=earlier+one`)).text).toContain('Lounge jacket');
  });
});

describe('another make', () => {
  it('changes the plan only when asked, and only what is ticked', async () => {
    const url = await aGarment({ 'garments.0.type': 'shirt' });
    const before = await planOf(url);
    const make = { once: randomUUID(), version: '1', type: 'shirt', make: 'all-hand' };
    expect((await studio.post(url, make)).status).toBe(303);
    expect(await planOf(url)).toEqual(before);
    const opposite = before.some(({ mode }: { mode: string }) => mode === 'machine') ? 'all-hand' : 'machine';
    await studio.post(url, { once: randomUUID(), version: '2', type: 'shirt', make: opposite });
    const { text } = await studio.get(`${url}/plan/proposal`);
    const ticks = [...text.matchAll(/name="((?:more|out)\.[^"]*)" type="checkbox" value="yes" checked/g)];
    expect(ticks.length).toBeGreaterThan(1);
    const nothing = await studio.post(`${url}/plan/proposal`, { once: randomUUID() });
    expect(nothing.status).toBe(422);
    const all = Object.fromEntries(ticks.map(([, name]) => [name!, 'yes']));
    expect((await studio.post(`${url}/plan/proposal`, { once: randomUUID(), ...all })).status).toBe(303);
    expect((await studio.get(`${url}/plan/proposal`)).text).toContain('there is nothing to propose');
    expect(await planOf(url)).not.toEqual(before);
  });
});

describe('plan, materials and expenses for programs', () => {
  it('add a line, change it with If-Match, put a whole plan in place', async () => {
    const url = apiOf(await aGarment());
    const asked = await studio.api('POST', `${url}/plan`, { line: 'gusset of nettle cloth' });
    expect(asked.status).toBe(422);
    expect(asked.json().errors.map(({ pointer }: { pointer: string }) => pointer)).toContain('/minutes');
    const said = { line: 'gusset of nettle cloth 3', minutes: 12, stage: 'make', mode: 'hand' };
    const made = await studio.api('POST', `${url}/plan`, said);
    expect(made.status).toBe(201);
    expect(made.json()).toMatchObject({ quantity: '3', minutesPerUnit: '12', driver: 'each' });
    const at = String(made.headers.location);
    const changed = {
      name: 'gusset',
      stage: 'make',
      mode: 'hand',
      driver: 'each',
      quantity: 4,
      minutesPerUnit: '12.5',
    };
    expect((await studio.api('PUT', at, changed, { 'if-match': '"1"' })).json()).toMatchObject({
      version: 2,
    });
    expect((await studio.api('PUT', at, changed, { 'if-match': '"1"' })).status).toBe(412);
    expect((await studio.api('PUT', at, { ...changed, colour: 'red' })).json().errors).toEqual([
      { pointer: '/colour', detail: 'There is no field “colour” here.' },
    ]);
    const { id } = made.json();
    const items = [
      { id, ...changed, name: 'gusset again' },
      {
        name: 'fell',
        stage: 'finish',
        mode: 'hand',
        handStitch: { lengthMm: 2000, stitchesPerCm: 4, stitchesPerMinute: 20 },
      },
      { name: 'later', stage: 'finish', mode: 'hand' },
    ];
    const put = await studio.api('PUT', `${url}/plan`, { items });
    expect(put.json().items).toMatchObject([
      { id, name: 'gusset again' },
      { fixedMinutes: '40', needsMinutes: false },
      { needsMinutes: true },
    ]);
    const wrong = await studio.api('PUT', `${url}/plan`, { items: [{ ...items[1], fixedMinutes: -1 }] });
    expect(wrong.json().errors[0].pointer).toBe('/items/0/fixedMinutes');
    expect((await studio.api('DELETE', at)).status).toBe(200);
    expect((await studio.api('GET', at)).status).toBe(404);
  });

  it('add, change and take out materials and expenses; a price by hand', async () => {
    const url = apiOf(await aGarment());
    const cloth = {
      name: 'tweed',
      quantity: '5.20',
      unit: 'm',
      unitCost: '46.00',
      wasteShare: 0.05,
      handling: true,
    };
    const made = await studio.api('POST', `${url}/materials`, cloth);
    expect(made.status).toBe(201);
    expect(made.json()).toMatchObject({ quantity: '5.2', unitCost: '46', wasteOf: 'net', handling: true });
    const at = String(made.headers.location);
    expect((await studio.api('PUT', at, { ...cloth, chargeAt: 'nil' }, { 'if-match': '"1"' })).status).toBe(
      200,
    );
    expect((await studio.api('PUT', at, cloth, { 'if-match': '"1"' })).status).toBe(412);
    expect((await studio.api('POST', `${url}/materials`, { ...cloth, unit: 'furlong' })).status).toBe(422);
    expect((await studio.api('DELETE', at)).status).toBe(200);
    const courier = await studio.api('POST', `${url}/expenses`, { name: 'courier', amount: '12.00' });
    expect(courier.json()).toMatchObject({ amount: '12.00' });
    expect((await studio.api('POST', `${url}/expenses`, { name: 'x', amount: '-1' })).status).toBe(422);
    const nil = await studio.api('PUT', `${url}/price`, { ownPrice: '0.00' });
    expect(nil.status).toBe(422);
    expect((await studio.api('PUT', `${url}/price`, { ownPrice: '0.00', givenAway: true })).status).toBe(200);
    expect((await studio.api('PUT', `${url}/price`, { ownPrice: null })).json().ownPrice).toBeUndefined();
    const whole = (await studio.api('GET', url)).json();
    expect(whole).toMatchObject({ name: 'Lounge jacket', materials: [], expenses: [{ name: 'courier' }] });
    const corrected = await studio.api('PUT', url, { typeId: 'waistcoat', make: 'machine' });
    expect(corrected.json()).toMatchObject({ typeId: 'waistcoat', make: 'machine' });
    expect((await studio.api('DELETE', url)).status).toBe(409);
  });
});
