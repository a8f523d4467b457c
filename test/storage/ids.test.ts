import { expect, it } from 'vitest';
import { isUuid, uuidVersion7 } from '../../src/storage/ids.js';

const NOON = Date.parse('2026-03-02T12:00:00.000Z');

it('keys made one after the other sort so, ten thousand in one millisecond too', () => {
  const keys = Array.from({ length: 10_000 }, () => uuidVersion7(NOON));
  expect(keys.toSorted()).toEqual(keys);
  expect(new Set(keys).size).toBe(10_000);
  expect(keys.every(isUuid)).toBe(true);
});

// RFC 9562, appendix A.6: the moment 2022-02-22T19:22:22.00Z is 0x017F22E279B0, and the version stands in the third group.
it('begin with the moment, as the standard’s example does', () => {
  expect(uuidVersion7(1_645_557_742_000)).toMatch(
    /^017f22e2-79b0-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/,
  );
});

it('go on in order when the clock steps back a little', () => {
  const [first, second] = [uuidVersion7(NOON + 60_000), uuidVersion7(NOON + 59_800)];
  expect(second > first).toBe(true);
});

it('sort as they were made when the clock was set back by days, too', () => {
  uuidVersion7(NOON);
  const keys = Array.from({ length: 200 }, () => uuidVersion7(NOON - 40 * 86_400_000));
  expect(keys.toSorted()).toEqual(keys);
});
