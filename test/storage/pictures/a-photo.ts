import { Transformer } from '@napi-rs/image';

/** A plain JPEG of one colour. */
export const aPhoto = (width = 2400, height = 1200): Promise<Buffer> =>
  Transformer.fromRgbaPixels(Buffer.alloc(width * height * 4, 90), width, height).jpeg(90);

/** The place and the maker that are planted. */
export const PLANTED = { maker: 'Quillmere Lantern', latitude: [53, 20, 59] } as const;

const rational = (tiff: Buffer, at: number, values: readonly number[]): void =>
  values.forEach((value, place) => {
    tiff.writeUInt32BE(value, at + place * 8);
    tiff.writeUInt32BE(1, at + place * 8 + 4);
  });

const entry = (tiff: Buffer, at: number, tag: number, type: number, count: number, value: number): void => {
  tiff.writeUInt16BE(tag, at);
  tiff.writeUInt16BE(type, at + 2);
  tiff.writeUInt32BE(count, at + 4);
  if (type === 3) tiff.writeUInt16BE(value, at + 8);
  else tiff.writeUInt32BE(value, at + 8);
};

/**
 * The same JPEG with an APP1 segment as cameras write it: maker, an orientation, and a place.
 *
 * @see JEITA CP-3451 (Exif 2.32) 4.5 and 4.6: IFD0 tags 0x010F, 0x0112, 0x8825; GPS tags 0x0001, 0x0002
 */
export const withExif = (jpeg: Buffer, orientation = 6): Buffer => {
  const tiff = Buffer.alloc(240);
  tiff.write('MM');
  tiff.writeUInt16BE(42, 2);
  tiff.writeUInt32BE(8, 4);
  tiff.writeUInt16BE(3, 8);
  entry(tiff, 10, 0x010f, 2, PLANTED.maker.length + 1, 150);
  entry(tiff, 22, 0x0112, 3, 1, orientation);
  entry(tiff, 34, 0x8825, 4, 1, 60);
  tiff.writeUInt16BE(2, 60);
  entry(tiff, 62, 0x0001, 2, 2, 0);
  tiff.write('N\0', 70);
  entry(tiff, 74, 0x0002, 5, 3, 200);
  tiff.write(`${PLANTED.maker}\0`, 150);
  rational(tiff, 200, PLANTED.latitude);
  const payload = Buffer.concat([Buffer.from('Exif\0\0'), tiff]);
  const head = Buffer.from([0xff, 0xe1, 0, 0]);
  head.writeUInt16BE(payload.length + 2, 2);
  return Buffer.concat([jpeg.subarray(0, 2), head, payload, jpeg.subarray(2)]);
};

/** The markers of a JPEG's segments, up to its pixels: `e1` is where Exif and XMP lie. */
export const segmentsOf = (jpeg: Uint8Array): string[] => {
  const bytes = Buffer.from(jpeg);
  const found: string[] = [];
  for (let at = 2; bytes[at] === 0xff && bytes[at + 1] !== 0xda; at += 2 + bytes.readUInt16BE(at + 2))
    found.push((bytes[at + 1] ?? 0).toString(16));
  return found;
};
