import type { CurrencyCode } from '../kernel/currency.js';
import type { Decimal } from '../kernel/decimal.js';
import { Money } from '../kernel/money.js';

/**
 * Rounds a worked-out amount once, half away from zero, free of the residue of a division.
 *
 * 20 minutes at 22.605 an hour are 7.535 exactly, but a third has no end: without cutting what lies beyond the twentieth
 * decimal the product falls just short of the half and a minor unit is lost.
 *
 * @param exact amount in major units
 * @returns money, half away from zero
 * @see test/domain/costing/cost-sheet.test.ts
 */
export const roundOnce = (exact: Decimal, currency: CurrencyCode): Money =>
  Money.rounded(exact.toDecimalPlaces(20), currency);
