import { Decimal } from './decimal.js';
import { OutOfRange } from './errors.js';

/** Time worked: a whole number of minutes. */
export type Minutes = number;

/**
 * Whole minutes out of a decimal number of minutes, rounded half away from zero.
 *
 * @throws OutOfRange when it is not finite or beyond a safe integer
 */
export const wholeMinutes = (minutes: Decimal): Minutes => {
  const whole = minutes.toDecimalPlaces(0, Decimal.ROUND_HALF_UP).toNumber();
  if (!Number.isSafeInteger(whole)) throw new OutOfRange('This time is too long to keep exactly.');
  return whole === 0 ? 0 : whole;
};

/** Hours as an exact decimal. @param minutes any finite number of minutes */
export const hoursOf = (minutes: Decimal | number): Decimal => new Decimal(minutes).div(60);

/** Minutes of a decimal number of hours, unrounded. */
export const minutesOfHours = (hours: Decimal): Decimal => hours.times(60);
