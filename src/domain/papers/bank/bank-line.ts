import type { CalendarDate } from '../../kernel/calendar-date.js';
import type { Money } from '../../kernel/money.js';

/** One line of a bank statement. */
export type BankLine = {
  /** The line of the file it begins on. */
  readonly place: number;
  readonly on: CalendarDate;
  /** Signed: what came in is above nought. */
  readonly amount: Money;
  /** Who paid, or was paid; '' when the bank does not say. */
  readonly payer: string;
  /** What the bank says of it: purpose, references. */
  readonly words: string;
};

const folded = (text: string): string => text.replace(/\s+/g, ' ').trim().toLowerCase();

/**
 * What makes each line of a file itself: its date, amount, payer and words, and, of several alike in one file, which of them
 * it is. So the same statement brought in twice, or two that overlap by whole days, give the same marks.
 *
 * @returns one text per line, in order, all different
 * @see test/domain/papers/bank/bank.test.ts
 */
export const fingerprintsOf = (lines: readonly BankLine[]): string[] => {
  const seen = new Map<string, number>();
  return lines.map(({ on, amount, payer, words }) => {
    const mark = JSON.stringify([on, amount.minor, amount.currency, folded(payer), folded(words)]);
    const nth = (seen.get(mark) ?? 0) + 1;
    seen.set(mark, nth);
    return `${mark} ${nth}`;
  });
};
