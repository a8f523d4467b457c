import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestStudio, type TestStudio } from '../../support/studio.js';
import { type BenchGarment, entriesOf, line, openGarments, wordsOf } from './a-bench.js';

const TODAY = '2026-03-02';
let studio: TestStudio;
let jacket: BenchGarment;
let waistcoat: BenchGarment;
beforeAll(async () => {
  studio = await openTestStudio();
  [jacket, waistcoat] = (await openGarments(studio, 'lounge-jacket', 'waistcoat')) as [
    BenchGarment,
    BenchGarment,
  ];
});
afterAll(() => studio.close());

const write = (text: string, values: Record<string, string> = {}) =>
  studio.post('/bench/time', { once: randomUUID(), line: text, ...values });
const newest = async (garment: BenchGarment, which = 0) => (await entriesOf(studio, garment.id))[which];
const dayOf = async (day: string) =>
  (await studio.api('GET', `/api/bench/entries?from=${day}&to=${day}`)).json().items as Record<string, any>[];

describe('time in one line', () => {
  it('is kept on the day and the work it names, and said back', async () => {
    const answer = await write('1h30 lapels yesterday');
    expect(answer.headers.location).toMatch(/^\/bench\/time\?day=2026-03-01&done=/);
    expect(await newest(jacket)).toMatchObject({
      minutes: 90,
      on: '2026-03-01',
      way: 'line',
      operationId: line(jacket, 'pad-stitch-the-lapels'),
    });
    const page = wordsOf((await studio.get(String(answer.headers.location))).text);
    expect(page).toContain(
      'Added 1 h 30 of “Pad-stitch the lapels (pair)” on the Lounge jacket on 1 March 2026.',
    );
    expect(page).toContain('Sunday 1 March 2026: 1 h 30');
    expect((await write('hand 45 min basting waistcoat')).status).toBe(303);
    expect(await newest(waistcoat)).toMatchObject({ minutes: 45, stage: 'baste', on: TODAY });
    expect((await write('25 min sweeping')).status).toBe(303);
    expect((await dayOf(TODAY)).at(-1)).toMatchObject({ away: 'sweeping', minutes: 25 });
  });

  it('finds a garment that was handed over where its commission is named, and not otherwise', async () => {
    const [cape] = (await openGarments(studio, 'cape')) as [BenchGarment];
    const gone = { on: TODAY, receivedBy: 'Corvin Haddlestone' };
    expect((await studio.api('POST', `/api/garments/${cape.id}/hand-over`, gone)).status).toBe(201);
    const first = cape.plan[0]!;
    const named = await write(`40 min line 1 ${cape.number} 1`);
    expect(named.status, wordsOf(named.text)).toBe(303);
    expect(await newest(cape)).toMatchObject({ minutes: 40, operationId: first.id });
    await write('35 min line 1 cape');
    expect(await entriesOf(studio, cape.id)).toHaveLength(1);
  });

  it('asks what may mean two things, and takes an answer as a button', async () => {
    const asked = await write(`90 collar ${jacket.number} 1`);
    expect(asked.status).toBe(422);
    expect(asked.text).toContain('90: minutes or hours?');
    const typed = /name="line" value="(90 min[^"]*)"/.exec(asked.text)?.[1] ?? '';
    const which = await write(typed);
    expect(which.text).toContain('Which work is “collar”?');
    expect(wordsOf(which.text)).toContain(
      'Under-collar: canvas, melton, pad, shape: Lounge jacket, C-2026-001 no. 1',
    );
    const choice = /name="line" value="([^"]*)"/g;
    const [first] = [...which.text.matchAll(choice)]
      .map(([, one]) => one!)
      .filter((one) => one.includes('line'));
    expect((await write(first!)).status).toBe(303);
    expect(await newest(jacket)).toMatchObject({ minutes: 90, kind: 'under-collar' });
  });

  it('on a garment’s own page means that garment', async () => {
    expect((await write('20 min buttonholes')).status).toBe(422);
    expect((await write('20 min buttonholes', { garment: waistcoat.id })).status).toBe(303);
    expect(await newest(waistcoat)).toMatchObject({ minutes: 20, kind: 'buttonholes' });
    expect((await studio.get(`/bench/time?garment=${waistcoat.id}`)).text).toContain('Waistcoat, C-2026-001');
  });

  it.each([
    ['', 'Write how long and what'],
    ['25 h lapels', 'at most 24 hours'],
    ['1h lapels tomorrow', 'still to come'],
    ['1h epaulettes', 'No garment that is being made'],
    ['1h <script>alert(1)</script>', 'No garment that is being made'],
    [`1h ${'lapels '.repeat(500)}`, 'under 200 letters'],
  ])('%s is refused, what was typed is kept', async (text, why) => {
    const { length } = await entriesOf(studio, jacket.id);
    const answer = await write(text);
    expect(answer.status).toBe(422);
    expect(answer.text).toContain(why);
    expect(answer.text).not.toContain('<script>alert');
    if (text && text.length < 100)
      expect(answer.text).toContain(
        `value="${text.replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/=/g, '&#x3D;')}"`,
      );
    expect(await entriesOf(studio, jacket.id)).toHaveLength(length);
  });

  it('pressed twice is written once; a day of more than its hours is asked about', async () => {
    const once = randomUUID();
    const [a, b] = await Promise.all([1, 2].map(() => write('12 h lapels 2026-02-20', { once })));
    expect([a?.headers.location, a?.status]).toEqual([b?.headers.location, 303]);
    expect(await dayOf('2026-02-20')).toHaveLength(1);
    const more = await write('12 h 30 lapels 2026-02-20');
    expect(more.status).toBe(422);
    expect(more.text).toContain('That makes 24 h 30 on 20 February 2026. Is that right?');
    expect(more.text).toContain('name="evenIfOdd"');
    expect((await write('12 h 30 lapels 2026-02-20', { evenIfOdd: 'yes' })).status).toBe(303);
  });
});

