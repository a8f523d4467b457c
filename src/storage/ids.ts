import { randomFillSync } from 'node:crypto';
import { Temporal } from 'temporal-polyfill';

const MOST_IN_A_TICK = 0xfff;
let last = { ticks: -1, count: 0 };

/**
 * Where more identifiers are asked for in one tick than can be told apart in order, the next tick is taken early. A clock that
 * was set back far is followed there, and counted within its ticks as before.
 */
const nextAfterLast = (ticks: number): { ticks: number; count: number } => {
  if (ticks > last.ticks || ticks < last.ticks - 1000) last = { ticks, count: 0 };
  else if (last.count < MOST_IN_A_TICK) last = { ...last, count: last.count + 1 };
  else last = { ticks: last.ticks + 1, count: 0 };
  return last;
};

const POOL = new Uint8Array(4096);
let taken = POOL.length;

/** Asked for singly, chance costs a list of fifty thousand half a second. No byte is given twice. */
const eightBytesOfChance = (): Uint8Array => {
  if (taken === POOL.length) {
    randomFillSync(POOL);
    taken = 0;
  }
  taken += 8;
  return POOL.subarray(taken - 8, taken);
};

/**
 * A UUID version 7: 48 bits of milliseconds, a count within the millisecond, then random bits, so that keys sort in the
 * order in which this program made them.
 *
 * @param now milliseconds since the start of 1970
 * @see RFC 9562, sections 5.7 and 6.2 (a counter of fixed length)
 */
export const uuidVersion7 = (now: number): string => {
  const { ticks, count } = nextAfterLast(now);
  const bytes = new Uint8Array(16);
  bytes.set(eightBytesOfChance(), 8);
  let rest = ticks;
  for (let index = 5; index >= 0; index -= 1) {
    bytes[index] = rest % 256;
    rest = Math.floor(rest / 256);
  }
  bytes[6] = 0x70 | (count >> 8);
  bytes[7] = count & 0xff;
  bytes[8] = 0x80 | (bytes[8]! & 0x3f);
  const hex = Buffer.from(bytes).toString('hex');
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`;
};

const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;

export const isUuid = (text: string): boolean => UUID.test(text);

/** The day, by the clock of Greenwich, on which an identifier of version 7 was made. */
export const madeOn = (id: string): string =>
  Temporal.Instant.fromEpochMilliseconds(Number.parseInt(id.replaceAll('-', '').slice(0, 12), 16))
    .toString()
    .slice(0, 10);
