import { Invalid } from '../../../../domain/kernel/errors.js';
import {
  type BankLines,
  columnsTrouble,
  mannerOf,
  readBankLines,
} from '../../../../domain/papers/bank/bank-columns.js';
import { type BankImport, bankBook } from '../../../../storage/books/payments/bank-book.js';
import { studioBook } from '../../../../storage/books/studio-book.js';
import type { Reading, Visit } from '../../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../../storage/unit-of-work.js';
import { readTable } from '../../../../web/tables/read-table.js';
import type { TextTable } from '../../../../web/tables/table-of-text.js';
import { BANK_LIST, type StatementWords } from './bank.form.js';

export const statementTable = (text: string, headed: boolean): TextTable =>
  readTable(text, headed, BANK_LIST);

/**
 * Reads a statement as it would be brought in; nothing is kept.
 *
 * @throws Invalid when a column is missing, or dates or amounts can be read both ways and nobody said which
 */
export const readStatement = async (
  reading: Reading,
  text: string,
  words: StatementWords,
): Promise<BankLines> => {
  const { identity } = await studioBook.the(reading);
  const { rows } = statementTable(text, words.headed);
  const missing = columnsTrouble(words.columns);
  if (missing) throw Invalid.field('to.0', missing);
  const { dateOrder, decimalSign } = mannerOf(rows, words);
  if (!dateOrder)
    throw Invalid.field('dateOrder', 'Every date here could be read both ways. Say what comes first.');
  if (!decimalSign)
    throw Invalid.field(
      'decimalSign',
      'Every amount here could be read both ways. Say which sign stands before the cents.',
    );
  return readBankLines(rows, { ...words, dateOrder, decimalSign }, identity.currency);
};

/**
 * Brings a statement's lines in; those that are here already are left where they are. It books nothing.
 *
 * @throws Invalid when lines cannot be read and nobody said to leave them out
 */
export const bringStatement = (
  unit: UnitOfWork,
  visit: Visit,
  text: string,
  words: StatementWords,
): Promise<Done<BankImport>> =>
  unit.write(visit, async (writing) => {
    const { lines, troubles } = await readStatement(writing, text, words);
    if (troubles.length > 0 && !words.leaveTroubles)
      throw Invalid.field(
        'leaveTroubles',
        `Nothing was brought in: ${troubles.length} of the lines cannot be read.`,
      );
    if (lines.length === 0) throw Invalid.field('to.0', 'Not one line could be read so.');
    const { columns, dateOrder, decimalSign } = words;
    const brought = await bankBook.bring(writing, lines, {
      leftOut: troubles.length,
      mapping: JSON.stringify({ columns, dateOrder, decimalSign }),
    });
    writing.says(`Brought in a bank statement of ${lines.length} lines`, 'payments');
    return brought;
  });
