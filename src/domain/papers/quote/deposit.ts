import { Decimal } from '../../kernel/decimal.js';
import { OutOfRange } from '../../kernel/errors.js';
import { Money } from '../../kernel/money.js';

/** How a deposit is asked for. Shares are of one: 0.5 is half. */
export type DepositRule =
  | { readonly rule: 'none' }
  | { readonly rule: 'amount'; readonly amount: Money }
  | { readonly rule: 'share'; readonly share: Decimal }
  | { readonly rule: 'materials-and-labour'; readonly labourShare: Decimal };

/** What a deposit comes to, with tax, and how much of it belongs to each garment. */
export type Deposit = { readonly total: Money; readonly parts: readonly Money[] };

/** A garment as far as a deposit needs it. */
export type DepositBasis = {
  /** Its share of the amount due, with tax. */
  readonly gross: Money;
  /** Materials and labour as charged, before tax. */
  readonly materials?: Money;
  readonly labour?: Money;
  /** 1 + rate ÷ 100. */
  readonly grossFactor: Decimal;
};

const mustBeShare = (share: Decimal): Decimal => {
  if (share.isNaN() || share.lessThan(0) || share.greaterThan(1))
    throw new OutOfRange('A deposit is a share from 0 to 100 per cent.', [
      { field: 'deposit.share', text: 'A deposit is a share from 0 to 100 per cent.' },
    ]);
  return share;
};

const spreadOver = (total: Money, garments: readonly DepositBasis[]): Deposit => {
  const weights = garments.map((garment) => new Decimal(Math.max(garment.gross.minor, 0)));
  return weights.some((weight) => !weight.isZero())
    ? { total, parts: total.allocate(weights) }
    : { total, parts: garments.map(() => Money.zero(total.currency)) };
};

/**
 * The deposit and its exact split over garments.
 *
 * A share: round(due × share), split over what the garments come to with tax (largest remainder, ties to the first).
 * Materials and a share of labour: per garment round((materials + labour × share) × gross factor), at most the garment's
 * own gross; the total is the sum.
 *
 * @param due what the whole comes to with tax
 * @param garments in the order in which they stand
 * @returns whole minor units; the parts add up to the total wherever a garment has a price
 * @throws OutOfRange when a share is not from 0 to 1, or an amount is negative or above what is due
 * @see test/domain/papers/quote.test.ts
 */
export const depositOf = (rule: DepositRule, due: Money, garments: readonly DepositBasis[]): Deposit => {
  switch (rule.rule) {
    case 'none':
      return spreadOver(Money.zero(due.currency), garments);
    case 'share':
      return spreadOver(due.timesRounded(mustBeShare(rule.share)), garments);
    case 'amount':
      if (rule.amount.isNegative() || rule.amount.compare(due) > 0)
        throw new OutOfRange('A deposit lies between nothing and the whole price.', [
          { field: 'deposit.amount', text: 'A deposit lies between nothing and the whole price.' },
        ]);
      return spreadOver(rule.amount, garments);
    case 'materials-and-labour': {
      const share = mustBeShare(rule.labourShare);
      const parts = garments.map((garment) => {
        const zero = Money.zero(due.currency);
        const labour = (garment.labour ?? zero).toDecimal().times(share);
        const asked = (garment.materials ?? zero).toDecimal().plus(labour).times(garment.grossFactor);
        const part = Money.rounded(asked, due.currency);
        return part.compare(garment.gross) > 0 ? garment.gross : part;
      });
      return { total: Money.sum(parts, due.currency), parts };
    }
  }
};
