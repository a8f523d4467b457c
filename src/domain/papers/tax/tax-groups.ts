import type { CurrencyCode } from '../../kernel/currency.js';
import { Decimal } from '../../kernel/decimal.js';
import { Invalid, OutOfRange } from '../../kernel/errors.js';
import { Money } from '../../kernel/money.js';
import { TAX_CATEGORIES, type TaxCategory } from './category.js';
import type { TaxGroup, TaxQuestion } from './tax-question.js';

/** Something with a category and perhaps a rate. */
export type Rated = { readonly category: TaxCategory; readonly rate?: Decimal };

/**
 * The rate in per cent; a missing one is 0 for every category that charges no tax.
 *
 * @throws Invalid when a taxed category has no rate; OutOfRange when the rate is below 0 or above 100
 */
export const rateOf = ({ category, rate }: Rated): Decimal => {
  if (rate === undefined) {
    if (TAX_CATEGORIES[category].taxed)
      throw Invalid.field('rate', `Category ${category} needs a tax rate in per cent.`);
    return new Decimal(0);
  }
  if (rate.lessThan(0) || rate.greaterThan(100) || !rate.isFinite())
    throw new OutOfRange('A tax rate lies between 0 and 100 per cent.', [
      { field: 'rate', text: 'A tax rate lies between 0 and 100 per cent.' },
    ]);
  return rate;
};

/** One name per group: category and rate, so that 21 and 21.0 are one. */
export const groupName = (rated: Rated): string => `${rated.category} ${rateOf(rated).toFixed()}`;

/**
 * The tax of one group, BT-117 = round(base × rate ÷ 100), once per group; 0 for E, Z, O, AE, G and K.
 *
 * @param base BT-116, signed
 * @param rated the group's category and its rate in per cent
 * @returns whole minor units, half away from zero
 * @see EN 16931-1 BR-CO-17, BR-S-09, BR-E-09, BR-Z-09, BR-O-09; test/reference/papers/rule-vectors.test.ts
 */
export const groupTax = (base: Money, rated: Rated): Money =>
  TAX_CATEGORIES[rated.category].taxed
    ? base.timesRounded(rateOf(rated).div(100))
    : Money.zero(base.currency);

/** Amounts that count towards groups: signed, a document allowance comes in negative. */
export type Counted = Rated & { readonly amount: Money };

/**
 * Adds signed amounts up by category and rate and works the tax out once per group.
 *
 * @param counted lines, allowances (negative) and charges, in the order in which groups shall appear
 * @returns one group per category and rate, in order of first appearance
 * @see EN 16931-1 BR-S-08, BR-E-08, BR-Z-08, BR-O-08, BR-AE-08, BR-G-08, BR-IC-08
 */
export const taxGroups = (counted: readonly Counted[], currency: CurrencyCode): TaxGroup[] => {
  const sums = new Map<string, { category: TaxCategory; rate: Decimal; base: Money }>();
  for (const each of counted) {
    const name = groupName(each);
    const sum = sums.get(name) ?? { category: each.category, rate: rateOf(each), base: Money.zero(currency) };
    sums.set(name, { ...sum, base: sum.base.plus(each.amount) });
  }
  return [...sums.values()].map((group) => ({ ...group, tax: groupTax(group.base, group) }));
};

/** The signed amounts that make the groups: lines, then allowances taken off, then charges. */
export const countedOf = (question: TaxQuestion, lines: readonly Money[]): Counted[] => [
  ...question.lines.map(({ category, rate }, index) => ({
    category,
    rate,
    amount: lines[index] ?? Money.zero(question.currency),
  })),
  ...(question.allowances ?? []).map((each) => ({ ...each, amount: each.amount.negated() })),
  ...(question.charges ?? []),
];
