import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addDays } from '../../../src/domain/kernel/calendar-date.js';
import { dateInWords } from '../../../src/web/words/dates.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { type BenchGarment, openGarments, wordsOf } from './a-bench.js';

let studio: TestStudio;
let waistcoat: BenchGarment;
let jacket: BenchGarment;
let today: string;
const HERE = '/bench/promises';
const api = async (path = '') => (await studio.api('GET', `/api/promises${path}`)).json();
const promise = async (garment: BenchGarment, dueOn: string) => {
  const { etag } = (await studio.api('GET', `/api/garments/${garment.id}`)).headers as { etag: string };
  const { name, typeId, make } = (await studio.api('GET', `/api/garments/${garment.id}`)).json();
  const put = await studio.api(
    'PUT',
    `/api/garments/${garment.id}`,
    { name, typeId, make, dueOn },
    { 'if-match': etag },
  );
  expect(put.status, put.text).toBe(200);
};
const of = (told: any, garment: BenchGarment) =>
  told.garments.find((one: any) => one.garmentId === garment.id);

beforeAll(async () => {
  studio = await openTestStudio();
  today = studio.clock.now().slice(0, 10);
});
afterAll(() => studio.close());

describe('promises', () => {
  it('say what is missing: a garment, then the hours of a week', async () => {
    expect(wordsOf((await studio.get(HERE)).text)).toContain('Nothing is being made');
    [waistcoat, jacket] = (await openGarments(studio, 'waistcoat', 'lounge-jacket')) as [
      BenchGarment,
      BenchGarment,
    ];
    const page = wordsOf((await studio.get(HERE)).text);
    expect(page).toContain('Nobody has said how many hours a week are worked');
    expect(of(await api(), jacket).dates).toBeNull();
    expect((await studio.api('GET', '/api/promises/rush?typeId=waistcoat')).status).toBe(422);
    const rates = {
      from: today,
      people: [
        {
          name: 'Odalys Fenwright',
          pay: '30000',
          onCosts: [],
          year: { weeks: '46', hoursAWeek: '40', productiveShare: '0.75' },
        },
      ],
      overhead: [],
    };
    const set = await studio.api('POST', '/api/rates', rates);
    expect([200, 201], set.text).toContain(set.status);
  });

  it('name a day at each certainty, the chance of the promised one, and the hours of 26 weeks', async () => {
    await promise(waistcoat, addDays(today, 30));
    await promise(jacket, addDays(today, 300));
    const told = await api();
    // 40 h × 0.75 over Monday to Friday.
    expect(told.week.minutesOn).toEqual([360, 360, 360, 360, 360, 0, 0]);
    for (const garment of [waistcoat, jacket]) {
      const { dates } = of(told, garment);
      expect(dates['0.5'] <= dates['0.8'] && dates['0.8'] <= dates['0.9']).toBe(true);
    }
    expect(of(told, jacket).dates['0.5'] > of(told, waistcoat).dates['0.5']).toBe(true);
    expect(of(told, jacket).chance).toBe(1);
    // The plan of a jacket has fittings, and nobody has named a day for them.
    expect(of(told, jacket).fittings.length).toBeGreaterThan(0);
    expect(of(told, jacket).fittings[0].days).toBe(7);
    expect(told.byWeek).toHaveLength(26);
    const page = (await studio.get(HERE)).text;
    expect(wordsOf(page)).toContain('as good as certain');
    expect(page).toContain('<svg class="strip"');
    expect(wordsOf((await studio.get('/')).text)).toContain('Promises');
  });

  it('say what a rush would do, and refuse what is none', async () => {
    const before = of(await api(), waistcoat).dates['0.8'];
    const rush = await api(`/rush?typeId=waistcoat&minutes=2400&before=${waistcoat.id}`);
    expect(rush.dates['0.5'] <= rush.dates['0.9']).toBe(true);
    expect(rush.moved[0]).toMatchObject({ garmentId: waistcoat.id, before });
    expect(rush.moved[0].after > before).toBe(true);
    const last = await api('/rush?typeId=waistcoat&minutes=600&before=last');
    expect(last.dates['0.8'] > rush.dates['0.8']).toBe(true);
    const page = await studio.get(
      `${HERE}/rush?typeId=waistcoat&make=all-hand&hours=40&before=${waistcoat.id}`,
    );
    expect(wordsOf(page.text)).toContain('Planned at 40 h, it could be promised for');
    expect(wordsOf(page.text)).toContain('Promises that move');
    const bad = await studio.get(`${HERE}/rush?typeId=waistcoat&hours=%3Cb%3E&before=nobody`);
    expect(bad.status).toBe(422);
    expect(bad.text).toContain('value="&lt;b&gt;"');
    expect((await studio.get(`${HERE}/rush?typeId=armour`)).text).toContain('no such garment type');
    expect((await studio.get(`${HERE}/rush?typeId=waistcoat&hours=0`)).text).toContain('more than no time');
  });

  it('keep agreed fittings in mind', async () => {
    const on = addDays(today, 80);
    const planned = await studio.api('POST', `/api/commissions/${waistcoat.commissionId}/fittings`, {
      kind: 'baste',
      on,
      at: '10:00',
      minutes: 45,
      garmentIds: [waistcoat.id],
    });
    expect(planned.status, planned.text).toBe(201);
    const told = of(await api(), waistcoat);
    expect(told.fittings[0].on).toBe(on);
    expect(told.dates['0.5'] >= on).toBe(true);
  });

  it('show before anything is kept what a week ill moves, and move it in one act with the letters ready', async () => {
    const [from, to] = [addDays(today, 1), addDays(today, 14)];
    const due = of(await api(), jacket).dates['0.8'];
    await promise(jacket, due);
    const asked = `${HERE}/away?from=${from}&to=${to}&words=ill+%3Ci%3E`;
    const look = await studio.get(asked);
    expect(look.status).toBe(200);
    expect(wordsOf(look.text)).toContain('jacket for Corvin Haddlestone');
    expect(look.text).toContain('ill &lt;i&gt;');
    expect((await api()).closedDays).toEqual([]);
    const { moves } = (
      await studio.api('POST', '/api/promises/closed-days/look', { from, to, words: 'ill' })
    ).json();
    const moved = moves.find((one: any) => one.garmentId === jacket.id);
    expect(moved).toMatchObject({ promised: due, before: due, afterThePromise: true });
    expect(look.text).toContain(`value="${moved.after}"`);
    const seen = look.text.match(new RegExp(`name="seen.${jacket.id}" value="(\\d+)"`))?.[1] ?? '';
    const fields = {
      from,
      to,
      words: 'ill <i>',
      once: randomUUID(),
      [`move.${jacket.id}`]: 'yes',
      [`date.${jacket.id}`]: addDays(today, 100),
      [`seen.${jacket.id}`]: seen,
    };
    const wrong = await studio.post(`${HERE}/away`, {
      ...fields,
      once: randomUUID(),
      [`date.${jacket.id}`]: addDays(today, -1),
    });
    expect(wrong.status).toBe(422);
    expect(wordsOf(wrong.text)).toContain('Promise a day that is still to come.');
    const kept = await studio.post(`${HERE}/away`, fields);
    expect(kept.status, wordsOf(kept.text)).toBe(303);
    await studio.post(`${HERE}/away`, fields);
    const letters = await studio.get(String(kept.headers.location));
    const words = wordsOf(letters.text);
    expect(words).toContain('Dear Corvin Haddlestone');
    expect(words).toContain(`10 June 2026, instead of ${dateInWords(due)}`);
    const span = String(kept.headers.location).split('?')[0]!.split('/').at(-1);
    expect((await api(`/letters/${span}`)).letters[0].text).not.toContain('ill <');
    const told = await api();
    expect(told.closedDays).toHaveLength(1);
    expect(told.closedDays[0].days).toHaveLength(14);
    expect(of(told, jacket).promised).toBe(addDays(today, 100));
    // Somebody else looked at the garment before it moved.
    const stale = await studio.post(`${HERE}/away`, {
      ...fields,
      once: randomUUID(),
      [`date.${jacket.id}`]: addDays(today, 120),
    });
    expect(stale.status).toBe(409);
    const [act] = (await studio.api('GET', '/api/history')).json().items;
    expect(act.sentence ?? act.said ?? JSON.stringify(act)).toContain('one promise moved');
    const pdf = letters.text.match(/href="([^"]+\.pdf)"/)?.[1] ?? '';
    const printed = await studio.get(pdf);
    expect(printed.headers['content-type']).toContain('application/pdf');
  });

  it('open days again without moving promises back, and refuse spans that are none', async () => {
    const [span] = (await api()).closedDays;
    const open = await studio.post(`${HERE}/closed/${span.id}/open`, { once: randomUUID() });
    expect(open.status).toBe(303);
    const told = await api();
    expect(told.closedDays).toEqual([]);
    expect(of(told, jacket).promised).toBe(addDays(today, 100));
    const bad = async (from: string, to: string) =>
      (await studio.api('POST', '/api/promises/closed-days', { from, to, words: 'fair' })).status;
    expect(await bad(addDays(today, 3), addDays(today, 2))).toBe(422);
    expect(await bad(today, addDays(today, 400))).toBe(422);
    expect(await bad('2026-02-30', today)).toBe(422);
    expect((await studio.get(`${HERE}/away?from=${today}&to=`)).status).toBe(422);
    const once = await studio.api('POST', '/api/promises/closed-days', {
      from: today,
      to: today,
      words: 'fair',
    });
    expect(once.status).toBe(201);
    const again = await studio.api('POST', '/api/promises/closed-days', {
      from: today,
      to: today,
      words: 'fair',
    });
    expect(again.status).toBe(409);
  });

  it('are read by a maker who sees no prices, who moves none', async () => {
    const passphrase = 'four other plain words';
    await studio.post('/house/people', {
      once: randomUUID(),
      name: 'Wilmot Larkspur',
      role: 'maker',
      passphrase,
    });
    const signed = await studio.post('/sign-in', { name: 'Wilmot Larkspur', passphrase }, { cookie: '' });
    const cookie = String(signed.headers['set-cookie'] ?? '').split(';')[0] ?? '';
    const page = await studio.get(HERE, { cookie });
    expect(page.status).toBe(200);
    expect(page.text).not.toContain(`${HERE}/away`);
    expect((await studio.get(`${HERE}/away`, { cookie })).status).toBe(403);
  });
});
