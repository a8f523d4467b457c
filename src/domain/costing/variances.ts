import type { CurrencyCode } from '../kernel/currency.js';
import { Decimal } from '../kernel/decimal.js';
import { Money } from '../kernel/money.js';
import { costOfLines, splitVariances, type VarianceLine } from './variance-lines.js';

/** Time at money an hour; `minutes` may be decimal, negative where an extra takes work out. */
export type TimedLine = {
  readonly name: string;
  readonly mode?: string;
  readonly minutes: Decimal;
  readonly perHour?: Decimal;
  readonly amount?: Money;
};
export type MaterialUse = {
  readonly name: string;
  /** Waste included. */
  readonly quantity: Decimal;
  readonly unitCost?: Decimal;
  readonly amount?: Money;
};
export type OverheadUse = {
  readonly name: string;
  readonly baseQuantity: Decimal;
  readonly rate?: Decimal;
  readonly amount?: Money;
};

/** The work behind a price: planned, actual, or of one extra. Materials at book cost. */
export type JobWork = {
  readonly operations?: readonly TimedLine[];
  readonly machine?: readonly TimedLine[];
  readonly materials?: readonly MaterialUse[];
  readonly overhead?: readonly OverheadUse[];
  readonly expenses?: readonly { readonly name: string; readonly amount: Money }[];
};
export type PricedWork = JobWork & { readonly price: Money };

/** An agreed departure from the plan: charged at a price, or with our compliments (its price is then nought). */
export type AgreedExtra = JobWork & {
  readonly name?: string;
  readonly kind: 'charged' | 'compliments';
  readonly price?: Money;
};

export const VARIANCE_KINDS = [
  'labour-efficiency',
  'labour-rate',
  'machine-efficiency',
  'machine-rate',
  'material-usage',
  'material-price',
  'overhead-efficiency',
  'overhead-spending',
  'expenses',
  'extras',
  'price',
] as const;
export type VarianceKind = (typeof VARIANCE_KINDS)[number];

export type Variance = {
  readonly kind: VarianceKind;
  readonly name: string;
  readonly mode?: string;
  /** Favourable positive. */
  readonly amount: Money;
};

export type Variances = {
  readonly variances: readonly Variance[];
  readonly plannedProfit: Money;
  readonly actualProfit: Money;
  readonly sum: Money;
};

const SECTIONS = ['operations', 'machine', 'materials', 'overhead', 'expenses'] as const;
type Section = (typeof SECTIONS)[number];

const timed = (lines: readonly TimedLine[] = []): VarianceLine[] =>
  lines.map(({ name, mode, minutes, perHour, amount }) => ({
    name,
    mode,
    quantity: minutes,
    rate: perHour?.div(60),
    amount,
  }));

const LINES: Readonly<Record<Section, (work: JobWork) => VarianceLine[]>> = {
  operations: (work) => timed(work.operations),
  machine: (work) => timed(work.machine),
  materials: (work) =>
    (work.materials ?? []).map(({ name, quantity, unitCost, amount }) => ({
      name,
      quantity,
      rate: unitCost,
      amount,
    })),
  overhead: (work) =>
    (work.overhead ?? []).map(({ name, baseQuantity, rate, amount }) => ({
      name,
      quantity: baseQuantity,
      rate,
      amount,
    })),
  expenses: (work) =>
    (work.expenses ?? []).map(({ name, amount }) => ({ name, quantity: new Decimal(0), amount })),
};

const KINDS: Readonly<Record<Exclude<Section, 'expenses'>, { usage: VarianceKind; rate: VarianceKind }>> = {
  operations: { usage: 'labour-efficiency', rate: 'labour-rate' },
  machine: { usage: 'machine-efficiency', rate: 'machine-rate' },
  materials: { usage: 'material-usage', rate: 'material-price' },
  overhead: { usage: 'overhead-efficiency', rate: 'overhead-spending' },
};

/** What pieces of work cost together: lines merged by name and mode, each rounded once. */
const costTogether = (works: readonly JobWork[], currency: CurrencyCode): Money =>
  Money.sum(
    SECTIONS.map((section) => costOfLines(works.flatMap(LINES[section]), currency)),
    currency,
  );

const ofSection = (
  section: Section,
  agreed: readonly JobWork[],
  actual: JobWork,
  currency: CurrencyCode,
): Variance[] =>
  splitVariances(agreed.flatMap(LINES[section]), LINES[section](actual), currency).flatMap(
    (split): Variance[] => {
      const { name, mode } = split;
      if (section === 'expenses') {
        return [{ kind: section, name, mode, amount: split.usage.plus(split.rate) }];
      }
      const kinds = KINDS[section];
      return [
        { kind: kinds.usage, name, mode, amount: split.usage },
        { kind: kinds.rate, name, mode, amount: split.rate },
      ];
    },
  );

/**
 * Why a job did not earn what was quoted: every minor unit between the quoted and the actual profit, by cause.
 *
 * Efficiency or usage = R(p·rp) − R(a·rp), rate or price = R(a·rp) − R(a·ra), measured against the agreed plan (quote +
 * all extras); extras = charged price − what the extra adds to the cost of the agreed plan; price = actual price −
 * quoted price − charged extras. So quoted profit + Σ variances = actual profit, always.
 *
 * @param planned the quoted plan and price
 * @param actual what was done, the work of the extras included, and the price with theirs
 * @param extras agreed departures; work taken out has negative quantities
 * @returns favourable positive, each rounded half away from zero; sum = actual profit − planned profit exactly
 * @see Principles of Accounting, Vol. 2 (OpenStax, 2019), chapter 8; test/reference/costing/variances.test.ts;
 *   test/properties/costing.test.ts
 */
export const variancesOf = (
  currency: CurrencyCode,
  planned: PricedWork,
  actual: PricedWork,
  extras: readonly AgreedExtra[] = [],
): Variances => {
  const charged = extras.map((extra) =>
    extra.kind === 'charged' ? (extra.price ?? Money.zero(currency)) : Money.zero(currency),
  );
  const agreed: readonly JobWork[] = [planned, ...extras];
  const costUpTo = agreed.map((_, index) => costTogether(agreed.slice(0, index + 1), currency));
  const quotedCost = costTogether([planned], currency);
  const actualCost = costTogether([actual], currency);
  const ofExtras = extras.map((extra, index): Variance => {
    const before = costUpTo[index] ?? quotedCost;
    const after = costUpTo[index + 1] ?? before;
    const price = charged[index] ?? Money.zero(currency);
    return {
      kind: 'extras',
      name: extra.name ?? `extra ${index + 1}`,
      amount: price.minus(after.minus(before)),
    };
  });
  const variances: Variance[] = [
    ...SECTIONS.flatMap((section) => ofSection(section, agreed, actual, currency)),
    ...ofExtras,
    {
      kind: 'price',
      name: 'price',
      amount: actual.price.minus(planned.price).minus(Money.sum(charged, currency)),
    },
  ];
  return {
    variances,
    plannedProfit: planned.price.minus(quotedCost),
    actualProfit: actual.price.minus(actualCost),
    sum: Money.sum(
      variances.map((variance) => variance.amount),
      currency,
    ),
  };
};
