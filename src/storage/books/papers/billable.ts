import { Decimal } from '../../../domain/kernel/decimal.js';
import { Money } from '../../../domain/kernel/money.js';
import type { BillableExtra } from '../../../domain/papers/invoice/draft-invoice.js';
import { grossFactor } from '../../../domain/papers/tax/gross-kept.js';
import type { PricesInclude } from '../../../domain/papers/tax/tax-question.js';
import type { Reading } from '../../session.js';
import { extraBook } from '../bench/extra-book.js';
import { clientAccountBook } from './client-account-book.js';

/**
 * The extras of a commission that were agreed or given, by number, with their prices as the agreed work keeps its own. One that
 * takes another back comes in below nought, as it was agreed.
 */
export const billableOf = async (
  reading: Reading,
  commissionId: string,
  pricesInclude: PricesInclude,
): Promise<BillableExtra[]> =>
  (await extraBook.ofCommission(reading, commissionId))
    .filter(({ state }) => state === 'agreed')
    .map((extra) => {
      const { category, rate } = extra;
      const factor = grossFactor({ category, ...(rate ? { rate } : {}) });
      const price =
        extra.pricesInclude === pricesInclude
          ? extra.price
          : extra.price.timesRounded(pricesInclude === 'tax' ? factor : new Decimal(1).div(factor));
      return {
        number: extra.number,
        words: extra.wording,
        price,
        compliments: extra.kind === 'compliments',
        garment: extra.garmentId,
        category,
        ...(rate ? { rate } : {}),
      };
    });

/** What was paid on account for a commission and is set against no invoice yet. */
export const onAccountOf = async (
  reading: Reading,
  clientId: string,
  commissionId: string,
): Promise<Money> => {
  const { account } = await clientAccountBook.of(reading, clientId);
  const theirs = account.payments.filter(
    (payment) => payment.kind === 'payment' && payment.commissionId === commissionId && !payment.reversedOn,
  );
  return Money.sum(
    theirs.map(({ left }) => left),
    account.balance.currency,
  );
};
