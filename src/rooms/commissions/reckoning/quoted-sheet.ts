import { Decimal } from '../../../domain/kernel/decimal.js';
import { Money } from '../../../domain/kernel/money.js';
import type { QuotedSheet } from '../../../domain/reckoning/quoted-work.js';
import { quoteBook } from '../../../storage/books/papers/quote-book.js';
import type { Kept } from '../../../storage/books/papers/quote-text.js';
import type { Reading } from '../../../storage/session.js';
import { costsOf } from '../quotes/kept-prices.js';

/** A cost sheet that was kept as JSON, its amounts read again. */
export const sheetOfText = (kept: Kept<QuotedSheet>, currency: string): QuotedSheet => {
  const money = (text: string): Money => Money.rounded(new Decimal(text), currency);
  type Operations = QuotedSheet['mending']['operations'];
  type Pools = QuotedSheet['mending']['pools'];
  const operations = (lines: Kept<Operations>): Operations =>
    lines.map(({ name, mode, minutes, perHour, labour, machine }) => ({
      name,
      mode,
      minutes: new Decimal(minutes),
      perHour: new Decimal(perHour),
      labour: money(labour),
      machine: money(machine),
    }));
  const pools = (lines: Kept<Pools>): Pools =>
    lines.map(({ name, base, baseQuantity, rate, amount }) => ({
      name,
      base: base as Pools[number]['base'],
      baseQuantity: new Decimal(baseQuantity),
      rate: new Decimal(rate),
      amount: money(amount),
    }));
  const { parts, mending, keptBack } = kept;
  return {
    parts: {
      operations: operations(parts.operations),
      pools: pools(parts.pools),
      expenses: parts.expenses.map(({ name, amount }) => ({ name, amount: money(amount) })),
      materials: parts.materials.map(({ name, quantity, unitCost, cost }) => ({
        name,
        quantity: new Decimal(quantity),
        unitCost: new Decimal(unitCost),
        cost: money(cost),
      })),
    },
    mending: { operations: operations(mending.operations), pools: pools(mending.pools) },
    keptBack: { operations: operations(keptBack.operations), pools: pools(keptBack.pools) },
  };
};

/** The sheet an accepted quote rested on; undefined where the quote kept nothing of this garment. */
export const sheetOfQuote = async (
  reading: Reading,
  quoteId: string,
  garmentId: string,
): Promise<QuotedSheet | undefined> => {
  const quote = await quoteBook.one(reading, quoteId);
  const kept = costsOf(quote).garments.find(({ ref }) => ref === garmentId);
  return (
    kept?.answer && sheetOfText(kept.answer.costSheet as unknown as Kept<QuotedSheet>, quote.total.currency)
  );
};
