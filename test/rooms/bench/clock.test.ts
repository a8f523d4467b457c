import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { readConfig } from '../../../src/app/config.js';
import { createApp } from '../../../src/app/create-app.js';
import { garmentMarkBook } from '../../../src/storage/books/bench/garment-mark-book.js';
import { personBook } from '../../../src/storage/books/bench/person-book.js';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { type BenchGarment, clockOf, entriesOf, line, openGarments, tap, wordsOf } from './a-bench.js';

let studio: TestStudio;
let jacket: BenchGarment;
let waistcoat: BenchGarment;
let lapels: Record<string, string>;
let pockets: Record<string, string>;
beforeAll(async () => {
  studio = await openTestStudio();
  [jacket, waistcoat] = (await openGarments(studio, 'lounge-jacket', 'waistcoat')) as [
    BenchGarment,
    BenchGarment,
  ];
  lapels = { garment: jacket.id, operation: line(jacket, 'pad-stitch-the-lapels') };
  pockets = { garment: waistcoat.id, operation: line(waistcoat, 'welt-pockets') };
});
afterAll(() => studio.close());

const at = (instant: string): void =>
  studio.clock.forward((Date.parse(instant) - studio.clock.ticks()) / 60_000);
const stop = (values: Record<string, string> = {}) => tap(studio, values, '/stop');
const newest = async (garment: BenchGarment) => (await entriesOf(studio, garment.id))[0];
const mark = (garment: BenchGarment, kind: 'closed' | 'cancelled', of?: string) =>
  studio.unit.write(studio.visit, async (writing) => {
    writing.says('Marked', 'house');
    if (of) return garmentMarkBook.takeBack(writing, of, 'open again');
    const words = { operationId: undefined, on: '2026-03-02', words: '', document: '' };
    return garmentMarkBook.add(writing, {
      garmentId: garment.id,
      commissionId: garment.commissionId,
      kind,
      ...words,
    });
  });

beforeEach(async () => {
  if ((await clockOf(studio)).clock) await stop();
  studio.clock.forward(24 * 60 - ((studio.clock.ticks() / 60_000) % (24 * 60)) + 9 * 60);
});

