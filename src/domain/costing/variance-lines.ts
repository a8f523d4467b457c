import type { CurrencyCode } from '../kernel/currency.js';
import { Decimal } from '../kernel/decimal.js';
import { Money } from '../kernel/money.js';
import { roundOnce } from './round-once.js';

/**
 * So much of something at a rate: minutes at money an hour, metres at a unit cost, a base at an overhead rate.
 *
 * `amount` may stand beside or instead of the rate and is then what the line costs.
 */
export type VarianceLine = {
  readonly name: string;
  /** Only operations have one; lines match by name and mode. */
  readonly mode?: string;
  /** In the unit the rate is for (hours for a rate an hour). Negative where an extra takes work out. */
  readonly quantity: Decimal;
  readonly rate?: Decimal;
  readonly amount?: Money;
};

/** Lines of one name and mode together: their quantity, exact cost, and the rate they come to. */
export type MergedLine = {
  readonly name: string;
  readonly mode?: string;
  readonly quantity: Decimal;
  readonly exact: Decimal;
  /** Undefined where no rate was given and there is no quantity to find it from. */
  readonly rate: Decimal | undefined;
};

const exactOf = (line: VarianceLine): Decimal =>
  line.amount?.toDecimal() ?? line.quantity.times(line.rate ?? 0);

/** An amount beside a rate wins: it is what was really paid, and the rate may have been rounded. */
const rateOf = (line: VarianceLine): Decimal | undefined => {
  if (!line.amount) return line.rate;
  return line.quantity.isZero() ? undefined : line.amount.toDecimal().div(line.quantity);
};

const rateTogether = (
  one: Decimal | undefined,
  other: Decimal | undefined,
  quantity: Decimal,
  exact: Decimal,
): Decimal | undefined => {
  if (one && other && one.eq(other)) return one;
  if (!quantity.isZero()) return exact.div(quantity);
  return exact.isZero() ? (one ?? other) : undefined;
};

const merge = (so: MergedLine | undefined, line: VarianceLine): MergedLine => {
  const rate = rateOf(line);
  if (!so) {
    return { name: line.name, mode: line.mode, quantity: line.quantity, exact: exactOf(line), rate };
  }
  const quantity = so.quantity.plus(line.quantity);
  const exact = so.exact.plus(exactOf(line));
  return { ...so, quantity, exact, rate: rateTogether(so.rate, rate, quantity, exact) };
};

/** Duplicates summed, in order of first appearance; lines match by name and mode. */
export const mergeLines = (lines: readonly VarianceLine[]): Map<string, MergedLine> => {
  const merged = new Map<string, MergedLine>();
  for (const line of lines) {
    const key = JSON.stringify([line.name, line.mode ?? null]);
    merged.set(key, merge(merged.get(key), line));
  }
  return merged;
};

/** What merged lines cost together, each rounded once. */
export const costOfLines = (lines: readonly VarianceLine[], currency: CurrencyCode): Money =>
  Money.sum(
    [...mergeLines(lines).values()].map((line) => roundOnce(line.exact, currency)),
    currency,
  );

/** A difference in how much was used and one in what it cost; they add up to planned − actual exactly. */
export type SplitVariance = {
  readonly name: string;
  readonly mode?: string;
  readonly usage: Money;
  readonly rate: Money;
};

const nothing = (from: MergedLine): MergedLine => ({
  ...from,
  quantity: new Decimal(0),
  exact: new Decimal(0),
  rate: undefined,
});

/**
 * Planned against actual, line by line: usage = R(p·rp) − R(a·rp), rate = R(a·rp) − R(a·ra), favourable positive.
 *
 * A line that was never planned has the actual rate for a planned one, so that all of it is usage; a line that was not
 * done costs nothing at any rate.
 *
 * @returns one pair per line, planned lines first; each pair telescopes to R(planned) − R(actual)
 * @see Principles of Accounting, Vol. 2 (OpenStax, 2019), sections 8.2 to 8.4; test/reference/costing/variances.test.ts
 */
export const splitVariances = (
  planned: readonly VarianceLine[],
  actual: readonly VarianceLine[],
  currency: CurrencyCode,
): SplitVariance[] => {
  const plan = mergeLines(planned);
  const done = mergeLines(actual);
  const round = (exact: Decimal) => roundOnce(exact, currency);
  return [...new Set([...plan.keys(), ...done.keys()])].flatMap((key) => {
    const known = plan.get(key) ?? done.get(key);
    if (!known) return [];
    const p = plan.get(key) ?? nothing(known);
    const a = done.get(key) ?? nothing(known);
    const actualCost = round(a.exact);
    const atPlannedRate = p.rate ? round(a.quantity.times(p.rate)) : actualCost;
    return [
      {
        name: known.name,
        mode: known.mode,
        usage: round(p.exact).minus(atPlannedRate),
        rate: atPlannedRate.minus(actualCost),
      },
    ];
  });
};
