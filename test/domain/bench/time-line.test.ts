import { describe, expect, it } from 'vitest';
import type { PlaceToWork } from '../../../src/domain/bench/line/place-to-work.js';
import { readTimeLine } from '../../../src/domain/bench/line/time-line.js';
import type { Mode, Stage } from '../../../src/domain/making/mode.js';
import { readDate } from '../../../src/web/words/dates.js';
import { readDuration } from '../../../src/web/words/durations.js';

// A Wednesday.
const TODAY = '2026-03-04';
const NUMBER = 'C-2026-014';

const place = (no: number, name: string, lines: string, number = NUMBER): PlaceToWork => ({
  garmentId: `g${no}${number === NUMBER ? '' : 'b'}`,
  commissionId: number,
  commissionNumber: number,
  place: no,
  name,
  wearerName: 'Corvin Haddlestone',
  operations: lines.split('; ').map((line, index) => {
    const [text = '', stage = '', mode = ''] = line.split('|');
    return {
      id: `${no}-${index + 1}`,
      no: index + 1,
      kind: text.toLowerCase().replace(/[^a-z]+/g, '-'),
      name: text,
      stage: stage as Stage,
      mode: mode as Mode,
      mixed: false,
      finished: text.endsWith('*'),
    };
  }),
});

const JACKET = place(
  1,
  'jacket',
  'Baste canvas to foreparts|baste|hand; Pad-stitch the lapels (pair)|make|hand; Under-collar: canvas, melton, pad|make|hand; Top collar drawn on|make|hand; Final press|finish|press; Welt pockets (2–4)|make|machine; Draw bastes|finish|hand',
);
const WAISTCOAT = place(
  2,
  'waistcoat',
  'Thread-mark|baste|hand; Baste up for fitting|baste|hand; Fitting|fit|fitting; Collar|make|hand; Press|finish|press',
);
const BREECHES = place(
  3,
  'breeches',
  'Iron-work|cut|press; Lay and cut|cut|bench; Waistband|make|machine; Waistband|make|machine',
);
const ALL = [JACKET, WAISTCOAT, BREECHES];

const read = (line: string, places: readonly PlaceToWork[] = ALL, bare?: 'minutes' | 'hours') =>
  readTimeLine(line, places, TODAY, {
    duration: (typed) => readDuration(typed, bare ? { bare } : {}),
    day: (typed) => readDate(typed, { today: TODAY, locale: 'en-GB' }),
  });
const ok = (line: string, places = ALL, bare?: 'minutes' | 'hours') => {
  const reading = read(line, places, bare);
  return reading.kind === 'ok' ? reading.value : reading;
};