describe('one tap', () => {
  it('starts an operation, stops the last, and the clock is read against the plan in words', async () => {
    const first = await tap(studio, pockets);
    expect(first.headers.location).toMatch(/^\/bench\?done=/);
    studio.clock.forward(25);
    await tap(studio, lapels);
    expect(await newest(waistcoat)).toMatchObject({
      minutes: 25,
      way: 'clock',
      name: expect.stringMatching(/^Welt/),
    });
    studio.clock.forward(70);
    const page = wordsOf((await studio.get('/bench')).text);
    expect(page).toContain('1 h 10 of 1 h 30');
    expect(page).toContain('Stop, and start Stay-tape the edges');
    await stop({ finished: 'yes' });
    const told = (await studio.api('GET', `/api/bench/garments/${jacket.id}`)).json();
    expect(told.operations.find(({ id }: { id: string }) => id === lapels.operation)).toMatchObject({
      worked: 70,
      finished: true,
    });
    expect(told.likeliest).toHaveLength(5);
    expect(told.likeliest).not.toContain(lapels.operation);
  });

  it('takes up again what was finished, and counts what went before', async () => {
    await tap(studio, lapels);
    studio.clock.forward(5);
    const { clock } = await clockOf(studio);
    expect(clock).toMatchObject({ sitting: 5, before: 70, planned: 90 });
    expect(wordsOf((await studio.get('/bench')).text)).toMatch(
      /1 h 15 of 1 h 30 Since 09:00, 5 min of it now/,
    );
    const told = (await studio.api('GET', `/api/bench/garments/${jacket.id}`)).json();
    expect(told.operations.find(({ id }: { id: string }) => id === lapels.operation).finished).toBe(false);
  });

  it('runs on a whole stage, shared over its operations by plan', async () => {
    await tap(studio, { garment: waistcoat.id, stage: 'draft' });
    studio.clock.forward(60);
    await stop({ finished: 'yes' });
    const { operations } = (await studio.api('GET', `/api/bench/garments/${waistcoat.id}`)).json();
    const draft = operations.filter(({ stage }: { stage: string }) => stage === 'draft');
    // Planned 30, 15 and 75 minutes: 60 by largest remainder are 15, 7.5 and 37.5.
    expect(draft.map(({ planned, worked, finished }: any) => [planned, worked, finished])).toEqual([
      [30, 15, true],
      [15, 8, true],
      [75, 37, true],
    ]);
  });

  it('goes on when the same work is tapped again, and leaves nothing when stopped at once', async () => {
    await tap(studio, lapels);
    studio.clock.forward(3);
    const before = (await clockOf(studio)).clock?.begunAt;
    await tap(studio, lapels);
    expect((await clockOf(studio)).clock?.begunAt).toBe(before);
    const { length } = await entriesOf(studio, jacket.id);
    await stop();
    await tap(studio, pockets);
    await tap(studio, lapels);
    expect(await entriesOf(studio, jacket.id)).toHaveLength(length + 1);
    expect((await stop()).status).toBe(303);
    expect((await stop()).status).toBe(409);
  });

  it('is one record however often it is delivered', async () => {
    const once = randomUUID();
    const body = { ...pockets, at: new Date(studio.clock.ticks() - 30 * 60_000).toISOString() };
    const header = { 'idempotency-key': once };
    const answers = await Promise.all(
      [1, 2, 3, 4, 5].map(() => studio.api('POST', '/api/bench/clock', body, header)),
    );
    expect(answers.map(({ status }) => status)).toEqual([201, 201, 201, 201, 201]);
    const end = { 'idempotency-key': randomUUID() };
    const stops = await Promise.all(
      [1, 2, 3, 4, 5].map(() => studio.api('POST', '/api/bench/clock/stop', {}, end)),
    );
    expect(new Set(stops.map(({ text }) => text)).size).toBe(1);
    expect(stops[0]?.json().kept).toMatchObject({ minutes: 30 });
    const { items } = (await studio.api('GET', '/api/bench/entries')).json();
    expect(items.filter(({ minutes }: { minutes: number }) => minutes === 30)).toHaveLength(1);
  });

  it('of two devices at once leaves one clock and the right length once', async () => {
    await tap(studio, lapels);
    studio.clock.forward(20);
    const both = await Promise.all([
      tap(studio, pockets),
      tap(studio, { garment: waistcoat.id, stage: 'make' }),
    ]);
    expect(both.map(({ status }) => status)).toEqual([303, 303]);
    const { items } = (await studio.api('GET', '/api/bench/clocks')).json();
    expect(items).toHaveLength(1);
    expect(await newest(jacket)).toMatchObject({ minutes: 20 });
    studio.clock.forward(10);
    const begun = items[0].begunAt;
    const ends = await Promise.all([stop({ begun }), stop({ begun })]);
    expect(ends.map(({ status }) => status).sort()).toEqual([303, 409]);
    const today = (await studio.api('GET', '/api/bench/entries')).json().items;
    expect(today.map(({ minutes }: { minutes: number }) => minutes)).toEqual([20, 10]);
  });
});

