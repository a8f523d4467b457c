import { Decimal } from '../../kernel/decimal.js';
import { Money } from '../../kernel/money.js';
import { TAX_CATEGORIES } from './category.js';
import { groupTax, type Rated, rateOf } from './tax-groups.js';
import type { GrossPolicy } from './tax-question.js';

/** 1 + rate ÷ 100 for a taxed category, 1 for any other. */
export const grossFactor = (rated: Rated): Decimal =>
  TAX_CATEGORIES[rated.category].taxed ? rateOf(rated).div(100).plus(1) : new Decimal(1);

/**
 * The whole net whose gross comes nearest to a promised gross.
 *
 * Some promises cannot be kept by a whole net: at 21 % 82.64 gives 99.99 and 82.65 gives 100.01, never 100.00. With
 * `rounding` the nearest is taken (the lower when both are as near); with `cent` the nearest whose gross is not above the
 * promise, counted towards nought when the promise is negative.
 *
 * @param promised gross of one group, signed
 * @param rated the group's category and rate
 * @returns net in whole minor units; its gross is within one minor unit of the promise
 * @see test/domain/papers/gross-kept.test.ts
 */
export const netForGross = (promised: Money, rated: Rated, policy: GrossPolicy): Money => {
  const size = Money.ofMinor(Math.abs(promised.minor), promised.currency);
  const middle = size.timesRounded(new Decimal(1).div(grossFactor(rated))).minor;
  const missOf = (minor: number): number => {
    const net = Money.ofMinor(minor, size.currency);
    return size.minus(net.plus(groupTax(net, rated))).minor;
  };
  const nets = [middle - 1, middle, middle + 1].filter((minor) => minor >= 0);
  const allowed = policy === 'cent' ? nets.filter((minor) => missOf(minor) >= 0) : nets;
  const best = allowed.reduce((a, b) => (Math.abs(missOf(b)) < Math.abs(missOf(a)) ? b : a));
  return Money.ofMinor(promised.isNegative() ? -best : best, promised.currency);
};

/**
 * Whole parts near their exact values that add up to a given whole: each is taken down to the minor unit below, and what
 * is left goes, unit by unit, to the largest fractions (or is taken from the smallest); ties go to the first.
 *
 * @param exact signed major units
 * @param whole what the parts must add up to
 * @returns parts in the same order
 */
export const settleTo = (exact: readonly Decimal[], whole: Money): Money[] => {
  const unit = Money.ofMinor(1, whole.currency).toDecimal();
  const scaled = exact.map((value) => value.div(unit));
  const parts = scaled.map((value) => value.floor().toNumber());
  const order = scaled
    .map((value, index) => ({ index, fraction: value.minus(value.floor()) }))
    .sort((a, b) => b.fraction.comparedTo(a.fraction) || a.index - b.index)
    .map(({ index }) => index);
  let left = whole.minor - parts.reduce((sum, part) => sum + part, 0);
  const step = Math.sign(left);
  const turn = step < 0 ? [...order].reverse() : order;
  for (let at = 0; left !== 0 && turn.length > 0; at += 1, left -= step) {
    const index = turn[at % turn.length] ?? 0;
    parts[index] = (parts[index] ?? 0) + step;
  }
  return parts.map((part) => Money.ofMinor(part, whole.currency));
};
