import { exponentOf } from '../../domain/kernel/currency.js';
import { Trouble } from '../../domain/kernel/errors.js';
import { Money } from '../../domain/kernel/money.js';
import { foldTyped, quoted } from '../../domain/measuring/typed-text.js';
import { type DecimalSign, decimalSignOf, numeralText, readNumeral } from './numeral.js';
import { asked, nothingTyped, type Reading, refused, understood } from './reading.js';

/** How a studio writes money. */
export type MoneyManner = { readonly currency: string; readonly locale: string };

const MOST_FIGURES = 12;
const FORMATS = new Map<string, Intl.NumberFormat>();
const AMOUNT = /^([^\d.,'\s]*) ?([\d., ']*\d) ?([^\d.,'\s]*)$/;

const formatOf = ({ currency, locale }: MoneyManner, display: 'symbol' | 'narrowSymbol' | 'none') => {
  const key = `${locale} ${currency} ${display}`;
  const places = exponentOf(currency);
  const kept = FORMATS.get(key);
  if (kept) return kept;
  const digits = { minimumFractionDigits: places, maximumFractionDigits: places };
  const made = new Intl.NumberFormat(
    locale,
    display === 'none' ? digits : { style: 'currency', currency, currencyDisplay: display, ...digits },
  );
  FORMATS.set(key, made);
  return made;
};

const marksOf = (manner: MoneyManner): readonly string[] =>
  ['symbol' as const, 'narrowSymbol' as const]
    .map((display) => formatOf(manner, display).formatToParts(0))
    .flatMap((parts) =>
      parts.filter(({ type }) => type === 'currency').map(({ value }) => value.toLowerCase()),
    )
    .concat(manner.currency.toLowerCase());

const example = (sign: DecimalSign, places: number): string =>
  places === 0 ? '1234' : `1234${sign}${'50'.padEnd(places, '0').slice(0, places)}`;

/**
 * Reads an amount of money: `1,234.50`, `1234.5`, `£1234.50`, `1234.50 GBP`; `1.234,50` where the locale writes it so, and
 * a question where it does not.
 *
 * @param manner the studio's currency and locale
 * @param options `mayBeNegative` for corrections
 * @returns money exact to the minor unit; at most twelve figures before the decimals
 * @see test/web/words/amounts.test.ts
 */
export const readMoney = (
  typed: string,
  manner: MoneyManner,
  options: { readonly mayBeNegative?: boolean } = {},
): Reading<Money> => {
  const text = foldTyped(typed);
  if (text === '') return nothingTyped;
  const [places, sign] = [exponentOf(manner.currency), decimalSignOf(manner.locale)];
  const help = `Write it like ${example(sign, places)}.`;
  if (text.length > 40) return refused(`This is too long for an amount. ${help}`);
  const isNegative = text.startsWith('-');
  if (isNegative && !options.mayBeNegative) return refused('An amount here cannot be less than nought.');
  const [, before = '', figures = '', after = ''] =
    AMOUNT.exec(isNegative ? text.slice(1).trim() : text) ?? [];
  const marks = [before, after].filter((mark) => mark !== '');
  if (figures === '' || marks.length > 1) return refused(`${quoted(typed)} is not an amount. ${help}`);
  if (marks.some((mark) => !marksOf(manner).includes(mark)))
    return refused(
      `${quoted(marks[0] ?? '')} is not understood here: amounts are in ${manner.currency}. ${help}`,
    );
  const numeral = readNumeral(figures, sign);
  if (!numeral) return refused(`${quoted(typed)} is not an amount. ${help}`);
  const { value } = numeral;
  if (value.truncated().toFixed().length > MOST_FIGURES)
    return refused(`${quoted(typed)} is too large: at most ${MOST_FIGURES} figures before the decimals.`);
  const text2 = (amount: typeof value) => `${isNegative ? '-' : ''}${numeralText(amount, sign, places)}`;
  if (value.decimalPlaces() > places) {
    const grouped = /^[1-9]\d{0,2}[.,]\d{3}$/.test(figures) ? text2(value.times(1000)) : undefined;
    const few = places === 0 ? 'no decimals' : `${places} decimals`;
    if (grouped === undefined) return refused(`${manner.currency} has ${few}. ${help}`);
    return asked(`${manner.currency} has ${few}: did you mean ${grouped}?`, [
      { words: grouped, typed: grouped },
    ]);
  }
  if (!numeral.isSure)
    return asked(`Did you mean ${text2(value)}?`, [{ words: text2(value), typed: text2(value) }]);
  try {
    return understood(Money.rounded(isNegative ? value.negated() : value, manner.currency));
  } catch (trouble) {
    if (trouble instanceof Trouble) return refused(trouble.message);
    throw trouble;
  }
};

type Numeric = Parameters<Intl.NumberFormat['format']>[0];
const written = (money: Money, locale: string, display: 'symbol' | 'none'): string =>
  formatOf({ currency: money.currency, locale }, display)
    .format(money.toString() as Numeric)
    .replace('-', '−')
    .replace(/[\u00a0\u202f]/g, ' ');

/** Money in the studio's manner with its currency: `£1,234.50`. */
export const moneyInWords = (money: Money, locale: string): string => written(money, locale, 'symbol');

/** Money without its currency, for a column that names it once: `1,234.50`. */
export const amountInWords = (money: Money, locale: string): string => written(money, locale, 'none');

/** Money as a field takes it back without a question: `1234.50`, or `1234,50` where the locale writes so. */
export const moneyForField = (money: Money, locale: string): string =>
  numeralText(money.toDecimal(), decimalSignOf(locale), exponentOf(money.currency));