describe('a restart', () => {
  it('goes on while the program is started anew', async () => {
    await tap(studio, pockets);
    studio.clock.forward(15);
    const { database } = studio.read.manager.connection.options as { database: string };
    const folder = database.slice(0, database.lastIndexOf('/'));
    const config = readConfig({ DATA_DIR: folder, PORT: '0', TIME_ZONE: 'Europe/Dublin' });
    const anew = await createApp(config, studio.clock);
    await anew.init();
    await anew.getHttpAdapter().getInstance().ready();
    const headers = { authorization: `Bearer ${studio.token}`, 'content-type': 'application/json' };
    const running = await anew.inject({ method: 'GET', url: '/api/bench/clock', headers });
    expect(running.json().clock).toMatchObject({ sitting: 15, operationId: pockets.operation });
    studio.clock.forward(10);
    const stopped = await anew.inject({
      method: 'POST',
      url: '/api/bench/clock/stop',
      headers,
      payload: '{}',
    });
    expect(stopped.json().kept).toMatchObject({ minutes: 25 });
    await anew.close();
    expect((await clockOf(studio)).clock).toBeNull();
    expect(await newest(waistcoat)).toMatchObject({ minutes: 25 });
  });
});

describe('a tap that waited', () => {
  const ago = (minutes: number): string => new Date(studio.clock.ticks() - minutes * 60_000).toISOString();
  const start = (body: object) => studio.api('POST', '/api/bench/clock', body);

  it('counts from when it was made, in order', async () => {
    expect((await start({ ...lapels, at: ago(90) })).status).toBe(201);
    const second = await start({ ...pockets, at: ago(30) });
    expect(second.json()).toMatchObject({ kept: { minutes: 60 }, clock: { sitting: 30 } });
    const end = await studio.api('POST', '/api/bench/clock/stop', { at: ago(10) });
    expect(end.json().kept).toMatchObject({ minutes: 20, begunAt: ago(30), endedAt: ago(10) });
  });

  it('is refused clearly where it cannot be', async () => {
    const future = await start({ ...lapels, at: ago(-5) });
    expect(future.status).toBe(422);
    expect(future.json().errors[0]).toMatchObject({
      pointer: '/at',
      detail: expect.stringMatching(/future/),
    });
    expect((await start({ ...lapels, at: ago(7 * 24 * 60 + 2) })).json().errors[0].detail).toMatch(
      /seven days/,
    );
    expect((await start({ ...lapels, at: 'yesterday' })).status).toBe(422);
    await start({ ...lapels, at: ago(20) });
    const early = await studio.api('POST', '/api/bench/clock/stop', { at: ago(21) });
    expect(early.status).toBe(409);
    expect(early.json()).toMatchObject({ code: 'stopped-before-started' });
    expect((await start({ ...pockets, at: ago(21) })).json().code).toBe('stopped-before-started');
    expect((await clockOf(studio)).clock).toMatchObject({ operationId: lapels.operation, sitting: 20 });
  });
});

describe('a clock left running', () => {
  it('is asked about; its full length is kept first, and what it was stands in its place', async () => {
    await tap(studio, { garment: waistcoat.id, operation: line(waistcoat, 'press') });
    at(new Date(studio.clock.ticks() + 23 * 3_600_000).toISOString());
    const { asked } = await clockOf(studio);
    expect(asked[0]?.answers.map(({ is }: { is: string }) => is)).toEqual(['now', 'usual', 'evening']);
    const { begunAt } = (await clockOf(studio)).clock as { begunAt: string };
    const evening = asked[0]?.answers[2].stopped;
    const page = await studio.get('/bench');
    expect(wordsOf(page.text)).toMatch(/has run 23 h, from .* When did it stop\?/);
    const answer = await tap(studio, { begun: begunAt, stopped: evening }, '/left');
    expect(answer.status).toBe(303);
    const [right, back, full] = await entriesOf(studio, waistcoat.id);
    expect(full).toMatchObject({ minutes: 23 * 60, way: 'clock' });
    expect(back).toMatchObject({ minutes: -23 * 60, of: full?.id });
    expect(right).toMatchObject({ endedAt: evening, way: 'correction', begunAt });
    expect((await clockOf(studio)).asked.filter(({ entry }) => entry === full?.id)).toEqual([]);
  });

  it('is asked about even after the next tap stopped it, until somebody answers', async () => {
    const kind = { garment: waistcoat.id, operation: line(waistcoat, 'buttons') };
    await tap(studio, kind);
    studio.clock.forward(5 * 60);
    await tap(studio, lapels);
    studio.clock.forward(10);
    await stop();
    const [asked] = (await clockOf(studio)).asked.filter(({ name }) => name === 'Buttons');
    const left = (values: Record<string, string>) => tap(studio, { entry: asked?.entry, ...values }, '/left');
    const day = String(asked?.begunAt).slice(0, 10);
    const wrong = await left({ other: 'yes', day, time: '7:00' });
    expect(wrong.status).toBe(422);
    expect(wrong.text).toContain('It stopped after it was started.');
    expect((await left({ other: 'yes', day, time: '' })).text).toContain('When did it stop? Write the time');
    expect((await left({})).status).toBe(303);
    expect((await left({})).status).toBe(409);
    expect(await newest(waistcoat)).toMatchObject({ minutes: 300, way: 'correction' });
    expect((await clockOf(studio)).asked.filter(({ name }) => name === 'Buttons')).toEqual([]);
  });
});

