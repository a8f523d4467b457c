import type { CostedMaterial, CostedOperation, OverheadPool } from '../costing/cost-lines.js';
import { type GarmentHours, garmentHours, type NotebookTotal } from '../estimating/garment-hours.js';
import type { PlannedGarment as PlanToEstimate } from '../estimating/lesson/history.js';
import type { Lesson } from '../estimating/lesson/lesson.js';
import type { PricingChoices, StudioTax } from '../house/studio.js';
import { Decimal } from '../kernel/decimal.js';
import { Money } from '../kernel/money.js';
import type { MakingPlan } from '../making/making-plan.js';
import { MODES, type Mode } from '../making/mode.js';
import { type Operation, plannedMinutes } from '../making/operation.js';
import { minutesByMode } from '../making/plan-minutes.js';
import type { PriceAnswer, PriceInput } from '../pricing/price-terms.js';
import { workOutPrice } from '../pricing/work-out-price.js';
import type { PlannedGarment } from './garment.js';

/** What an hour costs on the day a garment is priced. */
export type RatesForSum = {
  readonly perHour: Money;
  readonly perHourByMode: Partial<Record<Mode, Money>>;
  readonly machinePerHour: Money;
  readonly overhead: readonly OverheadPool[];
};

/** What a garment is priced by, beside its own plan. */
export type SumBasis = {
  /** What an hour costs that day. */
  readonly rates: RatesForSum;
  readonly pricing: PricingChoices;
  readonly tax: StudioTax;
  /** The fitted lesson; fitted to nothing, it holds the starting values. */
  readonly lesson: Lesson;
  /** Totals of garments of the same type. */
  readonly notebook?: readonly NotebookTotal[];
  /** Planned minutes of the type's usual plan; 0 when there is none. */
  readonly usualMinutes?: number;
  /** What mending adds to the work, learnt from such garments; nought when left out. */
  readonly mendingShare?: Decimal;
};

/** Minutes of one mode, or of the whole, at even chance, 4 in 5 and 9 in 10. */
export type ThreeChances = {
  readonly even: Decimal;
  readonly fourInFive: Decimal;
  readonly nineInTen: Decimal;
};

/** Everything a maker is told before naming a price for one garment. */
export type GarmentSum = {
  /** What the maker planned, whole minutes. */
  readonly planned: number;
  readonly hours: {
    readonly rests: GarmentHours['rests'];
    readonly total: ThreeChances;
    readonly byMode: readonly (ThreeChances & { readonly mode: Mode })[];
    readonly doubt: GarmentHours['doubt'];
  };
  readonly answer: PriceAnswer;
  /** The net price asked: the sum's, or the one set by hand. */
  readonly net: Money;
  /** Names of operations that nobody has given minutes yet. */
  readonly untimed: readonly string[];
};

/** Estimates leave their floats here: minutes rounded to a thousandth. */
const minutesOf = (minutes: number): Decimal => new Decimal(minutes.toFixed(3));

/**
 * The sum of one garment: hours at each degree of certainty, cost, price and what is left, from its plan, the rates of
 * the day, and what past garments say.
 *
 * Priced minutes are the total at the chosen certainty, shared over the operations by what each takes at even chance;
 * the difference from the even-chance total is what is kept back. A price set by hand takes the place of the worked-out
 * one, and profit, margin and earned an hour follow it.
 *
 * @param input the garment with its plan, and what it is priced by
 * @throws Invalid or OutOfRange naming what cannot be priced
 * @see test/domain/commissions/garment-sum.test.ts
 */
export const garmentSum = (input: SumBasis & { readonly planned: PlannedGarment }): GarmentSum => {
  const { plan } = input.planned;
  const hours = hoursOf(input);
  const answer = workOutPrice(inputFor(input, hours));
  return {
    planned: plan.reduce((sum, operation) => sum + plannedMinutes(operation), 0),
    hours: {
      rests: hours.rests,
      total: threeOf((q) => hours.at(q)),
      byMode: modesOf(hours),
      doubt: hours.doubt,
    },
    answer,
    net: answer.price.net,
    untimed: plan.filter((operation) => operation.needsMinutes).map(({ name }) => name),
  };
};

/**
 * The question the price of a garment is the answer to, for asking it in other ways, such as from a budget.
 *
 * @param input the garment with its plan, and what it is priced by
 * @see garmentSum
 */
export const priceInput = (input: SumBasis & { readonly planned: PlannedGarment }): PriceInput =>
  inputFor(input, hoursOf(input));

