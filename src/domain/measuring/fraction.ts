import { Invalid } from '../kernel/errors.js';

/** An exact rational number in lowest terms; the denominator is above nought. A third of an inch has no decimal. */
export type Fraction = { readonly n: bigint; readonly d: bigint };

const gcd = (a: bigint, b: bigint): bigint => (b === 0n ? (a < 0n ? -a : a) : gcd(b, a % b));

/**
 * n / d in lowest terms.
 *
 * @throws Invalid when d is nought
 */
export const fraction = (n: bigint, d: bigint = 1n): Fraction => {
  if (d === 0n) throw new Invalid('Nothing can be divided by nought.');
  const sign = d < 0n ? -1n : 1n;
  const by = gcd(n, d);
  return by === 0n ? { n: 0n, d: 1n } : { n: (sign * n) / by, d: (sign * d) / by };
};

/** a + b, exact. */
export const plus = (a: Fraction, b: Fraction): Fraction => fraction(a.n * b.d + b.n * a.d, a.d * b.d);

/** a − b, exact. */
export const minus = (a: Fraction, b: Fraction): Fraction => fraction(a.n * b.d - b.n * a.d, a.d * b.d);

/** a × b, exact. */
export const times = (a: Fraction, b: Fraction): Fraction => fraction(a.n * b.n, a.d * b.d);

/** a ÷ b, exact. @throws Invalid when b is nought */
export const over = (a: Fraction, b: Fraction): Fraction => fraction(a.n * b.d, a.d * b.n);

/** −1, 0 or 1 as a is below, equal to or above b. */
export const compare = (a: Fraction, b: Fraction): -1 | 0 | 1 => {
  const difference = a.n * b.d - b.n * a.d;
  return difference < 0n ? -1 : difference > 0n ? 1 : 0;
};

/** The value without its sign. */
export const size = (a: Fraction): Fraction => (a.n < 0n ? { n: -a.n, d: a.d } : a);

const decimalPlaces = (d: bigint): number | undefined => {
  let rest = d;
  let [twos, fives] = [0, 0];
  while (rest % 2n === 0n) {
    rest /= 2n;
    twos += 1;
  }
  while (rest % 5n === 0n) {
    rest /= 5n;
    fives += 1;
  }
  return rest === 1n ? Math.max(twos, fives) : undefined;
};

/**
 * The exact value as text: a plain decimal where it ends (`977.9`), otherwise `n/d` (`2921/3`).
 *
 * @returns text that `readExact` reads back to the same value
 */
export const exactText = (value: Fraction): string => {
  const places = decimalPlaces(value.d);
  if (places === undefined) return `${value.n}/${value.d}`;
  const scaled = (size(value).n * 10n ** BigInt(places)) / value.d;
  const digits = scaled.toString().padStart(places + 1, '0');
  const whole = digits.slice(0, digits.length - places);
  return `${value.n < 0n ? '-' : ''}${whole}${places === 0 ? '' : `.${digits.slice(-places)}`}`;
};

/**
 * Reads `977.9`, `-6.35` or `2921/3`, exactly.
 *
 * @throws Invalid when the text is neither
 */
export const readExact = (text: string): Fraction => {
  const parts = /^(-?)(\d{1,30})(?:\.(\d{1,30})|\/(\d{1,30}))?$/.exec(text);
  if (!parts) throw new Invalid(`“${text.slice(0, 40)}” is not an exact number.`);
  const [, sign, whole = '0', places = '', divisor] = parts;
  const value =
    divisor === undefined
      ? fraction(BigInt(whole + places), 10n ** BigInt(places.length))
      : fraction(BigInt(whole), BigInt(divisor));
  return sign === '-' ? { n: -value.n, d: value.d } : value;
};

/**
 * The value rounded to so many decimals, half away from zero, without trailing noughts.
 *
 * @param places 0 to 12
 */
export const roundedText = (value: Fraction, places: number): string => {
  const scale = 10n ** BigInt(places);
  const doubled = (2n * size(value).n * scale) / value.d;
  const scaled = (doubled + 1n) / 2n;
  return exactText(fraction(value.n < 0n ? -scaled : scaled, scale));
};
