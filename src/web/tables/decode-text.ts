import { Invalid } from '../../domain/kernel/errors.js';

const decoded = (bytes: Uint8Array, encoding: string): string | undefined => {
  try {
    return new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch {
    return undefined;
  }
};

/**
 * The text of a file: by its byte order mark where it has one, as UTF-8 where it is, else as Windows-1252, in which
 * spreadsheets of the West still save.
 *
 * @throws Invalid when it is no text at all
 * @see WHATWG Encoding Standard, sections 4.2 (names) and 6.1 (byte order marks)
 */
export const decodeText = (bytes: Uint8Array, noText: string): string => {
  const [first, second] = bytes;
  const marked =
    first === 0xff && second === 0xfe
      ? 'utf-16le'
      : first === 0xfe && second === 0xff
        ? 'utf-16be'
        : undefined;
  const text = marked ? decoded(bytes, marked) : (decoded(bytes, 'utf-8') ?? decoded(bytes, 'windows-1252'));
  if (text === undefined || text.includes('\u0000')) throw Invalid.field('file', noText);
  return text.replace(/^\ufeff/, '');
};
