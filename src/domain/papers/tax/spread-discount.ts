import { Decimal } from '../../kernel/decimal.js';
import { Invalid } from '../../kernel/errors.js';
import type { Money } from '../../kernel/money.js';

/**
 * Shares a discount on the whole document over its groups, in proportion to what each group comes to before it.
 *
 * The parts add up exactly (largest remainder, ties to the first) and no part is larger than its group. A group that is
 * not above nought takes no part.
 *
 * @param discount not negative, not above the sum of the groups that are above nought
 * @param bases what each group comes to, same currency
 * @returns one part per group, in the order of the groups
 * @throws Invalid at `spreadDiscount` when it is negative or larger than what it is taken from
 * @see EN 16931-1 BG-20: a document level allowance carries one category and rate; test/domain/papers/tax.test.ts
 */
export const spreadDiscount = (discount: Money, bases: readonly Money[]): Money[] => {
  if (discount.isNegative())
    throw Invalid.field('spreadDiscount', 'A discount cannot be negative. Write what is taken off.');
  if (discount.isZero()) return bases.map(() => discount);
  const weights = bases.map((base) => new Decimal(Math.max(base.minor, 0)));
  const whole = weights.reduce((sum, weight) => sum.plus(weight), new Decimal(0));
  if (whole.lessThan(discount.minor))
    throw Invalid.field('spreadDiscount', 'The discount is larger than the price it is taken from.');
  return discount.allocate(weights);
};