describe('a departure from the plan', () => {
  it('is asked its cause once; own error is mending, own choice may be for every time', async () => {
    const away = `/bench/garments/${jacket.id}/departure`;
    expect(wordsOf((await studio.get(away)).text)).toContain('I have to do it again');
    const none = await studio.post(away, { once: randomUUID(), what: 'Heavier chest piece' });
    expect(none.status).toBe(422);
    const chest = {
      once: randomUUID(),
      what: 'Heavier chest piece',
      mode: 'hand',
      cause: 'own choice',
      everyTime: 'yes',
    };
    expect((await studio.post(away, chest)).status).toBe(303);
    studio.clock.forward(45);
    expect(wordsOf((await studio.get('/bench')).text)).toContain('Make an extra of it');
    await tap(studio, { ...lapels, cause: 'own error' });
    expect(await newest(jacket)).toMatchObject({
      minutes: 45,
      cause: 'own choice',
      kind: 'heavier-chest-piece',
      mode: 'hand',
    });
    const [next] = await openGarments(studio, 'lounge-jacket');
    expect(next?.plan.some(({ name }) => name === 'Heavier chest piece')).toBe(true);
    studio.clock.forward(15);
    await stop();
    expect(await newest(jacket)).toMatchObject({
      minutes: 15,
      cause: 'own error',
      operationId: lapels.operation,
    });
  });
});

describe('what is refused', () => {
  it('is a garment closed, cancelled, gone or of another commission, a line of another plan, a work of no kind', async () => {
    const { value: closed } = await mark(waistcoat, 'closed');
    const refused = await tap(studio, pockets);
    expect(refused.status).toBe(409);
    expect(refused.text).toContain('This garment is closed.');
    expect(wordsOf((await studio.get(`/bench/garments/${waistcoat.id}`)).text)).toContain(
      'This garment is closed',
    );
    await mark(waistcoat, 'closed', closed.id);
    const { value: cancelled } = await mark(waistcoat, 'cancelled');
    expect((await tap(studio, pockets)).text).toContain('This garment was cancelled');
    await mark(waistcoat, 'cancelled', cancelled.id);
    const api = (body: object) => studio.api('POST', '/api/bench/clock', body);
    const [other] = await openGarments(studio, 'waistcoat');
    expect((await api({ ...pockets, commission: other?.commissionId })).status).toBe(404);
    expect((await api({ garment: jacket.id, operation: pockets.operation })).status).toBe(422);
    expect((await api({ garment: randomUUID(), stage: 'make' })).status).toBe(404);
    expect((await api({ garment: jacket.id, stage: 'sew' })).status).toBe(422);
    expect((await api({ garment: jacket.id })).json().errors[0].pointer).toBe('/cause');
    expect((await api({ away: 'post', garment: jacket.id })).status).toBe(422);
    expect((await api({})).status).toBe(422);
    expect((await clockOf(studio)).clock).toBeNull();
  });

  it('is time of another, except by the owner', async () => {
    const { value: helper } = await studio.unit.write(studio.visit, async (writing) => {
      writing.says('Added a helper', 'house');
      const words = { role: 'maker' as const, accountId: undefined, seesPrices: false, left: false };
      return personBook.add(writing, { name: 'Tamsin Oakhollow', ...words });
    });
    expect((await tap(studio, { ...lapels, person: helper.id })).headers.location).toContain(
      `person=${helper.id}`,
    );
    studio.clock.forward(12);
    expect((await clockOf(studio)).clock).toBeNull();
    expect(wordsOf((await studio.get(`/bench?person=${helper.id}`)).text)).toContain(
      'The clock of Tamsin Oakhollow',
    );
    await stop({ person: helper.id });
    expect(await newest(jacket)).toMatchObject({ minutes: 12, personName: 'Tamsin Oakhollow' });
    expect((await tap(studio, { ...lapels, person: randomUUID() })).status).toBe(404);
  });
});

