import { Decimal } from '../kernel/decimal.js';
import { Money } from '../kernel/money.js';
import type { FrozenReckoning } from '../reckoning/frozen-reckoning.js';

/** The part of a frozen reckoning from which follows what an hour earned. */
export type EarnedOnce = Pick<FrozenReckoning, 'currency' | 'actualProfit' | 'price'> & {
  readonly cost: Pick<FrozenReckoning['cost'], 'labour' | 'minutes'>;
};

/** What such garments earned. */
export type Earned = {
  readonly garments: number;
  readonly minutes: Decimal;
  readonly price: Money;
  readonly profit: Money;
  /** (profit + labour) ÷ hours of all of them together. */
  readonly perHour: Money;
};

/**
 * What garments earned an hour, all of them together: Σ (profit + labour) ÷ Σ hours, so that a long garment weighs more than a short one.
 *
 * @param reckonings frozen reckonings; those in another currency, and those without minutes, are left out
 * @returns amounts to the minor unit, half away from zero; undefined where none is left
 * @see test/domain/lessons/what-was-made.test.ts
 */
export const earnedTogether = (reckonings: readonly EarnedOnce[], currency: string): Earned | undefined => {
  const counted = reckonings.filter(
    (one) => one.currency === currency && new Decimal(one.cost.minutes).gt(0),
  );
  if (counted.length === 0) return undefined;
  const sum = (of: (one: EarnedOnce) => string): Money =>
    Money.sum(
      counted.map((one) => Money.parse(of(one), currency)),
      currency,
    );
  const minutes = counted.reduce((all, { cost }) => all.plus(cost.minutes), new Decimal(0));
  const profit = sum(({ actualProfit }) => actualProfit);
  const labour = sum(({ cost }) => cost.labour);
  return {
    garments: counted.length,
    minutes,
    price: sum(({ price }) => price),
    profit,
    perHour: Money.rounded(profit.plus(labour).toDecimal().times(60).div(minutes), currency),
  };
};
