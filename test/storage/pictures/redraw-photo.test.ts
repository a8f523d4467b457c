import { deflateSync } from 'node:zlib';
import { Transformer } from '@napi-rs/image';
import { describe, expect, it } from 'vitest';
import { Invalid } from '../../../src/domain/kernel/errors.js';
import { redrawPhoto } from '../../../src/storage/pictures/redraw-photo.js';
import { aPhoto, PLANTED, segmentsOf, withExif } from './a-photo.js';

const sizeOf = async (bytes: Uint8Array) => {
  const { width, height, format, exif } = await new Transformer(bytes).metadata(true);
  return { width, height, format, exif };
};

const CRC = Array.from({ length: 256 }, (_, n) => {
  let crc = n;
  for (let bit = 0; bit < 8; bit += 1) crc = crc & 1 ? 0xedb88320 ^ (crc >>> 1) : crc >>> 1;
  return crc >>> 0;
});
const chunk = (name: string, body: Buffer): Buffer => {
  const named = Buffer.concat([Buffer.from(name), body]);
  const sum = named.reduce((crc, byte) => (CRC[(crc ^ byte) & 255] ?? 0) ^ (crc >>> 8), 0xffffffff);
  const out = Buffer.alloc(named.length + 8);
  out.writeUInt32BE(body.length, 0);
  named.copy(out, 4);
  out.writeUInt32BE((sum ^ 0xffffffff) >>> 0, named.length + 4);
  return out;
};
/** A small file that unfolds to an immense grey picture. */
const immense = (width: number, height: number): Buffer => {
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head[8] = 8;
  return Buffer.concat([
    Buffer.from([137, 80, 78, 71, 13, 10, 26, 10]),
    chunk('IHDR', head),
    chunk('IDAT', deflateSync(Buffer.alloc((width + 1) * height), { level: 1 })),
    chunk('IEND', Buffer.alloc(0)),
  ]);
};

describe('a photograph that is taken in', () => {
  it('is turned as it was held, at most 1,600 pixels long, and carries nothing the camera wrote', async () => {
    const planted = withExif(await aPhoto(2400, 1200));
    expect((await sizeOf(planted)).exif).toMatchObject({ 'GPS latitude ref': 'N' });
    expect(planted.includes(PLANTED.maker)).toBe(true);

    const { picture, small, width, height } = await redrawPhoto(planted);
    expect({ width, height }).toEqual({ width: 800, height: 1600 });
    expect(await sizeOf(picture)).toEqual({ width: 800, height: 1600, format: 'jpeg', exif: undefined });
    expect(await sizeOf(small)).toEqual({ width: 160, height: 320, format: 'jpeg', exif: undefined });
    for (const bytes of [picture, small]) {
      expect(segmentsOf(bytes)).not.toContain('e1');
      expect(Buffer.from(bytes).includes('Exif')).toBe(false);
      expect(Buffer.from(bytes).includes(PLANTED.maker)).toBe(false);
    }
    expect(segmentsOf(planted)).toContain('e1');
  });

  it('keeps its size where it is small, also as PNG and WebP', async () => {
    const drawn = () => Transformer.fromRgbaPixels(Buffer.alloc(40 * 30 * 4, 200), 40, 30);
    expect(await redrawPhoto(await drawn().png())).toMatchObject({ width: 40, height: 30 });
    expect(await redrawPhoto(await drawn().webp(80))).toMatchObject({ width: 40, height: 30 });
  });

  it('is taken in where only what the camera wrote is damaged', async () => {
    const planted = withExif(await aPhoto(60, 40));
    planted.fill(0xff, 12, 40);
    expect(await redrawPhoto(planted)).toMatchObject({ width: 60, height: 40 });
  });
});

describe('what is no photograph is refused', () => {
  const svg = '<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>';
  it.each([
    ['nothing', Buffer.alloc(0), 'Choose a photograph.'],
    ['a text', Buffer.from('38 1/2 in'), 'This is no photograph'],
    ['an SVG with script', Buffer.from(svg), 'This is no photograph'],
    [
      'an SVG that begins as a JPEG',
      Buffer.concat([Buffer.from([0xff, 0xd8, 0xff]), Buffer.from(svg)]),
      'cannot be read',
    ],
    ['more than 20 MB', Buffer.alloc(20 * 1024 * 1024 + 1, 0xff), 'larger than 20 MB'],
  ])('%s', async (_, bytes, words) => {
    const error = await redrawPhoto(bytes).catch((thrown: unknown) => thrown);
    expect(error).toBeInstanceOf(Invalid);
    expect((error as Invalid).fields).toMatchObject([{ field: 'photo' }]);
    expect((error as Invalid).message).toContain(words);
  });

  it('a photograph that is cut off', async () => {
    const whole = await aPhoto(300, 200);
    await expect(redrawPhoto(whole.subarray(0, 300))).rejects.toThrow('cut off');
  });

  it('a small file that unfolds to 600 million pixels', async () => {
    await expect(redrawPhoto(immense(30_000, 20_000))).rejects.toThrow('immense');
  });
});