describe('a maker', () => {
  it('writes their own time alone, is shown no way to a price, and puts nothing on the list for every time', async () => {
    const passphrase = 'beeswax bodkin bobbin bench';
    await studio.post('/house/people', {
      once: randomUUID(),
      name: 'Wilmot Larkspur',
      role: 'maker',
      passphrase,
    });
    const signedIn = await studio.post('/sign-in', { name: 'Wilmot Larkspur', passphrase }, { cookie: '' });
    const cookie = String(signedIn.headers['set-cookie']).split(';')[0] ?? '';
    const as = (url: string, values: Record<string, string>) =>
      studio.post(url, { once: randomUUID(), ...values }, { cookie });
    expect((await as('/bench/clock', lapels)).status).toBe(303);
    studio.clock.forward(7);
    await tap(studio, pockets);
    const { items } = (await studio.api('GET', '/api/bench/clocks')).json();
    expect(items).toHaveLength(2);
    const owner = items.find(({ operationId }: { operationId: string }) => operationId === pockets.operation);
    expect((await as('/bench/clock/stop', { person: owner.personId })).status).toBe(403);
    expect((await studio.get(`/bench?person=${owner.personId}`, { cookie })).status).toBe(403);
    expect((await as('/bench/clock/stop', {})).status).toBe(303);
    expect(await newest(jacket)).toMatchObject({ minutes: 7, personName: 'Wilmot Larkspur' });
    const page = await studio.get(`/bench/garments/${jacket.id}`, { cookie });
    expect(page.status).toBe(200);
    expect(page.text).not.toContain('href="/commissions');
    const own = { garment: jacket.id, what: 'Gold thread', cause: 'own choice' };
    const list = await as('/bench/clock', { ...own, everyTime: 'yes' });
    expect(list.status).toBe(403);
    expect(list.text).toContain('Only the owner says what is done every time');
    expect((await as('/bench/clock', own)).status).toBe(303);
    expect((await studio.get('/bench', { cookie })).text).not.toContain('Make an extra of it');
    expect((await as('/bench/clock/stop', {})).status).toBe(303);
  });
});

// Last, since a sign-in does not outlast the weeks until then.
describe('midnight and summer time', () => {
  it('keeps the right length, on the day it began', async () => {
    at('2026-03-28T23:30:00.000Z');
    await studio.api('POST', '/api/bench/clock', lapels);
    at('2026-03-29T02:00:00.000Z');
    await studio.api('POST', '/api/bench/clock/stop', {});
    // Half past eleven to three on the wall: the hour that summer time skips was not worked (Directive 2000/84/EC).
    const kept = await newest(jacket);
    expect(kept).toMatchObject({ minutes: 150, on: '2026-03-28' });
    expect((await clockOf(studio)).asked.map(({ entry }) => entry)).toContain(kept?.id);
  });
});
