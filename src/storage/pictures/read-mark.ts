import type { Invalid } from '../../domain/kernel/errors.js';
import type { StudioMark } from '../books/house/mark-book.js';
import { refusedMark } from './refused-mark.js';

export const MOST_MARK_BYTES = 500_000;
/** Of a PNG, each side: larger than any letterhead prints. */
export const LONGEST_MARK_SIDE = 4_000;

const PNG = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

export const markTooLarge = (): Invalid =>
  refusedMark('This picture is larger than 500 kB, the most a mark may have. Make it smaller.');

/**
 * A mark as it is kept: an SVG written anew out of what may stand in it, or a PNG drawn anew from its pixels, without
 * anything else the file carried.
 *
 * @param bytes what was sent, at most 500,000; what the file was called proves nothing and is not asked
 * @throws Invalid naming the field `mark`: too large, no such picture, damaged, or with something in it that runs or fetches
 * @see PNG (W3C, third edition) 5.2 and 11.2.1 for the signature and the head; test/storage/pictures/read-mark.test.ts
 */
export const readMark = async (bytes: Uint8Array): Promise<Pick<StudioMark, 'kind' | 'bytes'>> => {
  if (bytes.length === 0) throw refusedMark('Choose a picture: an SVG or a PNG.');
  if (bytes.length > MOST_MARK_BYTES) throw markTooLarge();
  if (PNG.every((sign, place) => bytes[place] === sign))
    return { kind: 'png', bytes: Buffer.from(await redrawn(bytes)).toString('base64') };
  const text = textOf(bytes);
  if (text === undefined || !text.includes('<'))
    throw refusedMark('This is no picture that can stand on a paper. Choose an SVG or a PNG.');
  const { cleanSvg } = await import('./clean-svg.js');
  const drawing = Buffer.from(cleanSvg(text), 'utf8');
  if (drawing.length > MOST_MARK_BYTES) throw markTooLarge();
  return { kind: 'svg', bytes: drawing.toString('base64') };
};

const textOf = (bytes: Uint8Array): string | undefined => {
  const isWide = (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff);
  try {
    return new TextDecoder(isWide ? (bytes[0] === 0xff ? 'utf-16le' : 'utf-16be') : 'utf-8', {
      fatal: true,
    }).decode(bytes);
  } catch {
    return undefined;
  }
};

/** The size stands in the head of a PNG, before anything is unfolded. */
const redrawn = async (bytes: Uint8Array): Promise<Uint8Array> => {
  const head = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const isHead = bytes.length > 33 && head.getUint32(8) === 13 && head.getUint32(12) === 0x49484452;
  const [width, height] = isHead ? [head.getUint32(16), head.getUint32(20)] : [0, 0];
  if (width > LONGEST_MARK_SIDE || height > LONGEST_MARK_SIDE)
    throw refusedMark(
      `This picture is ${width} by ${height} pixels; a mark has at most ${LONGEST_MARK_SIDE} on a side. Make it smaller.`,
    );
  if (width === 0 || height === 0) throw refusedMark(DAMAGED);
  const { Transformer } = await import('@napi-rs/image');
  let drawn: Uint8Array;
  try {
    drawn = await new Transformer(bytes).png();
  } catch {
    throw refusedMark(DAMAGED);
  }
  // Drawn anew a picture may grow; one that was let in stays in.
  if (drawn.length > 2 * MOST_MARK_BYTES) throw markTooLarge();
  return drawn;
};

const DAMAGED = 'This picture cannot be read: it is cut off or damaged. Send it once more, or another.';
