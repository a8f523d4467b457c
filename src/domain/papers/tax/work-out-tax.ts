import { Invalid, Trouble } from '../../kernel/errors.js';
import { Money } from '../../kernel/money.js';
import { lineNet } from './line-net.js';
import { netOfGrossKept } from './net-of-gross.js';
import { spreadDiscount } from './spread-discount.js';
import { countedOf, rateOf, taxGroups } from './tax-groups.js';
import type { NetAmount, NetLine, TaxAnswer, TaxQuestion } from './tax-question.js';

/** A question answered down to net amounts, before groups and totals. */
export type Netted = {
  readonly lines: readonly NetLine[];
  readonly allowances: readonly NetAmount[];
  readonly charges: readonly NetAmount[];
  /** What was promised with tax in all; only when prices are kept with tax. */
  readonly promised?: Money;
};

const at = <T>(place: string, work: () => T): T => {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof Trouble)) throw error;
    const fields = error.fields.length > 0 ? error.fields : [{ field: '', text: error.message }];
    throw new Invalid(
      error.message,
      fields.map(({ field, text }) => ({ field: field ? `${place}.${field}` : place, text })),
      error.code,
    );
  }
};

const check = (question: TaxQuestion): Money[] => {
  const nets = question.lines.map((line, index) =>
    at(`lines.${index}`, () => {
      rateOf(line);
      return lineNet(line, question.currency);
    }),
  );
  question.allowances?.forEach((each, index) => {
    at(`allowances.${index}`, () => rateOf(each));
  });
  question.charges?.forEach((each, index) => {
    at(`charges.${index}`, () => rateOf(each));
  });
  return nets;
};

const withSpreadDiscount = (question: TaxQuestion, nets: readonly Money[]): TaxQuestion => {
  if (!question.spreadDiscount || question.spreadDiscount.isZero()) return question;
  const groups = taxGroups(countedOf(question, nets), question.currency);
  const parts = spreadDiscount(
    question.spreadDiscount,
    groups.map((group) => group.base),
  );
  const spread = groups.map(({ category, rate }, index) => ({
    category,
    rate,
    amount: parts[index] ?? Money.zero(question.currency),
  }));
  return {
    ...question,
    allowances: [...(question.allowances ?? []), ...spread.filter((part) => !part.amount.isZero())],
  };
};

const netKept = (question: TaxQuestion, nets: readonly Money[], given: number): Netted => ({
  lines: question.lines.map((line, index) => ({
    net: nets[index] ?? Money.zero(question.currency),
    price: line.price,
    allowances: line.allowances ?? [],
    charges: line.charges ?? [],
  })),
  allowances: (question.allowances ?? []).map((each, index) => ({
    ...each,
    rate: rateOf(each),
    spread: index >= given,
  })),
  charges: (question.charges ?? []).map((each) => ({ ...each, rate: rateOf(each), spread: false })),
});

/**
 * Works a paper's tax out: line nets, groups by category and rate, and the totals BT-106 to BT-115.
 *
 * BT-131 = round(quantity × price ÷ base quantity) − allowances + charges; BT-116 = Σ lines − allowances + charges of the
 * group; BT-117 = round(BT-116 × rate ÷ 100) once per group; BT-109 = 106 − 107 + 108; BT-112 = 109 + 110;
 * BT-115 = 112 − 113 + 114. A discount on the whole becomes one allowance per group. Prices kept with tax are turned into
 * nets whose gross is within one minor unit per group of the promise; what is missing goes to BT-114 (`rounding`) or is
 * left in `unreached` for the page to state (`cent`).
 *
 * @param question amounts of one currency; rates in per cent from 0 to 100
 * @returns whole minor units, every product rounded half away from zero, sums never rounded again
 * @throws Invalid with the path of the field (`lines.2.price`, `spreadDiscount`) that cannot be meant
 * @see EN 16931-1, BR-CO-10 to BR-CO-17; test/reference/papers/official-examples.test.ts
 */
export const workOutTax = (question: TaxQuestion): TaxAnswer => {
  const { currency } = question;
  const amounts = check(question);
  const whole = withSpreadDiscount(question, amounts);
  const given = question.allowances?.length ?? 0;
  const netted =
    question.pricesInclude === 'tax' ? netOfGrossKept(whole, amounts, given) : netKept(whole, amounts, given);

  const groups = taxGroups(
    countedOf(
      { ...whole, allowances: netted.allowances, charges: netted.charges },
      netted.lines.map((line) => line.net),
    ),
    currency,
  );
  const sum = (all: readonly Money[]): Money => Money.sum(all, currency);
  const lines = sum(netted.lines.map((line) => line.net));
  const allowances = sum(netted.allowances.map((each) => each.amount));
  const charges = sum(netted.charges.map((each) => each.amount));
  const net = lines.minus(allowances).plus(charges);
  const tax = sum(groups.map((group) => group.tax));
  const gross = net.plus(tax);
  const unreached = (netted.promised ?? gross).minus(gross);
  const prepaid = question.prepaid ?? Money.zero(currency);
  const asked = question.rounding ?? Money.zero(currency);
  const rounding = question.grossPolicy === 'cent' ? asked : asked.plus(unreached);
  return {
    lines: netted.lines,
    allowances: netted.allowances,
    charges: netted.charges,
    groups,
    unreached,
    'BT-106': lines,
    'BT-107': allowances,
    'BT-108': charges,
    'BT-109': net,
    'BT-110': tax,
    'BT-112': gross,
    'BT-113': prepaid,
    'BT-114': rounding,
    'BT-115': gross.minus(prepaid).plus(rounding),
  };
};
