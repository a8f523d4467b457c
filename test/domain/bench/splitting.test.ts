import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { productiveShare } from '../../../src/domain/bench/productive-share.js';
import { splitSitting } from '../../../src/domain/bench/splitting.js';

describe('one sitting over several garments', () => {
  it('keeps what was said and shares the rest evenly', () => {
    expect(splitSitting(100, [undefined, undefined, undefined])).toEqual([34, 33, 33]);
    expect(splitSitting(100, [50, undefined, undefined])).toEqual([50, 25, 25]);
    expect(splitSitting(100, [60, 40])).toEqual([60, 40]);
  });

  it('refuses parts that are more or less than the sitting', () => {
    expect(() => splitSitting(100, [60, 30])).toThrow('The parts make 90 minutes');
    expect(() => splitSitting(100, [60, 50])).toThrow('The parts make 110 minutes');
    expect(() => splitSitting(100, [100, undefined])).toThrow('nothing is left');
    expect(() => splitSitting(100, [0, undefined])).toThrow('at least one minute');
    expect(() => splitSitting(1, [undefined, undefined])).toThrow('nothing is left');
    expect(() => splitSitting(100, [])).toThrow('at least one piece');
  });

  it('loses no minute', () => {
    fc.assert(
      fc.property(
        fc.array(fc.option(fc.integer({ min: 1, max: 90 }), { nil: undefined }), {
          minLength: 1,
          maxLength: 12,
        }),
        fc.integer({ min: 0, max: 90 }),
        (said, more) => {
          const open = said.filter((one) => one === undefined).length;
          const total = said.reduce<number>((sum, one) => sum + (one ?? 1), 0) + (open > 0 ? more : 0);
          const parts = splitSitting(total, said);
          expect(parts.reduce((sum, one) => sum + one, 0)).toBe(total);
          expect(parts.every((one) => one >= 1)).toBe(true);
        },
      ),
    );
  });
});

describe('the productive share', () => {
  it('is the time in garments over all time, with the weeks it rests on', () => {
    const days = [
      // Sunday 1 March ends one week, Monday 2 March begins the next (ISO 8601).
      { on: '2026-03-01', inGarments: 300, inAll: 400 },
      { on: '2026-03-02', inGarments: 200, inAll: 400 },
      { on: '2026-03-03', inGarments: 0, inAll: 0 },
      { on: '2026-03-08', inGarments: 100, inAll: 200 },
    ];
    const found = productiveShare(days);
    expect(found?.share.toFixed()).toBe('0.6');
    expect(found).toMatchObject({ inGarments: 600, inAll: 1000, weeks: 2 });
  });

  it('is unknown while nothing was written down', () => {
    expect(productiveShare([])).toBeUndefined();
    expect(productiveShare([{ on: '2026-03-01', inGarments: 0, inAll: 0 }])).toBeUndefined();
  });
});
