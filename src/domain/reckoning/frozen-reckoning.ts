import { Invalid } from '../kernel/errors.js';
import { Money } from '../kernel/money.js';
import { BRIDGE_STEPS, type BridgeStep, type Reckoning } from './reckon.js';

/** A minute or an amount as text, so that it is read back as it was written. */
type Text = string;

/** The figures of a reckoning as they are frozen with the closing of a garment; nothing in them changes again. */
export type FrozenReckoning = {
  readonly currency: string;
  readonly price: Text;
  readonly quotedPrice: Text;
  readonly quotedProfit: Text;
  readonly actualProfit: Text;
  readonly shouldHaveCharged: Text;
  readonly earnedPerHour: Text | null;
  readonly quotedPerHour: Text | null;
  readonly bridge: readonly { readonly step: BridgeStep; readonly amount: Text }[];
  readonly cost: {
    readonly minutes: Text;
    readonly materials: Text;
    readonly materialsAtReplacement: Text;
    readonly labour: Text;
    readonly machine: Text;
    readonly overhead: Text;
    readonly expenses: Text;
    readonly cost: Text;
  };
  readonly operations: readonly {
    readonly name: string;
    readonly mode: string;
    readonly planned: Text;
    readonly actual: Text;
    readonly amount: Text;
  }[];
  readonly byMode: readonly { readonly mode: string; readonly planned: Text; readonly actual: Text }[];
  readonly byCause: readonly { readonly cause: string; readonly minutes: number }[];
  readonly bastingMinutes: number;
  /** What was taken as planned because nothing was written down, in words. */
  readonly takenAsPlanned: readonly string[];
};

/** Freezes a reckoning. @see test/domain/reckoning/reckon.property.test.ts, frozen-reckoning.test.ts */
export const freezeReckoning = (
  reckoning: Reckoning,
  beside: {
    readonly materialsAtReplacement: Money;
    readonly bastingMinutes: number;
    readonly takenAsPlanned: readonly string[];
  },
): FrozenReckoning => {
  const money = (amount: Money): Text => amount.toString();
  const { column } = reckoning;
  return {
    currency: reckoning.price.currency,
    price: money(reckoning.price),
    quotedPrice: money(reckoning.quotedPrice),
    quotedProfit: money(reckoning.quotedProfit),
    actualProfit: money(reckoning.actualProfit),
    shouldHaveCharged: money(reckoning.shouldHaveCharged),
    earnedPerHour: reckoning.earnedPerHour && money(reckoning.earnedPerHour),
    quotedPerHour: reckoning.quotedPerHour && money(reckoning.quotedPerHour),
    bridge: reckoning.bridge.map(({ step, amount }) => ({ step, amount: money(amount) })),
    cost: {
      minutes: column.minutes.toFixed(),
      materials: money(column.materials),
      materialsAtReplacement: money(beside.materialsAtReplacement),
      labour: money(column.labour),
      machine: money(column.machine),
      overhead: money(column.overhead),
      expenses: money(column.expenses),
      cost: money(column.cost),
    },
    operations: reckoning.operations.map(({ name, mode, planned, actual, amount }) => ({
      name,
      mode,
      planned: planned.toFixed(),
      actual: actual.toFixed(),
      amount: money(amount),
    })),
    byMode: reckoning.byMode.map(({ mode, planned, actual }) => ({
      mode,
      planned: planned.toFixed(),
      actual: actual.toFixed(),
    })),
    byCause: reckoning.byCause,
    bastingMinutes: beside.bastingMinutes,
    takenAsPlanned: beside.takenAsPlanned,
  };
};

/**
 * The reckoning in the document of a `closed` mark.
 *
 * @returns undefined where the document holds none: a garment from a notebook
 * @throws Invalid where it cannot be read
 */
export const readReckoning = (document: string): FrozenReckoning | undefined => {
  if (document.trim() === '') return undefined;
  try {
    const { reckoning } = JSON.parse(document) as { reckoning?: FrozenReckoning };
    return reckoning;
  } catch {
    throw new Invalid('What was frozen when this garment was closed cannot be read.');
  }
};

/** An amount of a frozen reckoning. */
export const frozenMoney = ({ currency }: Pick<FrozenReckoning, 'currency'>, text: Text): Money =>
  Money.parse(text, currency);

/**
 * The frozen reckonings of a commission's garments as one.
 *
 * @param reckonings at least one, all in one currency
 * @returns sums to the minor unit; quotedProfit + Σ bridge = actualProfit
 */
export const frozenTogether = (
  reckonings: readonly FrozenReckoning[],
): Pick<
  FrozenReckoning,
  'currency' | 'price' | 'quotedPrice' | 'quotedProfit' | 'actualProfit' | 'bridge'
> => {
  const currency = reckonings[0]?.currency ?? '';
  const sum = (of: (one: FrozenReckoning) => Text): Text =>
    Money.sum(
      reckonings.map((one) => frozenMoney(one, of(one))),
      currency,
    ).toString();
  return {
    currency,
    price: sum(({ price }) => price),
    quotedPrice: sum(({ quotedPrice }) => quotedPrice),
    quotedProfit: sum(({ quotedProfit }) => quotedProfit),
    actualProfit: sum(({ actualProfit }) => actualProfit),
    bridge: BRIDGE_STEPS.map((step) => ({
      step,
      amount: sum(({ bridge }) => bridge.find((one) => one.step === step)?.amount ?? '0'),
    })),
  };
};
