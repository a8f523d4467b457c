import '@fastify/multipart';
import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import { CONSENT_SCOPES, MOST_PHOTO_BYTES, type Photo } from '../../domain/fitting/photo.js';
import { Invalid } from '../../domain/kernel/errors.js';
import { PHOTO_FIELD } from '../../storage/pictures/redraw-photo.js';
import { date, oneOf, optionalDate, optionalLine, whole, yesNo } from '../../web/fields/fields.js';
import { type Typed, typedOf } from '../../web/forms/typed.js';

const consent = {
  words: optionalLine(400),
  scope: z.union([oneOf(CONSENT_SCOPES, 'Say what it may be used for.'), z.literal('')]).default(''),
  consentBy: optionalLine(200),
  until: optionalDate(),
};

/** What is said with a photograph that is added. */
export const PhotoFields = z
  .strictObject({
    of: z.string().max(200).default(''),
    takenOn: date('On which day was it taken?'),
    ...consent,
  })
  .transform(({ scope, ...said }) => ({ ...said, scope: scope || undefined }));
export type PhotoSaid = z.output<typeof PhotoFields>;

/** What was agreed, said anew. */
export const ConsentFields = z
  .strictObject(consent)
  .transform(({ scope, ...said }) => ({ ...said, scope: scope || undefined }));
export type ConsentSaid = z.output<typeof ConsentFields>;

/** What the house settles about photographs. */
export const RuleFields = z.strictObject({
  ofChildren: yesNo(),
  months: whole(1, 120, 'Give months from 1 to 120.'),
  childMonths: whole(1, 120, 'Give months from 1 to 120.'),
});

/** The words of a photograph as its form's fields. */
export const typedConsent = ({ words, scope, consentBy, until }: Photo): Record<string, string> => ({
  words,
  scope: scope ?? '',
  consentBy,
  until: until ?? '',
});

/** A form with a photograph in it, as it was sent. */
export type PhotoForm = { readonly typed: Typed; readonly photo: Uint8Array };

/**
 * Reads a form with a photograph; nothing of it is written to disk. What is too large is read past and dropped, so that
 * the answer still reaches whoever sent it.
 *
 * @returns the fields, and the bytes; none where the file was too large, which `photo` then says by being one byte too many
 */
export const readPhotoForm = async (request: FastifyRequest): Promise<PhotoForm> => {
  if (!request.isMultipart()) throw Invalid.field(PHOTO_FIELD, 'Choose a photograph.');
  const fields: Record<string, unknown> = {};
  let photo: Uint8Array = new Uint8Array();
  const limits = { fileSize: MOST_PHOTO_BYTES, fieldSize: 20_000, files: 1, fields: 20 };
  // The types of this option are missing; without it nothing typed after the file would be read.
  const reading: object = { limits, throwFileSizeLimit: false };
  for await (const part of request.parts(reading)) {
    if (part.type !== 'file') fields[part.fieldname] = part.value;
    else {
      const bytes = await part.toBuffer();
      photo = part.file.truncated ? new Uint8Array(MOST_PHOTO_BYTES + 1) : bytes;
    }
  }
  return { typed: typedOf(fields), photo };
};
