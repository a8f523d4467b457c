import type { CurrencyCode } from '../kernel/currency.js';
import type { Decimal } from '../kernel/decimal.js';
import type { Money } from '../kernel/money.js';

/** What an overhead pool is spread by. */
export const OVERHEAD_BASES = ['productive-hours', 'labour-cost', 'machine-hours', 'material-cost'] as const;
export type OverheadBase = (typeof OVERHEAD_BASES)[number];

/** The mode whose minutes also cost machine time. */
export const MACHINE_MODE = 'machine';

/** Money an hour, in major units; a mode without a rate of its own takes the plain one. */
export type LabourRates = {
  readonly perHour: Decimal;
  readonly perHourByMode?: Readonly<Record<string, Decimal>>;
};

/** `rate` is money per hour for the two hour bases, a share for the two cost bases. */
export type OverheadPool = {
  readonly name: string;
  readonly base: OverheadBase;
  readonly rate: Decimal;
};

/** Time of one operation: `minutes`, or fixed minutes + quantity × minutes per unit. */
export type OperationTime = {
  readonly minutes?: Decimal;
  readonly fixedMinutes?: Decimal;
  /** Units of what the operation goes by; 1 when left out. */
  readonly quantity?: Decimal;
  readonly minutesPerUnit?: Decimal;
};

export type CostedOperation = OperationTime & {
  readonly name: string;
  readonly mode: string;
  /** Minutes at the chosen degree of certainty; the even-chance minutes when left out. */
  readonly pricedMinutes?: Decimal;
  /** A plain hourly cost of this operation's own, such as a helper's; wins over the mode's rate. */
  readonly perHour?: Decimal;
};

/** Is the waste share a share of what is needed (`net`) or of what is bought (`gross`)? */
export type WasteOf = 'net' | 'gross';

/** What a material is charged at: its replacement value, its cost, or nothing (the client's own cloth). */
export type ChargeAt = 'replacement' | 'cost' | 'nil';

export type CostedMaterial = {
  readonly name: string;
  readonly quantity: Decimal;
  /** Landed cost of one unit, major units; nought for stash and for a client's own cloth. */
  readonly unitCost: Decimal;
  readonly replacementUnitCost?: Decimal;
  readonly chargeAt?: ChargeAt;
  readonly wasteShare?: Decimal;
  readonly wasteOf?: WasteOf;
  /** Does the handling share apply to this material? */
  readonly handling?: boolean;
};

export type Expense = { readonly name: string; readonly amount: Money };

export type CostSheetInput = {
  readonly currency: CurrencyCode;
  readonly labour: LabourRates;
  readonly machinePerHour?: Decimal;
  readonly overhead?: readonly OverheadPool[];
  readonly operations?: readonly CostedOperation[];
  readonly materials?: readonly CostedMaterial[];
  readonly expenses?: readonly Expense[];
  /** `net` when left out; a material may say otherwise for itself. */
  readonly wasteOf?: WasteOf;
  /** Work taken out and done again, as a share of the even-chance minutes: 0.03 is 3 %. */
  readonly mendingShare?: Decimal;
  /** Minutes kept back for the unexpected, spread over the operations by their minutes; not beside `pricedMinutes`. */
  readonly keptBackMinutes?: Decimal;
};

/** One operation with what its minutes cost, each rounded once. */
export type OperationLine = {
  readonly name: string;
  readonly mode: string;
  readonly minutes: Decimal;
  readonly perHour: Decimal;
  readonly labour: Money;
  readonly machine: Money;
};

/** One material: bought quantity (waste included), book cost, and the value it is charged at. */
export type MaterialLine = {
  readonly name: string;
  readonly netQuantity: Decimal;
  readonly quantity: Decimal;
  readonly unitCost: Decimal;
  readonly cost: Money;
  readonly chargeAt: ChargeAt;
  readonly chargedUnitCost: Decimal;
  readonly charged: Money;
  /** charged − cost: what lifts stash to its charged value. */
  readonly uplift: Money;
  readonly handling: boolean;
};

/** One overhead pool: base × rate. The base is hours for the hour bases, money for the cost bases. */
export type PoolLine = {
  readonly name: string;
  readonly base: OverheadBase;
  readonly baseQuantity: Decimal;
  readonly rate: Decimal;
  readonly amount: Money;
};

/** Minutes on top of the plan and what they cost: mending, or what is kept back. */
export type AddedTime = {
  readonly minutes: Decimal;
  readonly labour: Money;
  readonly machine: Money;
  readonly overhead: Money;
  /** labour + machine + overhead. */
  readonly money: Money;
  readonly operations: readonly OperationLine[];
  readonly pools: readonly PoolLine[];
};

export type CostSheet = {
  readonly currency: CurrencyCode;
  readonly minutes: {
    /** Σ even-chance minutes of the operations. */
    readonly total: Decimal;
    readonly byMode: ReadonlyMap<string, Decimal>;
    /** total + mending + kept back. */
    readonly priced: Decimal;
  };
  readonly materials: Money;
  readonly labour: Money;
  readonly machine: Money;
  readonly overhead: Money;
  readonly overheadByPool: ReadonlyMap<string, Money>;
  readonly expenses: Money;
  readonly mending: AddedTime;
  readonly keptBack: AddedTime;
  /** materials + labour + machine + overhead + expenses + mending + kept back, at book cost. */
  readonly cost: Money;
  /** Σ (charged − cost) of the materials; not part of the cost. */
  readonly stashUplift: Money;
  readonly parts: {
    readonly operations: readonly OperationLine[];
    readonly materials: readonly MaterialLine[];
    readonly pools: readonly PoolLine[];
    readonly expenses: readonly Expense[];
  };
};
