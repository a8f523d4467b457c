import type { WorkedMinutes } from '../bench/worked.js';
import type { CostColumn } from '../commissions/landing/columns.js';
import type { Cause } from '../costing/causes.js';
import { CAUSES } from '../costing/causes.js';
import {
  type AgreedExtra,
  type JobWork,
  type PricedWork,
  type Variance,
  type Variances,
  variancesOf,
} from '../costing/variances.js';
import { Decimal } from '../kernel/decimal.js';
import type { Minutes } from '../kernel/minutes.js';
import { Money } from '../kernel/money.js';
import { MODES, type Mode } from '../making/mode.js';
import { priceFromMargin } from '../pricing/margin.js';
import { earnedPerHour } from '../pricing/work-out-price.js';
import { KEPT_BACK, MENDING } from './quoted-work.js';

/** The steps of the bridge from the quoted to the actual profit, in their order. */
export const BRIDGE_STEPS = [
  'extras-charged',
  'extras-given',
  'own-error',
  'kept-back',
  'labour-efficiency',
  'labour-rate',
  'material-price',
  'material-usage',
  'machine',
  'overhead',
  'expenses',
  'price',
] as const;
export type BridgeStep = (typeof BRIDGE_STEPS)[number];

/** The steps in words. */
export const BRIDGE_WORDS: Readonly<Record<BridgeStep, string>> = {
  'extras-charged': 'extras that were charged',
  'extras-given': 'extras with our compliments',
  'own-error': 'own error, against what mending was planned',
  'kept-back': 'kept back for the unexpected',
  'labour-efficiency': 'hours against the plan',
  'labour-rate': 'what an hour cost',
  'material-price': 'what materials cost',
  'material-usage': 'how much material went in',
  machine: 'the machine',
  overhead: 'overhead',
  expenses: 'expenses',
  price: 'the price asked in the end',
};

export type Bridge = readonly { readonly step: BridgeStep; readonly amount: Money }[];

/** One operation against its plan, in one mode. */
export type OperationReckoned = {
  readonly name: string;
  readonly mode: string;
  readonly planned: Decimal;
  readonly actual: Decimal;
  /** Favourable positive: efficiency and rate together. */
  readonly amount: Money;
};

/** Everything between the quoted and the actual profit of one garment, or of a commission. */
export type Reckoning = {
  readonly price: Money;
  readonly quotedPrice: Money;
  readonly quotedProfit: Money;
  readonly actualProfit: Money;
  readonly bridge: Bridge;
  readonly column: CostColumn;
  readonly variances: readonly Variance[];
  /** Worst first. */
  readonly operations: readonly OperationReckoned[];
  readonly byMode: readonly { readonly mode: Mode; readonly planned: Decimal; readonly actual: Decimal }[];
  readonly byCause: readonly { readonly cause: Cause; readonly minutes: Minutes }[];
  /** What the hour earned: (profit + labour) / hours; null at no hours. */
  readonly earnedPerHour: Money | null;
  readonly quotedPerHour: Money | null;
  /** The price that would have left the quoted margin; the cost where no margin was quoted. */
  readonly shouldHaveCharged: Money;
};

const MACHINE_KINDS = ['machine-efficiency', 'machine-rate'];
const OVERHEAD_KINDS = ['overhead-efficiency', 'overhead-spending'];

const stepOf = ({ kind, name }: Variance, given: ReadonlySet<string>): BridgeStep => {
  if (kind === 'extras') return given.has(name) ? 'extras-given' : 'extras-charged';
  if (MACHINE_KINDS.includes(kind)) return 'machine';
  if (OVERHEAD_KINDS.includes(kind)) return 'overhead';
  if (kind === 'labour-efficiency' && name === MENDING) return 'own-error';
  if (kind === 'labour-efficiency' && name === KEPT_BACK) return 'kept-back';
  return kind as BridgeStep;
};

/**
 * The bridge: every variance in exactly one step, so that quoted profit + Σ steps = actual profit.
 *
 * @returns all steps in their order, those at nought included
 * @see test/domain/reckoning/reckon.test.ts
 */
export const bridgeOf = (
  variances: readonly Variance[],
  extras: readonly AgreedExtra[],
  currency: string,
): Bridge => {
  const given = new Set(extras.flatMap(({ kind, name }) => (kind === 'compliments' && name ? [name] : [])));
  const amounts = new Map<BridgeStep, Money>();
  for (const variance of variances) {
    const step = stepOf(variance, given);
    amounts.set(step, amounts.get(step)?.plus(variance.amount) ?? variance.amount);
  }
  return BRIDGE_STEPS.map((step) => ({ step, amount: amounts.get(step) ?? Money.zero(currency) }));
};

