import { deflateRawSync, inflateRawSync } from 'node:zlib';
import { Invalid } from '../../domain/kernel/errors.js';

/*
 * Between the steps the file travels in the form itself, packed, so that the server keeps nothing of it until the
 * clients are added.
 */

const MOST_UNPACKED = 8 * 1024 * 1024;
/** What a form may carry beside everything else it sends. */
const MOST_PACKED = 1_900_000;

/** @throws Invalid when even packed it is too large to travel in a form */
export const packed = (text: string): string => {
  const carried = deflateRawSync(Buffer.from(text, 'utf8')).toString('base64url');
  if (carried.length > MOST_PACKED)
    throw Invalid.field('file', 'This file is too large to be carried on. Cut it into parts.');
  return carried;
};

/** @throws Invalid when what comes back was not packed here */
export const unpacked = (carried: string): string => {
  try {
    const bytes = inflateRawSync(Buffer.from(carried, 'base64url'), { maxOutputLength: MOST_UNPACKED });
    if (bytes.length > 0) return bytes.toString('utf8');
  } catch {
    // Falls through to the same sentence.
  }
  throw Invalid.field('', 'The file was lost on the way. Please choose it again.');
};
