import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
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
    // The sitting in question is no measure of itself: the usual time is then what the plan says.
    expect(asked?.answers.map(({ is }: { is: string }) => is)).toEqual(['now', 'usual']);
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
    const running = (await studio.get('/bench')).text;
    expect(wordsOf(running)).toContain('Make an extra of it');
    const offered =
      /href="([^"]*\/extras\/new[^"]*)"/
        .exec(running)?.[1]
        ?.replaceAll('&amp;', '&')
        .replaceAll('&#x3D;', '=') ?? '';
    const extra = await studio.get(offered);
    expect(extra.status).toBe(200);
    expect(extra.text).toContain('Heavier chest piece');
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