describe('one line of time', () => {
  it.each([
    ['1h30 lapels yesterday', { minutes: 90, on: '2026-03-03', garmentId: 'g1', operationId: '1-2' }],
    ['lapels 1 h 30 m 2 march', { minutes: 90, on: '2026-03-02', garmentId: 'g1', operationId: '1-2' }],
    [
      '45 min pad stitching lapels 2026-03-01',
      { minutes: 45, on: '2026-03-01', garmentId: 'g1', operationId: '1-2' },
    ],
    ['hand 45 min basting waistcoat', { minutes: 45, on: TODAY, garmentId: 'g2', stage: 'baste' }],
    [
      '2,5 h pressing waistcoat monday',
      { minutes: 150, on: '2026-03-02', garmentId: 'g2', operationId: '2-5' },
    ],
    ['1:15 sweeping', { minutes: 75, on: TODAY, away: 'sweeping' }],
    ['20 min post last friday', { minutes: 20, on: '2026-02-27', away: 'post' }],
    ['1 1/2 h top collar', { minutes: 90, on: TODAY, garmentId: 'g1', operationId: '1-4' }],
    [
      '30 min lapels by machine',
      { minutes: 30, on: TODAY, garmentId: 'g1', operationId: '1-2', mode: 'machine' },
    ],
    ['1h lapels 30 december', { minutes: 60, on: '2025-12-30', garmentId: 'g1', operationId: '1-2' }],
    ['1h LAPELS Haddlestone', { minutes: 60, on: TODAY, garmentId: 'g1', operationId: '1-2' }],
    ['½ h lapels', { minutes: 30, on: TODAY, garmentId: 'g1', operationId: '1-2' }],
    ['2 h line 3 c-2026-014 no 1', { minutes: 120, on: TODAY, garmentId: 'g1', operationId: '1-3' }],
  ])('%s', (line, meant) => {
    expect(ok(line)).toEqual(meant);
  });

  it('takes a bare number as the studio says, or asks', () => {
    const meant = { on: TODAY, garmentId: 'g2', operationId: '2-4' };
    expect(ok(`90 collar ${NUMBER} 2`, ALL, 'minutes')).toEqual({ minutes: 90, ...meant });
    expect(ok(`2 collar ${NUMBER} 2`, ALL, 'hours')).toEqual({ minutes: 120, ...meant });
    const reading = read(`90 collar ${NUMBER} 2`);
    if (reading.kind !== 'ask') throw new Error(reading.kind);
    expect(reading.choices.map(({ typed }) => ok(typed))).toEqual([
      { minutes: 90, ...meant },
      expect.objectContaining({ kind: 'refuse' }),
    ]);
  });

  it('asks where two things are meant, and every answer needs no further question', () => {
    for (const line of ['1h collar', '2,5 h pressing monday', '1h waistband breeches', '1h waistcoat']) {
      const reading = read(line);
      if (reading.kind !== 'ask') throw new Error(`${line}: ${JSON.stringify(reading)}`);
      expect(reading.choices.length, line).toBeGreaterThan(1);
      const answers = reading.choices.map(({ typed }) => read(typed));
      expect(
        answers.every(({ kind }) => kind === 'ok'),
        JSON.stringify(reading.choices),
      ).toBe(true);
      expect(new Set(answers.map((each) => JSON.stringify(each))).size, line).toBe(answers.length);
    }
  });

  it('asks which Wednesday on a Wednesday', () => {
    const reading = read('1h lapels wednesday');
    if (reading.kind !== 'ask') throw new Error(reading.kind);
    expect(reading.choices.map(({ typed }) => (ok(typed) as { on: string }).on)).toEqual([
      TODAY,
      '2026-02-25',
    ]);
  });

  it('asks again between garments even where one fits better', () => {
    expect(read('1h press').kind).toBe('ask');
    expect(ok('1h final press')).toMatchObject({ operationId: '1-5' });
  });

  it('asks which of a mixed stage was done in the mode that was said', () => {
    const reading = read('bench 1h cut breeches');
    expect(reading).toMatchObject({ kind: 'ok', value: { operationId: '3-2', mode: 'bench' } });
    expect(ok('1h cut by machine breeches')).toMatchObject({ kind: 'ask' });
  });

  it.each([
    ['', 'empty'],
    ['lapels', 'refuse'],
    ['1h30', 'refuse'],
    ['25 h lapels', 'refuse'],
    ['0 min lapels', 'refuse'],
    ['1h lapels tomorrow', 'refuse'],
    ['1h lapels 2026-12-24', 'refuse'],
    ['1h epaulettes', 'refuse'],
    ['1h75 lapels', 'refuse'],
    ['1h lapels C-2026-099 1', 'refuse'],
    [`1h ${'lapels '.repeat(60)}`, 'refuse'],
    ['1h <b>lapels</b>', 'refuse'],
  ])('%s is %s', (line, kind) => {
    expect(read(line).kind).toBe(kind);
  });

  it('takes beginnings of words only where nothing else fits', () => {
    const measured = place(4, 'cape', 'Measure and note posture|draft|fitting');
    expect(ok('20 min post', [...ALL, measured])).toMatchObject({ away: 'post' });
    expect(ok('20 min postu', [...ALL, measured])).toMatchObject({ operationId: '4-1' });
  });

  it('keeps two commissions apart', () => {
    const other = place(1, 'jacket', 'Pad-stitch the lapels (pair)|make|hand', 'C-2026-015');
    expect(read('1h lapels', [...ALL, other]).kind).toBe('ask');
    expect(ok('1h lapels c-2026-015 1', [...ALL, other])).toMatchObject({ garmentId: 'g1b' });
    expect(ok('1h lapels c-2026-015', [...ALL, other])).toMatchObject({ garmentId: 'g1b' });
    expect(ok('c-2026-015 2 h lapels', [...ALL, other])).toMatchObject({ garmentId: 'g1b', minutes: 120 });
  });
});
