/*
 * A colour profile of sRGB in its smallest form: three primaries on D50 and the exact curve of IEC 61966-2-1, as numbers of
 * 1/65536. Written here because no package that is small enough carries one. Figures: the sRGB primaries adapted to D50 by
 * the Bradford matrix, as colour management software has them (from memory); test/printing/exchange/pdf checks that they
 * add up to the white of D50.
 */

const WHITE_D50 = [0xf6d6, 0x10000, 0xd32d];
const BRADFORD = [0x10c42, 0x5de, -0xcdb, 0x793, 0xfd90, -0x45f, -0x25e, 0x3dc, 0xc06e];
const RED = [0x6fa2, 0x38f5, 0x390];
const GREEN = [0x6299, 0xb785, 0x18da];
const BLUE = [0x24a0, 0xf84, 0xb6cf];
/** y = (a x + b)^g above d, c x below: 2.4, 1/1.055, 0.055/1.055, 1/12.92, 0.04045. */
const CURVE = [0x26666, 0xf2a7, 0xd59, 0x13d0, 0xa5b];

const words = (text: string): Buffer => Buffer.from(text, 'latin1');

const numbers = (values: readonly number[]): Buffer => {
  const bytes = Buffer.alloc(values.length * 4);
  values.forEach((value, index) => {
    bytes.writeInt32BE(value, index * 4);
  });
  return bytes;
};

const typed = (type: string, ...rest: readonly Buffer[]): Buffer =>
  Buffer.concat([words(type), Buffer.alloc(4), ...rest]);

/** One record of text, English, in UTF-16. */
const localised = (text: string): Buffer => {
  const utf16 = Buffer.from(text, 'utf16le').swap16();
  return typed('mluc', numbers([1, 12]), words('enUS'), numbers([utf16.length, 28]), utf16);
};

const curve = typed('para', Buffer.from([0, 3, 0, 0]), numbers(CURVE));

const TAGS: readonly (readonly [string, Buffer])[] = [
  ['desc', localised('sRGB IEC61966-2.1')],
  ['cprt', localised('No copyright, use freely')],
  ['wtpt', typed('XYZ ', numbers(WHITE_D50))],
  ['chad', typed('sf32', numbers(BRADFORD))],
  ['rXYZ', typed('XYZ ', numbers(RED))],
  ['gXYZ', typed('XYZ ', numbers(GREEN))],
  ['bXYZ', typed('XYZ ', numbers(BLUE))],
  ['rTRC', curve],
  ['gTRC', curve],
  ['bTRC', curve],
];

/** Version 4.2, a display's RGB, connected through XYZ. */
const head = (size: number): Buffer => {
  const bytes = Buffer.alloc(128);
  bytes.writeUInt32BE(size, 0);
  bytes.writeUInt32BE(0x04200000, 8);
  bytes.write('mntrRGB XYZ ', 12, 'latin1');
  [2026, 1, 1].forEach((part, index) => {
    bytes.writeUInt16BE(part, 24 + index * 2);
  });
  bytes.write('acsp', 36, 'latin1');
  numbers(WHITE_D50).copy(bytes, 68);
  return bytes;
};

/**
 * The profile's bytes, always the same.
 *
 * @see ICC.1:2004-10 (profile version 4.2); test/printing/exchange/pdf/srgb-profile.test.ts
 */
export const srgbProfile = (): Uint8Array => {
  const start = 128 + 4 + TAGS.length * 12;
  const table: Buffer[] = [numbers([TAGS.length])];
  const bodies: Buffer[] = [];
  const places = new Map<Buffer, number>();
  let at = start;
  for (const [name, body] of TAGS) {
    let place = places.get(body);
    if (place === undefined) {
      place = at;
      places.set(body, place);
      const padded = Buffer.concat([body, Buffer.alloc((4 - (body.length % 4)) % 4)]);
      bodies.push(padded);
      at += padded.length;
    }
    table.push(words(name), numbers([place, body.length]));
  }
  return new Uint8Array(Buffer.concat([head(at), ...table, ...bodies]));
};