describe('the making sheet', () => {
  const sheet = (fields: Record<string, string>, on = '2026-02-27') =>
    studio.post(`/bench/garments/${waistcoat.id}/sheet`, { once: randomUUID(), on, ...fields });
  const op = (kind: string, part: string): string => `op.${line(waistcoat, kind)}.${part}`;

  it('is typed back in as one form, in one act', async () => {
    expect(wordsOf((await studio.get(`/bench/garments/${waistcoat.id}/sheet`)).text)).toContain(
      'Welt pockets (2–4), 1 h 30',
    );
    const answer = await sheet({
      [op('thread-mark', 'start')]: '9:00',
      [op('thread-mark', 'stop')]: '9:40',
      [op('canvas', 'minutes')]: '1h30',
      [op('line', 'start')]: '23:30',
      [op('line', 'stop')]: '0:30',
    });
    expect(answer.headers.location).toMatch(new RegExp(`^/bench/garments/${waistcoat.id}/entries`));
    const kept = await dayOf('2026-02-27');
    expect(kept.map(({ kind, minutes, way }) => [kind, minutes, way])).toEqual([
      ['thread-mark', 40, 'sheet'],
      ['canvas', 90, 'sheet'],
      ['line', 60, 'sheet'],
    ]);
    expect(kept[2]).toMatchObject({
      begunAt: '2026-02-27T23:30:00.000Z',
      endedAt: '2026-02-28T00:30:00.000Z',
    });
  });

  it('asks about a sitting at the same time as another, and refuses what cannot be', async () => {
    const over = { [op('press', 'start')]: '9:30', [op('press', 'stop')]: '10:00' };
    const asked = await sheet(over);
    expect(asked.status).toBe(422);
    expect(asked.text).toContain('From 09:00 to 09:40 Odalys Fenwright worked on Thread-mark.');
    expect((await sheet({ ...over, evenIfOdd: 'yes' })).status).toBe(303);
    expect((await studio.get('/bench/time?day=2026-02-27')).text).toContain('at the same time as');
    for (const [fields, why] of [
      [{ [op('press', 'start')]: '14:00', [op('press', 'stop')]: '13:00' }, 'stopped before it was started'],
      [{ [op('press', 'start')]: '14:00' }, 'When was it stopped?'],
      [{ [op('press', 'start')]: '25:00', [op('press', 'stop')]: '26:00' }, 'Write the time like 9:30.'],
      [{ [op('press', 'minutes')]: 'soon' }, 'is not a time'],
      [{}, 'Write a time beside at least one operation.'],
    ] as const) {
      const refused = await sheet(fields);
      expect(refused.status).toBe(422);
      expect(refused.text).toContain(why);
    }
    expect(
      (await sheet({ [op('press', 'start')]: '14:00', [op('press', 'stop')]: '15:00' }, TODAY)).text,
    ).toContain('still to come');
    expect((await sheet({ [op('press', 'minutes')]: '10 min' }, '2026-13-01')).text).toContain(
      'year-month-day',
    );
    expect(await dayOf('2026-02-27')).toHaveLength(4);
  });
});

describe('one sitting over several garments', () => {
  it('is split evenly or by minutes, and what it was kept as is taken back', async () => {
    const even = await studio.post('/bench/split', {
      once: randomUUID(),
      total: '1h40',
      on: '2026-02-24',
      'parts.0.what': 'lapels',
      'parts.1.what': 'canvas waistcoat',
      'parts.4.what': 'post',
    });
    expect(even.status, wordsOf(even.text)).toBe(303);
    expect((await dayOf('2026-02-24')).map(({ minutes, way }) => [minutes, way])).toEqual([
      [34, 'split'],
      [33, 'split'],
      [33, 'split'],
    ]);
    await write('100 min lapels 2026-02-23');
    const [whole] = await dayOf('2026-02-23');
    expect(wordsOf((await studio.get(`/bench/split?entry=${whole?.id}`)).text)).toContain(
      '1 h 40 of Pad-stitch',
    );
    const parts = {
      'parts.0.what': 'lapels',
      'parts.0.minutes': '70 min',
      'parts.1.what': 'canvas waistcoat',
    };
    const split = await studio.post('/bench/split', { once: randomUUID(), entry: whole?.id ?? '', ...parts });
    expect(split.status).toBe(303);
    const kept = await dayOf('2026-02-23');
    expect(kept.map(({ minutes }) => minutes)).toEqual([100, -100, 70, 30]);
  });

  it('refuses parts that do not add up, and names what it does not know', async () => {
    const split = (fields: Record<string, string>) =>
      studio.post('/bench/split', { once: randomUUID(), total: '1h', on: '2026-02-22', ...fields });
    const most = {
      'parts.0.what': 'lapels',
      'parts.0.minutes': '50 min',
      'parts.1.what': 'post',
      'parts.1.minutes': '20 min',
    };
    expect((await split(most)).text).toContain('The parts make 70 minutes and the sitting was 60.');
    expect((await split({ 'parts.0.what': 'lapels' })).text).toContain('Name at least two pieces of work.');
    expect((await split({ 'parts.0.what': 'epaulettes', 'parts.1.what': 'post' })).text).toContain(
      'No garment that is',
    );
    expect(await dayOf('2026-02-22')).toEqual([]);
  });
});
