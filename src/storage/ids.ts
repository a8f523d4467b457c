import { randomFillSync } from 'node:crypto';

/**
 * A UUID version 7: 48 bits of milliseconds, then random bits, so that keys sort by the time they were made.
 *
 * @param ticks milliseconds since the start of 1970
 * @see RFC 9562, section 5.7
 */
export const uuidVersion7 = (ticks: number): string => {
  const bytes = randomFillSync(new Uint8Array(16));
  let rest = ticks;
  for (let index = 5; index >= 0; index -= 1) {
    bytes[index] = rest % 256;
    rest = Math.floor(rest / 256);
  }
  bytes[6] = 0x70 | (bytes[6]! & 0x0f);
  bytes[8] = 0x80 | (bytes[8]! & 0x3f);
  const hex = Buffer.from(bytes).toString('hex');
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`;
};

const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;

export const isUuid = (text: string): boolean => UUID.test(text);