const hoursOf = ({
  planned,
  lesson,
  notebook,
  usualMinutes,
}: SumBasis & { readonly planned: PlannedGarment }): GarmentHours =>
  garmentHours({
    plan: planToEstimate(planned.garment.typeId, planned.plan),
    lesson,
    notebook,
    usualMinutes,
  });

const inputFor = (
  { planned, rates, pricing, tax, mendingShare }: SumBasis & { readonly planned: PlannedGarment },
  hours: GarmentHours,
): PriceInput => {
  const even = hours.splitAt(0.5);
  const priced = hours.splitAt(Number(pricing.certainty));
  return {
    currency: rates.perHour.currency,
    labour: { perHour: rates.perHour.toDecimal(), perHourByMode: labourByMode(rates) },
    machinePerHour: rates.machinePerHour.toDecimal(),
    overhead: rates.overhead,
    operations: planned.plan.flatMap((operation, index) =>
      costed(operation, even.operations[index] ?? 0, priced.operations[index] ?? 0),
    ),
    materials: planned.materials.map(
      (line): CostedMaterial => ({
        ...line,
        chargeAt: line.replacementUnitCost ? line.chargeAt : chargedPlainly(line),
      }),
    ),
    expenses: planned.expenses,
    ...(mendingShare ? { mendingShare } : {}),
    pricing: termsOf(pricing),
    tax: { category: tax.category, rate: tax.rate },
    pricesInclude: tax.pricesInclude,
    ...(planned.garment.ownPrice ? { ownNet: planned.garment.ownPrice } : {}),
    chanceOfLoss: (minutes) => hours.chanceOver(Number(minutes)),
  };
};

const threeOf = (at: (q: number) => number): ThreeChances => ({
  even: minutesOf(at(0.5)),
  fourInFive: minutesOf(at(0.8)),
  nineInTen: minutesOf(at(0.9)),
});

const modesOf = (hours: GarmentHours): (ThreeChances & { mode: Mode })[] => {
  const [even, four, nine] = [hours.byModeAt(0.5), hours.byModeAt(0.8), hours.byModeAt(0.9)];
  return MODES.filter((mode) => (even[mode] ?? 0) > 0).map((mode) => ({
    mode,
    even: minutesOf(even[mode] ?? 0),
    fourInFive: minutesOf(four[mode] ?? 0),
    nineInTen: minutesOf(nine[mode] ?? 0),
  }));
};

/** A making plan as the lesson reads it before the first stitch. */
export const planToEstimate = (garmentType: string, plan: MakingPlan): PlanToEstimate => ({
  garmentType,
  operations: plan.map(estimated),
});

const estimated = (operation: Operation) => ({
  kind: operation.kind,
  mode: operation.mode,
  ...(operation.modeShares.length > 0
    ? { modes: Object.fromEntries(operation.modeShares.map(({ mode, share }) => [mode, Number(share)])) }
    : {}),
  plannedMinutes: plannedMinutes(operation),
  ...(operation.startingSpread ? { startingSpread: Number(operation.startingSpread) } : {}),
  fromStartingValues: operation.fromStartingValues,
});

/** An operation worked in several modes is costed as a line for each. */
const costed = (operation: Operation, even: number, priced: number): CostedOperation[] => {
  const whole = plannedMinutes(operation);
  const parts =
    operation.modeShares.length > 0 ? minutesByMode(operation) : [{ mode: operation.mode, minutes: whole }];
  return parts.map(({ mode, minutes }) => {
    const share = whole > 0 ? minutes / whole : 0;
    return {
      name: operation.name,
      mode,
      minutes: minutesOf(even * share),
      pricedMinutes: minutesOf(priced * share),
    };
  });
};

const labourByMode = (rates: RatesForSum): Record<string, Decimal> =>
  Object.fromEntries(Object.entries(rates.perHourByMode).map(([mode, rate]) => [mode, rate.toDecimal()]));

/** Without a replacement value there is nothing to lift a cost to. */
const chargedPlainly = (line: { readonly chargeAt: 'replacement' | 'cost' | 'nil' }): 'cost' | 'nil' =>
  line.chargeAt === 'nil' ? 'nil' : 'cost';

const termsOf = (pricing: PricingChoices) => ({
  ...(pricing.profitBasis === 'margin' ? { margin: pricing.profitShare } : { markup: pricing.profitShare }),
  handlingShare: pricing.handlingShare,
  ...(pricing.minimumCharge ? { minimumCharge: pricing.minimumCharge } : {}),
  rushShare: pricing.rushShare,
  rushOn: pricing.rushOn,
  roundTo: pricing.roundTo,
});
