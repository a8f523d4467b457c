import { type CurrencyCode, exponentOf } from './currency.js';
import { Decimal, type Rounding, readDecimal } from './decimal.js';
import { Invalid, OutOfRange } from './errors.js';
import { shareByLargestRemainder } from './sharing.js';

/** Minor units in a major one, by the decimals of the currency (0 to 4): a power worked out once, not for each amount. */
const MINOR_IN_MAJOR = [0, 1, 2, 3, 4].map((decimals) => new Decimal(10).pow(decimals));
const minorInMajor = (currency: CurrencyCode): Decimal => MINOR_IN_MAJOR[exponentOf(currency)] as Decimal;

/**
 * An amount of money: whole minor units of one currency. Adding never rounds; every product names its rounding.
 *
 * The range is that of safe integers, so that an amount survives JSON and SQLite unchanged.
 */
export class Money {
  private constructor(
    /** Whole minor units, signed. */
    readonly minor: number,
    readonly currency: CurrencyCode,
  ) {}

  /** @throws OutOfRange beyond 2^53 - 1 minor units or when not whole */
  static ofMinor(minor: number, currency: CurrencyCode): Money {
    if (!Number.isSafeInteger(minor))
      throw new OutOfRange('This amount of money is too large to keep exactly.');
    return new Money(minor === 0 ? 0 : minor, currency);
  }

  static zero(currency: CurrencyCode): Money {
    return new Money(0, currency);
  }

  /**
   * Reads a plain amount such as `31.50` or `-4`, exactly.
   *
   * @throws Invalid when it is no plain numeral or has more decimals than the currency
   */
  static parse(text: string, currency: CurrencyCode): Money {
    const value = readDecimal(text);
    if (!value) throw new Invalid(`“${text.slice(0, 40)}” is not an amount. Write it like 31.50.`);
    if (value.decimalPlaces() > exponentOf(currency)) {
      throw new Invalid(`${currency} has ${exponentOf(currency)} decimals; “${text}” has more.`);
    }
    return Money.rounded(value, currency);
  }

  /** Major units rounded half away from zero to the minor unit. */
  static rounded(major: Decimal, currency: CurrencyCode): Money {
    return Money.fromScaled(major, currency, Decimal.ROUND_HALF_UP);
  }

  /** Major units rounded up (towards plus infinity) to the next minor unit. */
  static roundedUp(major: Decimal, currency: CurrencyCode): Money {
    return Money.fromScaled(major, currency, Decimal.ROUND_CEIL);
  }

  private static fromScaled(major: Decimal, currency: CurrencyCode, rounding: Rounding): Money {
    if (!major.isFinite()) throw new OutOfRange('This amount of money is not a number.');
    const scaled = major.times(minorInMajor(currency)).toDecimalPlaces(0, rounding);
    return Money.ofMinor(scaled.toNumber(), currency);
  }

  /** Σ amounts; nought when there are none. */
  static sum(amounts: Iterable<Money>, currency: CurrencyCode): Money {
    let total = Money.zero(currency);
    for (const amount of amounts) total = total.plus(amount);
    return total;
  }

  plus(other: Money): Money {
    this.mustMatch(other);
    return Money.ofMinor(this.minor + other.minor, this.currency);
  }

  minus(other: Money): Money {
    this.mustMatch(other);
    return Money.ofMinor(this.minor - other.minor, this.currency);
  }

  negated(): Money {
    return Money.ofMinor(-this.minor, this.currency);
  }

  /** amount × factor, rounded half away from zero. */
  timesRounded(factor: Decimal): Money {
    return Money.rounded(this.toDecimal().times(factor), this.currency);
  }

  /**
   * Shared over the weights so that the parts add up exactly (largest remainder; ties go to the first).
   *
   * @throws OutOfRange when a weight is negative or all are nought
   */
  allocate(weights: readonly Decimal[]): Money[] {
    return shareByLargestRemainder(this.minor, weights).map((minor) => Money.ofMinor(minor, this.currency));
  }

  /** Major units, exact. */
  toDecimal(): Decimal {
    return new Decimal(this.minor).div(minorInMajor(this.currency));
  }

  /** Plain numeral with the currency's decimals, as in JSON: `31.50`. */
  toString(): string {
    return this.toDecimal().toFixed(exponentOf(this.currency));
  }

  toJSON(): string {
    return this.toString();
  }

  compare(other: Money): number {
    this.mustMatch(other);
    return Math.sign(this.minor - other.minor);
  }

  equals(other: Money): boolean {
    return this.currency === other.currency && this.minor === other.minor;
  }

  isZero(): boolean {
    return this.minor === 0;
  }

  isNegative(): boolean {
    return this.minor < 0;
  }

  private mustMatch(other: Money): void {
    if (other.currency !== this.currency) {
      throw new Invalid(`${this.currency} and ${other.currency} cannot be added or compared.`);
    }
  }
}
