import { Decimal } from './decimal.js';
import { Invalid } from './errors.js';

/** What cloth, thread and trimmings are counted in. Codes are UN/ECE Recommendation 20. */
export const QUANTITY_UNITS = {
  m: { words: 'metres', rec20: 'MTR' },
  yd: { words: 'yards', rec20: 'YRD' },
  m2: { words: 'square metres', rec20: 'MTK' },
  piece: { words: 'pieces', rec20: 'C62' },
  pair: { words: 'pairs', rec20: 'PR' },
  set: { words: 'sets', rec20: 'SET' },
  g: { words: 'grams', rec20: 'GRM' },
  kg: { words: 'kilograms', rec20: 'KGM' },
  hour: { words: 'hours', rec20: 'HUR' },
} as const;

export type QuantityUnit = keyof typeof QUANTITY_UNITS;

/** So many of one unit; unlike units refuse to add. */
export class Quantity {
  constructor(
    readonly amount: Decimal,
    readonly unit: QuantityUnit,
  ) {}

  plus(other: Quantity): Quantity {
    this.mustMatch(other);
    return new Quantity(this.amount.plus(other.amount), this.unit);
  }

  minus(other: Quantity): Quantity {
    this.mustMatch(other);
    return new Quantity(this.amount.minus(other.amount), this.unit);
  }

  isNegative(): boolean {
    return this.amount.isNegative() && !this.amount.isZero();
  }

  toString(): string {
    return `${this.amount.toFixed()} ${this.unit}`;
  }

  private mustMatch(other: Quantity): void {
    if (other.unit !== this.unit) {
      throw new Invalid(
        `${QUANTITY_UNITS[this.unit].words} and ${QUANTITY_UNITS[other.unit].words} cannot be added.`,
      );
    }
  }
}

/** Metres in a yard: exact by the international yard and pound agreement, 1959. */
export const METRES_PER_YARD: Decimal = new Decimal('0.9144');

/**
 * An amount in another unit; yards and metres turn into each other, nothing else does.
 *
 * @returns metres exact, yards to four decimals; undefined where the units have nothing to do with each other
 */
export const amountIn = (amount: Decimal, unit: QuantityUnit, wanted: QuantityUnit): Decimal | undefined => {
  if (unit === wanted) return amount;
  if (unit === 'yd' && wanted === 'm') return amount.times(METRES_PER_YARD);
  return unit === 'm' && wanted === 'yd' ? amount.div(METRES_PER_YARD).toDecimalPlaces(4) : undefined;
};
