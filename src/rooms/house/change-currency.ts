import type { Studio } from '../../domain/house/studio.js';
import { Conflict } from '../../domain/kernel/errors.js';
import { Money } from '../../domain/kernel/money.js';
import { ratesBook } from '../../storage/books/rates-book.js';
import { CounterTicketRow } from '../../storage/rows/beside/counter-ticket.row.js';
import { OutworkerRow } from '../../storage/rows/beside/outworker.row.js';
import { CommissionRow } from '../../storage/rows/commissions/commission.row.js';
import { MoneyOutRow } from '../../storage/rows/money-out/money-out.row.js';
import { StandingPriceRow } from '../../storage/rows/rates/standing-price.row.js';
import type { Reading, Writing } from '../../storage/session.js';

/** Is anything priced yet? From then on the currency stays. */
export const isPriced = async ({ manager }: Reading): Promise<boolean> => {
  for (const row of [CommissionRow, StandingPriceRow, MoneyOutRow, OutworkerRow, CounterTicketRow])
    if ((await manager.count<object>(row, { take: 1 })) > 0) return true;
  return false;
};

const read = (money: Money, currency: string): Money => Money.rounded(money.toDecimal(), currency);

/**
 * The house in another currency: the same figures, read anew. Nothing is converted.
 *
 * @throws Conflict once anything is priced
 */
export const inCurrency = async (writing: Writing, studio: Studio, currency: string): Promise<Studio> => {
  if (studio.identity.currency === currency) return studio;
  if (await isPriced(writing))
    throw new Conflict('Commissions or prices are kept in this currency already, so it stays.', 'priced', [
      {
        field: 'currency',
        text: `Commissions or prices are kept in ${studio.identity.currency} already, so it stays.`,
      },
    ]);
  // What is priced after this act means the new currency; putting the old one back would read it anew, unasked.
  writing.forGood();
  await ratesBook.relabel(writing, currency);
  const { minimumCharge, roundTo } = studio.pricing;
  const step = roundTo.minor === 1 ? Money.ofMinor(1, currency) : read(roundTo, currency);
  return {
    ...studio,
    identity: { ...studio.identity, currency },
    pricing: {
      ...studio.pricing,
      minimumCharge: minimumCharge && read(minimumCharge, currency),
      roundTo: step.isZero() ? Money.ofMinor(1, currency) : step,
    },
  };
};
