import '@fastify/multipart';
import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import { MOST_MARK_BYTES } from '../../../storage/pictures/read-mark.js';
import { MARK_FIELD, refusedMark } from '../../../storage/pictures/refused-mark.js';
import { line } from '../../../web/fields/fields.js';
import { type Typed, typedOf } from '../../../web/forms/typed.js';

export const MarkFields = z.strictObject({
  alternative: line('Say in a few words what it shows, for those who do not see it.', 200),
});

/** What a program sends: the picture as base64. */
export const MarkSent = MarkFields.extend({ bytes: z.string().default('') }).transform(
  ({ bytes, ...said }, ctx) => {
    const plain = bytes.replace(/\s/g, '');
    if (!/^[A-Za-z0-9+/]*={0,2}$/.test(plain)) {
      ctx.addIssue({ code: 'custom', path: ['bytes'], message: 'Send the picture as base64.' });
      return z.NEVER;
    }
    return { ...said, bytes: new Uint8Array(Buffer.from(plain, 'base64')) };
  },
);

/**
 * Reads the form with its picture; nothing is written to disk, and a file that is too large is read past.
 *
 * @returns one byte too many stands for a file that was too large
 */
export const readMarkForm = async (
  request: FastifyRequest,
): Promise<{ typed: Typed; picture: Uint8Array }> => {
  if (!request.isMultipart()) return { typed: typedOf(request.body), picture: new Uint8Array() };
  const fields: Record<string, unknown> = {};
  let picture: Uint8Array = new Uint8Array();
  const limits = { fileSize: MOST_MARK_BYTES, fieldSize: 20_000, files: 1, fields: 20 };
  // The types of this option are missing; without it nothing typed after the file would be read.
  const reading: object = { limits, throwFileSizeLimit: false };
  for await (const part of request.parts(reading)) {
    if (part.type !== 'file') fields[part.fieldname] = part.value;
    else if (part.fieldname === MARK_FIELD) {
      const bytes = await part.toBuffer();
      picture = part.file.truncated ? new Uint8Array(MOST_MARK_BYTES + 1) : bytes;
    } else throw refusedMark('Send the picture in its own field.');
  }
  return { typed: typedOf(fields), picture };
};
