import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays } from '../../../src/domain/kernel/calendar-date.js';
import {
  dateInWords,
  dayAndMonthInWords,
  dayInWords,
  instantInWords,
  isDayFirst,
  readDate,
} from '../../../src/web/words/dates.js';

const today = '2026-03-02';
const read = (typed: string, locale?: string) => {
  const reading = readDate(typed, { today, ...(locale && { locale }) });
  if (reading.kind === 'ok') return reading.value;
  return reading.kind === 'ask' ? reading.choices.map((choice) => choice.typed) : reading.kind;
};

describe('a date as a person types it', () => {
  it.each([
    '2026-03-02',
    '2 March 2026',
    '2 mar 2026',
    '2nd March 2026',
    'March 2, 2026',
    '2 March',
    '02.03.2026',
    '2/3/26',
    '2/3',
    'today',
    '２ March',
  ])('takes “%s” for 2 March 2026 where days come first', (typed) => {
    expect(read(typed, 'en-GB')).toBe(today);
  });

  it('goes by the locale, and asks where none says', () => {
    expect(read('2/3/2026', 'en-US')).toBe('2026-02-03');
    expect(read('2/3/2026')).toEqual(['2026-03-02', '2026-02-03']);
    expect(read('25/3/2026', 'en-US')).toBe('2026-03-25');
    expect(read('3/25/2026')).toBe('2026-03-25');
    expect(isDayFirst('not a locale')).toBeUndefined();
  });

  it('knows yesterday and tomorrow', () => {
    expect([read('yesterday'), read('tomorrow')]).toEqual(['2026-03-01', '2026-03-03']);
  });

  it.each([
    '30 February 2026',
    '2026-02-30',
    '32/1/2026',
    '2 Mars Bar',
    'soon',
    '2 ma',
    '0001-01-01',
    '13/13/2026',
    '9'.repeat(400),
    'NaN',
    'constructor',
    'toString',
    '__proto__',
  ])('refuses “%s”', (typed) => {
    expect(read(typed, 'en-GB')).toBe('refuse');
  });

  it('takes nothing for nothing', () => {
    expect(read('')).toBe('empty');
  });

  it('is shown in words that are read back', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 60_000 }), (days) => {
        const date = addDays('1950-01-01', days);
        expect(read(dateInWords(date))).toBe(date);
      }),
    );
  });
});

describe('dates in words', () => {
  it('name the day, the month and the year', () => {
    expect(dateInWords('2026-03-02')).toBe('2 March 2026');
    expect(dayAndMonthInWords('2026-03-02')).toBe('2 March');
    expect(dayInWords('2026-03-02')).toBe('Monday 2 March 2026');
    expect(instantInWords('2026-03-02T23:30:00.000Z', 'Europe/Dublin')).toBe('2 March 2026, 23:30');
    expect(instantInWords('2026-07-02T23:30:00.000Z', 'Europe/Dublin')).toBe('3 July 2026, 00:30');
  });
});

describe('a day that is still to come, without a year', () => {
  const field = { today: '2026-11-25', locale: 'en-GB', comes: true };

  it.each([
    ['1 Oct', '2027-10-01'],
    ['1/10', '2027-10-01'],
    ['26 November', '2026-11-26'],
    ['1 Oct 2026', '2026-10-01'],
    ['2026-10-01', '2026-10-01'],
  ])('%s is %s', (typed, day) => {
    expect(readDate(typed, field)).toMatchObject({ kind: 'ok', value: day });
  });
});
