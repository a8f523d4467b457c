import {
  type Match,
  type MatchIndex,
  matchIndex,
  proposeMatches,
} from '../../../../domain/papers/bank/propose-matches.js';
import { clientBook } from '../../../../storage/books/client-book.js';
import { clientAccountBook } from '../../../../storage/books/papers/client-account-book.js';
import type { KeptBankLine } from '../../../../storage/books/payments/bank-book.js';
import { keptIn, type Reading } from '../../../../storage/session.js';

/** Everything that lines are compared with, and the words for it. */
export type Matching = {
  readonly index: MatchIndex;
  readonly numbers: ReadonlyMap<string, string>;
};

/** Open and settled papers and every client, made ready to be looked through. */
export const matchingOf = (reading: Reading): Promise<Matching> =>
  keptIn(reading, 'bank matching', async () => {
    const accounts = await clientAccountBook.all(reading);
    const papers = accounts.flatMap(({ clientId, account }) =>
      account.papers
        .filter(({ kind }) => kind === 'invoice')
        .map(({ id, number, open }) => ({ id, number, clientId, open })),
    );
    return {
      index: matchIndex(papers, await clientBook.everybody(reading)),
      numbers: new Map(papers.map(({ id, number }) => [id, number])),
    };
  });

/** What some lines may be paying. Lines that something was done with are proposed nothing. */
export const matchesFor = (lines: readonly KeptBankLine[], { index }: Matching): Match[][] =>
  lines.map((line) => (line.standing === 'open' ? proposeMatches(line, index) : []));
