import fc from 'fast-check';
import { expect, it } from 'vitest';
import {
  compare,
  exactText,
  fraction,
  minus,
  plus,
  readExact,
  times,
} from '../../../src/domain/measuring/fraction.js';
import { readLength } from '../../../src/domain/measuring/length-entry.js';

const eighths = fc.record({ whole: fc.integer({ min: 1, max: 90 }), eighth: fc.integer({ min: 1, max: 7 }) });
const anExact = fc
  .tuple(fc.bigInt({ min: -(10n ** 12n), max: 10n ** 12n }), fc.bigInt({ min: 1n, max: 10n ** 6n }))
  .map(([n, d]) => fraction(n, d));

it('writes every exact value as text and reads the same value back', () => {
  fc.assert(
    fc.property(anExact, (value) => {
      expect(compare(readExact(exactText(value)), value)).toBe(0);
    }),
  );
});

it('takes away what it added, exactly', () => {
  fc.assert(
    fc.property(anExact, anExact, (a, b) => {
      expect(compare(minus(plus(a, b), b), a)).toBe(0);
      expect(compare(times(a, b), times(b, a))).toBe(0);
    }),
  );
});

it('keeps an eighth of an inch exactly, and understands what it shows', () => {
  fc.assert(
    fc.property(eighths, ({ whole, eighth }) => {
      const first = readLength(`${whole} ${eighth}/8`, { preferred: 'in' });
      if (first.kind !== 'ok') throw new Error('not understood');
      const sixteenths = BigInt(2 * (8 * whole + eighth));
      expect(compare(readExact(first.value.mm), fraction(sixteenths * 15875n, 10000n))).toBe(0);
      const again = readLength(first.value.shown, { preferred: 'cm' });
      expect(again.kind === 'ok' && again.value.mm).toBe(first.value.mm);
    }),
  );
});

it('answers any text at all without falling over', () => {
  fc.assert(
    fc.property(
      fc.string({ unit: 'binary', maxLength: 80 }),
      fc.constantFrom('in', 'cm'),
      (typed, preferred) => {
        const reading = readLength(typed, { preferred: preferred as 'in' | 'cm' });
        expect(['empty', 'ok', 'ask', 'refuse']).toContain(reading.kind);
        if (reading.kind === 'ok') expect(compare(readExact(reading.value.mm), fraction(0n))).not.toBe(-1);
      },
    ),
  );
});
