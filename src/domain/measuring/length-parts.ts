import { type Fraction, fraction, plus } from './fraction.js';
import { type LengthUnit, unitTyped } from './length-unit.js';
import { refused } from './reading.js';
import { quoted } from './typed-text.js';

/** One number of an entry, with the unit that follows it if there is one. */
export type LengthPart = {
  readonly value: Fraction;
  /** The number written plainly: `38 1/2`, `97.8`. */
  readonly numeral: string;
  readonly isFraction: boolean;
  readonly unit?: LengthUnit;
  /** Set where the number alone has two meanings, such as `38/2` or `1,234`. */
  readonly doubt?: { readonly sentence: string; readonly numerals: readonly string[] };
};

type Refusal = ReturnType<typeof refused>;
type Counted = Omit<LengthPart, 'unit'>;

const NUMBER = /(?:(\d+)(?: ?- ?| ))?(\d+) ?\/ ?(\d+)|(\d*)([.,])(\d+)|(\d+)/y;
const UNIT = /[^\d\s.,/+-]+\.?/y;
const MOST_DIGITS = 12;

const tape = (n: bigint, d: bigint): string =>
  n % d === 0n ? `${n / d}` : n < d ? `${n}/${d}` : `${n / d} ${n % d}/${d}`;

const readFraction = (whole: string | undefined, above: string, below: string): Counted | Refusal => {
  const [n, d] = [BigInt(above), BigInt(below)];
  const written = `${n}/${d}`;
  if (d === 0n) return refused(`${written} cannot be: nothing can be divided by nought.`);
  if (whole !== undefined && n >= d) {
    const meant = tape(BigInt(whole) * d + n, d);
    return refused(`${written} is ${n === d ? 'a whole one' : 'more than one'}; did you mean ${meant}?`);
  }
  const value = plus(fraction(BigInt(whole ?? 0)), fraction(n, d));
  if (whole !== undefined) return { value, numeral: `${BigInt(whole)} ${written}`, isFraction: true };
  if (n < d || n === 0n) return { value, numeral: written, isFraction: true };
  const numerals = [tape(n, d), `${n} 1/${d}`];
  const sentence = `${written} can be read two ways: ${numerals.join(', or ')}?`;
  return { value, numeral: numerals[0] ?? written, isFraction: true, doubt: { sentence, numerals } };
};

const readPlain = (whole: string, mark: string, places: string): Counted => {
  const value = fraction(BigInt(whole + places), 10n ** BigInt(places.length));
  const start = `${BigInt(whole === '' ? '0' : whole)}`;
  const numeral = places === '' ? start : `${start}.${places}`;
  const mayGroup = mark === ',' && places.length === 3 && /^[1-9]\d{0,2}$/.test(whole);
  if (!mayGroup) return { value, numeral, isFraction: false };
  const numerals = [numeral, `${whole}${places}`];
  const sentence = `${whole},${places} can be read two ways: ${numerals.join(', or ')}?`;
  return { value, numeral, isFraction: false, doubt: { sentence, numerals } };
};

const readNumber = (parts: RegExpExecArray): Counted | Refusal => {
  const [all, whole, above, below, before = '', mark = '', places = '', plain] = parts;
  if ([whole, above, below, before, places, plain].some((run) => (run?.length ?? 0) > MOST_DIGITS)) {
    return refused(`${quoted(all)} has too many digits for a measurement.`);
  }
  if (above !== undefined && below !== undefined) return readFraction(whole, above, below);
  return readPlain(plain ?? before, mark, places);
};

const at = (pattern: RegExp, text: string, from: number): RegExpExecArray | null => {
  pattern.lastIndex = from;
  return pattern.exec(text);
};

const skipped = (pattern: RegExp, text: string, from: number): number =>
  from + (at(pattern, text, from)?.[0].length ?? 0);

/**
 * Takes an entry apart into its numbers and units: `3'2 1/2"` is three feet and two and a half inches.
 *
 * @param text folded text (see `foldTyped`), without sign and without the tailor's note
 * @returns the parts in the order typed, at least one, or a refusal that names what was not understood
 */
export const lengthParts = (text: string): readonly LengthPart[] | Refusal => {
  const parts: LengthPart[] = [];
  let from = 0;
  while (from < text.length) {
    const found = at(NUMBER, text, from);
    if (!found) {
      const left = quoted(text.slice(from));
      return refused(`${left} was not understood. Write it in figures, like 38 1/2 in or 97.8 cm.`);
    }
    const number = readNumber(found);
    if ('kind' in number) return number;
    from = skipped(/ */y, text, from + found[0].length);
    const word = at(UNIT, text, from)?.[0];
    const unit = word === undefined ? undefined : unitTyped(word.replace(/\.$/, ''));
    if (word !== undefined && !unit) {
      return refused(`${quoted(word)} was not understood. A length is in cm, mm, m, in, ft or yd.`);
    }
    parts.push(unit ? { ...number, unit } : number);
    from = skipped(/,? */y, text, from + (word?.length ?? 0));
  }
  return parts;
};
