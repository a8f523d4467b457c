import type { Decimal } from '../kernel/decimal.js';
import { Invalid } from '../kernel/errors.js';
import type { Money } from '../kernel/money.js';

export type Machine = {
  readonly price: Money;
  readonly residualValue: Money;
  /** Hours it will run in its life, above 0. */
  readonly lifeHours: Decimal;
  /** Money per machine hour, major units. */
  readonly upkeepPerHour: Decimal;
  readonly powerPerHour: Decimal;
};

/**
 * What an hour on the machine costs: (price − residual value) / life in hours + upkeep + power.
 *
 * @param machine amounts not negative, residual value not above the price
 * @returns money per machine hour, major units, unrounded
 * @throws Invalid naming the field that cannot be meant
 * @see test/domain/rates/rates.test.ts
 */
export const machineRate = (machine: Machine): Decimal => {
  const { price, residualValue, lifeHours, upkeepPerHour, powerPerHour } = machine;
  if (price.isNegative()) throw Invalid.field('price', 'The price of the machine cannot be below 0.');
  if (residualValue.isNegative() || residualValue.compare(price) > 0) {
    throw Invalid.field('residualValue', 'The residual value lies between 0 and the price.');
  }
  if (lifeHours.lte(0)) throw Invalid.field('lifeHours', 'The life of the machine is above 0 hours.');
  if (upkeepPerHour.lt(0)) throw Invalid.field('upkeepPerHour', 'Upkeep cannot be below 0.');
  if (powerPerHour.lt(0)) throw Invalid.field('powerPerHour', 'Power cannot be below 0.');
  return price.minus(residualValue).toDecimal().div(lifeHours).plus(upkeepPerHour).plus(powerPerHour);
};
