import { quoteBook } from '../../storage/books/papers/quote-book.js';
import type { Reading } from '../../storage/session.js';
import { file, type Reply } from '../../web/reply.js';

/** The bytes that went out, never printed again. @throws NotFound */
export const pdfOf = async (reading: Reading, id: string): Promise<Reply> => {
  const { number, edition } = await quoteBook.one(reading, id);
  const name = `${number.replace(/[/\\]/g, '-')} version ${edition}.pdf`;
  return file(await quoteBook.pdf(reading, id), 'application/pdf', name, true);
};
