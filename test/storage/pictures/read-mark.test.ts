import { Transformer } from '@napi-rs/image';
import { expect, it } from 'vitest';
import { readMark } from '../../../src/storage/pictures/read-mark.js';

const THIMBLE =
  '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 30"><path d="M10 28 L14 4 H26 L30 28 Z" fill="none" stroke="#7c2330" stroke-width="2"/></svg>';
const aPng = (width: number, height: number): Promise<Buffer> =>
  Transformer.fromRgbaPixels(Buffer.alloc(width * height * 4, 120), width, height).png();
const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);
const decoded = (base64: string): Buffer => Buffer.from(base64, 'base64');

/** The PNG with a text chunk behind its head; readers check its sum (CRC-32 of PNG 5.5), so ours is a true one. */
const withRemark = (png: Buffer, words: string): Buffer => {
  const body = Buffer.concat([Buffer.from('tEXt'), Buffer.from(`Comment\0${words}`, 'latin1')]);
  let sum = 0xffffffff;
  for (const byte of body) {
    sum ^= byte;
    for (let bit = 0; bit < 8; bit += 1) sum = sum & 1 ? (sum >>> 1) ^ 0xedb88320 : sum >>> 1;
  }
  const [length, crc] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(body.length - 4);
  crc.writeUInt32BE((sum ^ 0xffffffff) >>> 0);
  return Buffer.concat([png.subarray(0, 33), length, body, crc, png.subarray(33)]);
};

it('keeps a drawing, also in the width of sixteen bits, and with a byte order mark', async () => {
  const plain = await readMark(bytesOf(THIMBLE));
  expect(plain.kind).toBe('svg');
  expect(decoded(plain.bytes).toString()).toContain('<path d="M10 28 L14 4 H26 L30 28 Z"');
  expect(await readMark(bytesOf(`\ufeff${THIMBLE}`))).toEqual(plain);
  expect(await readMark(new Uint8Array(Buffer.from(`\ufeff${THIMBLE}`, 'utf16le')))).toEqual(plain);
});

it('draws a PNG anew, without what it carried besides', async () => {
  const sent = withRemark(await aPng(120, 40), 'made by Odalys');
  expect(sent.includes('Odalys')).toBe(true);
  const { kind, bytes } = await readMark(sent);
  expect(kind).toBe('png');
  expect(decoded(bytes).includes('Odalys')).toBe(false);
  expect(await new Transformer(decoded(bytes)).metadata()).toMatchObject({ width: 120, height: 40 });
});

it('refuses in words what is no picture, too large or damaged', async () => {
  const png = await aPng(64, 64);
  const immense = Buffer.from(png);
  immense.writeUInt32BE(60_000, 16);
  for (const [bytes, sentence] of [
    [new Uint8Array(), 'Choose a picture'],
    [new Uint8Array(500_001), 'larger than 500 kB'],
    [bytesOf('hello'), 'no picture that can stand'],
    [new Uint8Array([0xff, 0xd8, 0xff, 0xe0, 1, 2, 3]), 'no picture that can stand'],
    [bytesOf('<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1 1"><script/></svg>'), 'holds <script>'],
    [png.subarray(0, 60), 'cut off or damaged'],
    [png.subarray(0, 12), 'cut off or damaged'],
    [immense, '60000 by 64 pixels'],
  ] as const)
    await expect(readMark(bytes)).rejects.toThrow(sentence);
});
