import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { numberSeries, type SeriesState } from '../../../src/domain/papers/numbering/number-series.js';

const { parse, format, next } = numberSeries;

describe('a number series', () => {
  it.each([
    ['Q-{year}-{000}', 31, '2026-03-02', 'Q-2026-031'],
    ['{00}', 7, '2026-03-02', '07'],
    ['{yy}/{0000}', 12, '2026-12-31', '26/0012'],
    ['Rechnung {0}', 1, '2026-01-01', 'Rechnung 1'],
    ['Q-{year}-{000}', 1000, '2026-03-02', 'Q-2026-1000'],
  ])('%s, number %i on %s is %s', (pattern, n, date, number) => {
    expect(format(parse(pattern), n, date)).toBe(number);
  });

  it.each([
    ['Q-{year}', /has no counter/],
    ['', /has no counter/],
    ['Q-{000}-{00}', /two counters/],
    ['Q-{month}-{000}', /“\{month\}”, which means nothing here/],
    ['Q-{-000}', /means nothing/],
    ['Q<b>{000}', /does not belong/],
    ['Q-{000', /does not belong/],
    ['{year}{000}', /runs the year into the counter/],
    ['1{000}', /right before the counter/],
    ['{000}1', /right behind the counter/],
    [' {000}', /blank/],
    [`${'Q'.repeat(40)}{000}`, /longer than 40/],
    ['Q{000}\n', /blank/],
  ])('“%s” is refused and says why', (pattern, why) => {
    expect(() => parse(pattern)).toThrow(why);
    expect(() => parse(pattern)).toThrow(
      expect.objectContaining({ fields: [expect.objectContaining({ field: 'pattern' })] }),
    );
  });

  it('begins again with the year when the year is in it, and goes on when it is not', () => {
    const last: SeriesState = { period: '2026', last: 31 };
    expect(next(parse('Q-{year}-{000}'), last, '2026-12-31').number).toBe('Q-2026-032');
    expect(next(parse('Q-{year}-{000}'), last, '2027-01-01')).toEqual({
      number: 'Q-2027-001',
      state: { period: '2027', last: 1 },
    });
    const plain = parse('I{0000}');
    const state = next(plain, { period: 'all', last: 31 }, '2026-12-31').state;
    expect(next(plain, state, '2027-01-01').number).toBe('I0033');
  });

  it('does not go back into a year it has left', () => {
    expect(() => next(parse('Q-{year}-{000}'), { period: '2027', last: 2 }, '2026-12-31')).toThrow(
      /gone on to 2027/,
    );
  });

  it('gives 1, 2, 3 … without a gap or a repeat', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('Q-{year}-{000}', '{00}', '{yy}-{0}'),
        fc.integer({ min: 1, max: 150 }),
        (pattern, many) => {
          const series = parse(pattern);
          const numbers = new Set<string>();
          let state: SeriesState | undefined;
          for (let count = 1; count <= many; count += 1) {
            const given = next(series, state, '2026-06-01');
            state = given.state;
            numbers.add(given.number);
            expect(state.last).toBe(count);
          }
          expect(numbers.size).toBe(many);
        },
      ),
      { numRuns: 100 },
    );
  });

  it.each([0, -1, 1.5, Number.NaN])('number %d is refused', (n) => {
    expect(() => format(parse('{00}'), n, '2026-01-01')).toThrow(/whole number/);
  });
});
