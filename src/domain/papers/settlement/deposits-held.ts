import type { CurrencyCode } from '../../kernel/currency.js';
import { Money } from '../../kernel/money.js';
import type { Account } from './account.js';
import { type DepositTaking, takeDeposit } from './deductions.js';

/** A garment of a commission, for its share of the deposit. */
export type DepositGarment = { readonly net: Money; readonly delivered: boolean };

/**
 * What a client has paid ahead for a commission: what was paid on its deposit invoices, and payments on account that went
 * to no invoice yet.
 *
 * @param deposits keys of the commission's deposit invoices
 * @returns not below nought
 */
export const paidAhead = (
  account: Account,
  commissionId: string,
  deposits: ReadonlySet<string>,
  currency: CurrencyCode,
): Money =>
  Money.sum(
    [
      ...account.papers
        .filter(({ id, paid, commissionId: of }) => of === commissionId && deposits.has(id) && paid.minor > 0)
        // What was credited after it was paid is the client's credit, and held no longer as a deposit.
        .map(({ paid, open }) => (open.isNegative() ? paid.plus(open) : paid)),
      ...account.payments
        .filter(
          ({ kind, left, commissionId: of }) => of === commissionId && kind === 'payment' && left.minor > 0,
        )
        .map(({ left }) => left),
    ],
    currency,
  );

/**
 * How much of what was paid ahead is still held, as a debt to the client, until the garments are handed over.
 *
 * @param ahead not below nought
 * @param garments in the order in which they leave; with none, all of it is held
 * @param how the studio's way of taking a deposit
 * @returns from nought to all of it; nought when every garment was handed over
 * @see design 2-costing.md section 7; test/domain/papers/settlement/account.test.ts
 */
export const depositHeld = (
  ahead: Money,
  garments: readonly DepositGarment[],
  how: DepositTaking = 'shared',
): Money => {
  if (garments.length === 0 || garments.every(({ delivered }) => !delivered)) return ahead;
  if (garments.every(({ delivered }) => delivered)) return Money.zero(ahead.currency);
  const order = [
    ...garments.filter(({ delivered }) => delivered),
    ...garments.filter((one) => !one.delivered),
  ];
  const parts = takeDeposit(
    ahead,
    order.map(({ net }) => net),
    how,
  );
  return Money.sum(
    parts.filter((_, place) => !order[place]?.delivered),
    ahead.currency,
  );
};
