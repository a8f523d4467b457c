import type { CalendarDate } from '../../kernel/calendar-date.js';
import { Decimal } from '../../kernel/decimal.js';
import { Invalid } from '../../kernel/errors.js';
import { Money } from '../../kernel/money.js';
import type { DraftLine } from '../model/make-paper.js';
import type { EarlierInvoice, Paper } from '../model/paper.js';
import type { TaxCategory } from '../tax/category.js';

/** What an earlier invoice already asked for, in one category and rate, before tax. */
export type Deduction = {
  readonly number: string;
  readonly issued?: CalendarDate;
  readonly category: TaxCategory;
  readonly rate?: Decimal;
  readonly net: Money;
  /** Is it a credit note, whose amounts come back? Then `net` is negative. */
  readonly isCredit?: boolean;
};

/** How a deduction is named on a line, in the paper's language. */
export type DeductionWords = {
  readonly less: (number: string, issued: CalendarDate | undefined) => string;
  readonly back: (number: string, issued: CalendarDate | undefined) => string;
};

export const DEDUCTION_WORDS: DeductionWords = {
  less: (number, issued) => `Less invoice ${number}${issued ? ` of ${issued}` : ''}`,
  back: (number, issued) =>
    `Credit note ${number}${issued ? ` of ${issued}` : ''}, which no longer comes off`,
};

/**
 * What an issued invoice already asked for, by category and rate, so that a later one can take it off with its tax.
 *
 * A credit note gives back what an invoice asked for: its amounts come in negative.
 *
 * @param earlier issued: it has a number
 * @throws Invalid when it has none
 */
export const deductionsOf = (earlier: Paper): Deduction[] => {
  const number = earlier['BT-1'];
  if (!number) throw new Invalid('Only an issued invoice can be deducted: this one has no number.');
  const isCredit = earlier.kind === 'credit-note';
  return earlier['BG-23'].map((group) => ({
    number,
    issued: earlier['BT-2'],
    category: group['BT-118'],
    rate: group['BT-119'],
    net: isCredit ? group['BT-116'].negated() : group['BT-116'],
    isCredit,
  }));
};

/**
 * A deduction as a line: quantity −1 at the net already asked for, naming the earlier number.
 *
 * A price is never negative, so an earlier credit within the group comes back with quantity 1.
 */
export const deductionLine = (deduction: Deduction, words: DeductionWords = DEDUCTION_WORDS): DraftLine => ({
  name: (deduction.isCredit ? words.back : words.less)(deduction.number, deduction.issued),
  quantity: new Decimal(deduction.net.isNegative() ? 1 : -1),
  unit: 'piece',
  price: deduction.net.toDecimal().abs(),
  category: deduction.category,
  rate: deduction.rate,
});

/** The earlier invoices as a paper cites them (BG-3), each once. */
export const cited = (deductions: readonly Deduction[]): EarlierInvoice[] => [
  ...new Map(
    deductions.map(({ number, issued }) => [number, { 'BT-25': number, 'BT-26': issued }] as const),
  ).values(),
];

/** How a deposit goes over the garments as they leave. */
export type DepositTaking = 'shared' | 'first' | 'last';

/**
 * How much of a deposit each garment takes: shared by price, on the first garments until it is used up, or held to the
 * last ones.
 *
 * @param deposit net, not negative, within one category and rate
 * @param garments their nets in the order in which they leave, not negative
 * @returns one part per garment, none above its net except when the deposit is larger than all; the parts add up
 * exactly, what no garment can take stands on the last
 * @throws Invalid when there is no garment or the deposit is negative
 * @see test/domain/papers/settlement.test.ts
 */
export const takeDeposit = (deposit: Money, garments: readonly Money[], how: DepositTaking): Money[] => {
  const { currency } = deposit;
  if (garments.length === 0 || deposit.isNegative())
    throw new Invalid('A deposit is taken over at least one garment, and is not negative.');
  const weights = garments.map((net) => new Decimal(Math.max(net.minor, 0)));
  const whole = weights.reduce((sum, weight) => sum.plus(weight), new Decimal(0));
  if (how === 'shared' && !whole.isZero() && whole.greaterThanOrEqualTo(deposit.minor))
    return deposit.allocate(weights);
  const parts = garments.map(() => Money.zero(currency));
  const order = how === 'last' ? [...garments.keys()].reverse() : [...garments.keys()];
  let left = deposit;
  for (const index of order) {
    const net = garments[index] ?? Money.zero(currency);
    const part = net.isNegative() ? Money.zero(currency) : net.compare(left) < 0 ? net : left;
    parts[index] = part;
    left = left.minus(part);
  }
  const last = garments.length - 1;
  parts[last] = (parts[last] ?? Money.zero(currency)).plus(left);
  return parts;
};