/**
 * Why a garment earned what it did: from the quoted profit to the actual one, by step, by operation, by mode and by cause.
 *
 * @param quoted the quoted plan and price (`quotedWork`)
 * @param actual what it took (`actualWork`), and what was asked in the end, before tax
 * @param extras agreed and given (`extraAtRates`)
 * @param worked minutes of the entries that stand, for the causes
 * @returns money to the minor unit; quotedProfit + Σ bridge = actualProfit exactly
 * @see design 2-costing.md section 5; test/domain/reckoning/reckon.test.ts
 */
export const reckon = (input: {
  readonly quoted: PricedWork;
  readonly actual: { readonly work: JobWork; readonly column: CostColumn };
  readonly price: Money;
  readonly extras: readonly AgreedExtra[];
  readonly worked: readonly WorkedMinutes[];
}): Reckoning => {
  const { quoted, actual, price, extras, worked } = input;
  const { currency } = price;
  const told = variancesOf(currency, quoted, { ...actual.work, price }, extras);
  const quotedMinutes = total((quoted.operations ?? []).map(({ minutes }) => minutes));
  const quotedLabour = Money.sum(
    (quoted.operations ?? []).map(({ amount }) => amount ?? Money.zero(currency)),
    currency,
  );
  return {
    price,
    quotedPrice: quoted.price,
    quotedProfit: told.plannedProfit,
    actualProfit: told.actualProfit,
    bridge: bridgeOf(told.variances, extras, currency),
    column: actual.column,
    variances: told.variances,
    operations: operationsReckoned(quoted, actual.work, extras, told),
    byMode: byMode(quoted, actual.work, extras),
    byCause: CAUSES.map((cause) => ({
      cause,
      minutes: worked.reduce((sum, piece) => sum + (piece.cause === cause ? piece.minutes : 0), 0),
    })),
    earnedPerHour: earnedPerHour(told.actualProfit, actual.column.labour, actual.column.minutes),
    quotedPerHour: earnedPerHour(told.plannedProfit, quotedLabour, quotedMinutes),
    shouldHaveCharged: priceAtMargin(actual.column.cost, told.plannedProfit, quoted.price),
  };
};

const total = (numbers: readonly Decimal[]): Decimal =>
  numbers.reduce((sum, one) => sum.plus(one), new Decimal(0));

/** The quoted margin on the actual cost; a quote at a loss asks for the cost. */
const priceAtMargin = (cost: Money, profit: Money, price: Money): Money => {
  if (price.minor <= 0 || profit.minor <= 0 || profit.minor >= price.minor) return cost;
  return priceFromMargin(cost, profit.toDecimal().div(price.toDecimal()));
};

const byMode = (quoted: PricedWork, actual: JobWork, extras: readonly AgreedExtra[]): Reckoning['byMode'] => {
  const of = (works: readonly JobWork[], mode: Mode) =>
    total(
      works
        .flatMap(({ operations }) => operations ?? [])
        .flatMap((line) => (line.mode === mode ? [line.minutes] : [])),
    );
  return MODES.map((mode) => ({
    mode,
    planned: of([quoted, ...extras], mode),
    actual: of([actual], mode),
  })).filter(({ planned, actual: took }) => !planned.isZero() || !took.isZero());
};

const operationsReckoned = (
  quoted: PricedWork,
  actual: JobWork,
  extras: readonly AgreedExtra[],
  told: Variances,
): OperationReckoned[] => {
  const lines = new Map<
    string,
    { name: string; mode: string; planned: Decimal; actual: Decimal; minor: number }
  >();
  // Mending and what was kept back are one line each, whatever they were spent on.
  const lineOf = (name: string, said = '') => {
    const mode = name === MENDING || name === KEPT_BACK ? '' : said;
    const key = JSON.stringify([name, mode]);
    const known = lines.get(key) ?? { name, mode, planned: new Decimal(0), actual: new Decimal(0), minor: 0 };
    lines.set(key, known);
    return known;
  };
  for (const { operations } of [quoted, ...extras])
    for (const { name, mode, minutes } of operations ?? []) {
      const line = lineOf(name, mode);
      line.planned = line.planned.plus(minutes);
    }
  for (const { name, mode, minutes } of actual.operations ?? []) {
    const line = lineOf(name, mode);
    line.actual = line.actual.plus(minutes);
  }
  for (const { kind, name, mode, amount } of told.variances)
    if (kind === 'labour-efficiency' || kind === 'labour-rate') lineOf(name, mode).minor += amount.minor;
  const { currency } = quoted.price;
  return [...lines.values()]
    .map(({ minor, ...line }) => ({ ...line, amount: Money.ofMinor(minor, currency) }))
    .sort((a, b) => a.amount.minor - b.amount.minor);
};
