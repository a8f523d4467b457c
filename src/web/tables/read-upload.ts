import '@fastify/multipart';
import type { FastifyRequest } from 'fastify';
import { Invalid } from '../../domain/kernel/errors.js';
import { decodeText } from './decode-text.js';
import type { TableLimits } from './table-of-text.js';

/** What was sent: a file or pasted text, and whether its first line names the columns. */
export type Upload = { readonly text: string; readonly headed: boolean };

const tooLarge = ({ bytes }: TableLimits): Invalid =>
  Invalid.field(
    'file',
    `This file is larger than ${bytes / 1024 / 1024} MB, the most that is brought in at once. Cut it into parts.`,
  );

/**
 * Reads a list out of a form, with or without a file in it.
 *
 * @throws Invalid when it is too large, no text, or not there
 */
export const readUpload = async (request: FastifyRequest, limits: TableLimits): Promise<Upload> => {
  const { file, fields } = request.isMultipart()
    ? await partsOf(request, limits)
    : { file: undefined, fields: (request.body ?? {}) as Record<string, unknown> };
  const pasted = typeof fields.pasted === 'string' ? fields.pasted : '';
  if (Buffer.byteLength(pasted) > limits.bytes) throw tooLarge(limits);
  const text = file && file.length > 0 ? decodeText(file, limits.noText) : pasted.replace(/^\ufeff/, '');
  if (text.trim() === '') throw Invalid.field('file', 'Choose a file, or paste the list.');
  return { text, headed: fields.headed === 'yes' };
};

const partsOf = async (
  request: FastifyRequest,
  most: TableLimits,
): Promise<{ file: Buffer | undefined; fields: Record<string, unknown> }> => {
  const fields: Record<string, unknown> = {};
  let file: Buffer | undefined;
  try {
    const limits = { fileSize: most.bytes, fieldSize: most.bytes + 1, files: 1, fields: 20 };
    for await (const part of request.parts({ limits })) {
      if (part.type === 'file') file = await part.toBuffer();
      else fields[part.fieldname] = part.value;
    }
  } catch (error) {
    if ((error as { statusCode?: number }).statusCode === 413) throw tooLarge(most);
    throw error;
  }
  return { file, fields };
};
