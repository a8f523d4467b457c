import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { readConfig } from '../../../src/app/config.js';
import { createApp } from '../../../src/app/create-app.js';
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

const stop = (values: Record<string, string> = {}) => tap(studio, values, '/stop');
const newest = async (garment: BenchGarment) => (await entriesOf(studio, garment.id))[0];
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
