import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { seriesBook } from '../../src/storage/books/series-book.js';
import { uuidVersion7 } from '../../src/storage/ids.js';
import { openTestStudio, type TestStudio } from '../support/studio.js';

/*
 * The machine's clock is set while the studio works: a day ahead, and an hour back. Nobody is put out, no number is given
 * twice or left out, no minutes are below zero, and what was done can be read and undone.
 */

const JUMPS = [
  ['a day ahead', 24 * 60],
  ['an hour back', -60],
  ['an hour back once more', -60],
] as const;

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(() => studio.close());

let added = 0;
const addClient = async () => {
  added += 1;
  const made = await studio.api('POST', '/api/clients', { name: `Client ${added}` });
  expect(made.status, made.text).toBe(201);
  return made.json();
};

describe.each(JUMPS)('a clock that jumps %s', (words, minutes) => {
  it('gives every client the next number, and history shows and undoes what was done', async () => {
    const before = await addClient();
    studio.clock.forward(minutes);
    const after = await addClient();
    const numberOf = ({ code }: { code: string }): number => Number(code.slice(2));
    expect(numberOf(after)).toBe(numberOf(before) + 1);
    const url = `/api/clients/${before.id}`;
    const seen = await studio.api('GET', url);
    const changed = await studio.api(
      'PUT',
      url,
      { name: 'Renamed after the jump' },
      { 'if-match': String(seen.headers.etag) },
    );
    expect(changed.status, changed.text).toBe(200);
    const { items } = (await studio.api('GET', `/api/history?about=client/${before.id}`)).json();
    const sentences: string[] = items.map(({ sentence }: { sentence: string }) => sentence);
    expect(sentences).toHaveLength(2);
    const act = items.find(({ sentence }: { sentence: string }) => !sentence.startsWith('Added'));
    expect((await studio.post(`/history/${act.id}/undo`, { once: randomUUID() })).status).toBe(303);
    expect((await studio.api('GET', url)).json().name).toBe(before.name);
  });

  it('keeps a bench clock’s minutes from falling below zero, and goes on', async () => {
    const started = await studio.api('POST', '/api/bench/clock', { away: 'post' });
    expect(started.status, started.text).toBe(201);
    studio.clock.forward(minutes);
    const runs = await studio.api('GET', '/api/bench/clock');
    expect(runs.json().clock.sitting).toBeGreaterThanOrEqual(0);
    expect((await studio.get('/bench')).status).toBe(200);
    const stopped = await studio.api('POST', '/api/bench/clock/stop', {});
    expect([words, stopped.status, stopped.text]).toEqual([words, 200, stopped.text]);
    expect((await studio.api('GET', '/api/bench/clock')).json().clock).toBeNull();
    for (const day of ['2026-03-02', '2026-03-03', '2026-03-04']) {
      const { items } = (await studio.api('GET', `/api/bench/entries?from=${day}&to=${day}`)).json();
      for (const { minutes: kept } of items) expect(kept).toBeGreaterThan(0);
    }
    const { items } = (await studio.api('GET', '/api/history')).json();
    const said = items.map(({ sentence }: { sentence: string }) => sentence).join('\n');
    if (minutes < 0)
      expect(said).toContain('the time of day was set back meanwhile, so write its minutes down by hand');
    // The next one runs as ever.
    expect((await studio.api('POST', '/api/bench/clock', { away: 'post' })).status).toBe(201);
    studio.clock.forward(10);
    const next = (await studio.api('POST', '/api/bench/clock/stop', {})).json();
    expect(JSON.stringify(next)).toContain('"minutes":10');
  });
});

it('gives the numbers of a series one after the other through all jumps', async () => {
  const given: number[] = [];
  for (const [, minutes] of JUMPS) {
    await studio.unit.write(studio.visit, async (writing) => {
      given.push(await seriesBook.take(writing, 'trial/2026'));
      writing.says('Took a number', 'house');
    });
    studio.clock.forward(minutes);
  }
  expect(given).toEqual([1, 2, 3]);
});

it('makes no key twice while the clock goes back and forth', () => {
  const keys = new Set<string>();
  let ticks = 1_772_442_000_000;
  for (let turn = 0; turn < 4000; turn += 1) {
    ticks += turn % 3 === 0 ? -3_600_000 : 1_800_000;
    keys.add(uuidVersion7(ticks));
  }
  expect(keys.size).toBe(4000);
});

it('keeps a browser signed in an hour back and a day ahead, and lets go of one after its time', async () => {
  studio.clock.forward(-60);
  expect((await studio.get('/clients')).status).toBe(200);
  studio.clock.forward(24 * 60);
  expect((await studio.get('/clients')).status).toBe(200);
  studio.clock.forward(40 * 24 * 60);
  expect((await studio.get('/clients')).status).not.toBe(200);
});
