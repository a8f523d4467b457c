import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { copiesToKeep, type DailyCopy, KEEPING } from '../../../src/domain/house/backup/copies-to-keep.js';

const ZONE = 'Europe/Dublin';
const DAY = 86_400_000;
const copyAt = (ms: number): DailyCopy => {
  const madeAt = new Date(ms).toISOString();
  return { name: `copy-${madeAt}`, madeAt };
};
const daily = (first: string, days: number): DailyCopy[] =>
  Array.from({ length: days }, (_, day) => copyAt(Date.parse(first) + day * DAY));

describe('the copies that are kept', () => {
  it('of two years of days: 7 days, the last days of 4 weeks and of 12 months', () => {
    // 731 days, the last being Monday 2 March 2026. Counted out by hand on a calendar.
    const kept = copiesToKeep(daily('2024-03-02T12:00:00.000Z', 731), ZONE);
    const days = [...kept].map((name) => name.slice(5, 15)).toSorted();
    expect(days).toEqual([
      // The last day of each of the eleven months before this one; February is a Sunday and a week’s last day too.
      ...['2025-04-30', '2025-05-31', '2025-06-30', '2025-07-31', '2025-08-31', '2025-09-30'],
      ...['2025-10-31', '2025-11-30', '2025-12-31', '2026-01-31'],
      // Sundays of the weeks before this one that are not among the seven days.
      ...['2026-02-15', '2026-02-22'],
      // Seven days.
      ...['2026-02-24', '2026-02-25', '2026-02-26', '2026-02-27', '2026-02-28', '2026-03-01', '2026-03-02'],
    ]);
  });

  it('go by the day of the studio, not of Greenwich', () => {
    // 23:30 on 30 June in Greenwich is half past midnight on 1 July in Dublin.
    const copies = [
      copyAt(Date.parse('2026-06-30T22:30:00.000Z')),
      copyAt(Date.parse('2026-06-30T23:30:00.000Z')),
    ];
    const oneMonth = { days: 0, weeks: 0, months: 2 };
    expect(copiesToKeep(copies, ZONE, oneMonth).size).toBe(2);
    expect(copiesToKeep(copies, 'UTC', oneMonth).size).toBe(1);
  });

  const someCopies = fc
    .uniqueArray(fc.integer({ min: 0, max: 900 * 24 }), { minLength: 1, maxLength: 120 })
    .map((hours) => hours.map((hour) => copyAt(Date.parse('2025-01-01T00:00:00.000Z') + hour * 3_600_000)));

  it('are never more than 23, hold the newest, and do not hang on the order', () => {
    fc.assert(
      fc.property(someCopies, (copies) => {
        const kept = copiesToKeep(copies, ZONE);
        expect(kept.size).toBeLessThanOrEqual(KEEPING.days + KEEPING.weeks + KEEPING.months);
        const newest = copies.toSorted((a, b) => a.madeAt.localeCompare(b.madeAt)).at(-1)!;
        expect(kept.has(newest.name)).toBe(true);
        const turned = copies.toReversed();
        expect(copiesToKeep(turned, ZONE)).toEqual(kept);
        // Looked at again, nothing more goes.
        expect(
          copiesToKeep(
            copies.filter(({ name }) => kept.has(name)),
            ZONE,
          ),
        ).toEqual(kept);
      }),
    );
  });

  it('are the same, taken away day by day or all at once', () => {
    fc.assert(
      fc.property(someCopies, (copies) => {
        let there: DailyCopy[] = [];
        for (const copy of copies.toSorted((a, b) => a.madeAt.localeCompare(b.madeAt))) {
          const next = [...there, copy];
          const kept = copiesToKeep(next, ZONE);
          there = next.filter(({ name }) => kept.has(name));
        }
        expect(new Set(there.map(({ name }) => name))).toEqual(copiesToKeep(copies, ZONE));
      }),
      { numRuns: 40 },
    );
  });
});
