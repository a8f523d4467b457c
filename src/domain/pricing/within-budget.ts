import type { CostedOperation } from '../costing/cost-lines.js';
import { operationMinutes } from '../costing/operation-minutes.js';
import { Decimal } from '../kernel/decimal.js';
import { Invalid } from '../kernel/errors.js';
import type { Money } from '../kernel/money.js';
import type { PriceAnswer, PriceInput } from './price-terms.js';
import { workOutPrice } from './work-out-price.js';

/** One way of making the garment, with the operations it would take. */
export type MakeOffered = { readonly name: string; readonly operations: readonly CostedOperation[] };

export type MakePriced = {
  readonly name: string;
  readonly answer: PriceAnswer;
  readonly fits: boolean;
  /** budget − price, both net or both gross; negative when it does not fit. */
  readonly left: Money;
};

export type WithinBudget = {
  /** Whole priced minutes the budget allows in the plan's mix of modes; null when time costs nothing. */
  readonly minutes: number | null;
  /** Those minutes as a share of the plan's priced minutes; null without a plan to compare with. */
  readonly shareOfPlan: Decimal | null;
  /** Priced minutes of the plan as it stands. */
  readonly planned: Decimal;
  /** The price at the allowed minutes; null when not even the materials fit. */
  readonly answer: PriceAnswer | null;
  readonly makes: readonly MakePriced[];
  /** The first make that fits, in the order offered; null when none does. */
  readonly best: MakePriced | null;
};

/** Longer than anyone works on one garment; a search beyond it means that time costs nothing. */
const LONGEST = 6_000_000;

const stretched = (operations: readonly CostedOperation[], factor: Decimal): CostedOperation[] =>
  operations.map(({ name, mode, perHour, pricedMinutes, ...time }) => ({
    name,
    mode,
    perHour,
    minutes: operationMinutes(time).times(factor),
    pricedMinutes: pricedMinutes?.times(factor),
  }));

/** A price is a straight line of the minutes but for its steps, so a line through two of them lands close. */
const guessed = (plan: number, left: Money, perPlan: Money): number => {
  if (perPlan.minor <= 0) return plan;
  const guess = new Decimal(plan).times(left.minor).div(perPlan.minor).plus(plan).floor();
  return Decimal.min(LONGEST, Decimal.max(0, guess)).toNumber();
};

/** The largest whole number that still fits, given that 0 does: strides away from the guess, then halves. */
const mostThatFits = (fits: (minutes: number) => boolean, guess: number): number | null => {
  let enough = 0;
  let tooMuch = guess + 1;
  if (fits(guess)) {
    enough = guess;
    for (let stride = 1; fits(tooMuch); stride *= 4) {
      enough = tooMuch;
      tooMuch += stride;
      if (tooMuch > LONGEST) return null;
    }
  } else {
    tooMuch = guess;
    for (let stride = 1; tooMuch > stride; stride *= 4) {
      if (fits(tooMuch - stride)) {
        enough = tooMuch - stride;
        break;
      }
      tooMuch -= stride;
    }
  }
  while (tooMuch - enough > 1) {
    const middle = Math.floor((enough + tooMuch) / 2);
    if (fits(middle)) enough = middle;
    else tooMuch = middle;
  }
  return enough;
};

/**
 * From a client's budget back to the hours it allows, and to the make it allows.
 *
 * The hours keep the plan's mix of modes and its certainty: every operation is stretched or shrunk alike until the
 * price, with all its steps, is the highest that does not pass the budget.
 *
 * @param asked the garment as planned, with rates, materials and pricing terms
 * @param budget what the client can spend, above 0
 * @param budgetIs is the budget before (`net`) or with tax (`gross`)?
 * @param makes ways of making it, the most wanted first
 * @returns whole minutes allowed (0 when only the materials fit, with `answer` null when not even those do), and each
 *   make with its price
 * @throws Invalid when the budget is not above 0 or the input cannot be priced
 * @see test/domain/pricing/within-budget.test.ts
 */
export const makeWithinBudget = (
  asked: PriceInput,
  budget: Money,
  budgetIs: 'net' | 'gross',
  makes: readonly MakeOffered[] = [],
): WithinBudget => {
  // A price set by hand does not move with the hours, so it cannot say what they may be.
  const input: PriceInput = { ...asked, ownNet: undefined };
  if (budget.minor <= 0) throw Invalid.field('budget', 'Say what the client can spend: an amount above 0.');
  const leftAt = (answer: PriceAnswer) => budget.minus(answer.price[budgetIs]);
  const planned = workOutPrice(input);
  const { priced } = planned.minutes;

  const operations = input.operations ?? [];
  const atMinutes = (minutes: number): PriceAnswer => {
    const factor = priced.isZero() ? new Decimal(0) : new Decimal(minutes).div(priced);
    return workOutPrice({
      ...input,
      operations: stretched(operations, factor),
      keptBackMinutes: input.keptBackMinutes?.times(factor),
    });
  };
  const fits = (minutes: number): boolean => {
    try {
      return !leftAt(atMinutes(minutes)).isNegative();
    } catch (trouble) {
      // So few minutes that the discount is more than the price: well within any budget
      if (trouble instanceof Invalid && trouble.fields.some((each) => each.field === 'pricing.discount')) {
        return true;
      }
      throw trouble;
    }
  };

  const offered = makes.map((make): MakePriced => {
    const answer = workOutPrice({ ...input, operations: make.operations, keptBackMinutes: undefined });
    const left = leftAt(answer);
    return { name: make.name, answer, fits: !left.isNegative(), left };
  });
  const offer = {
    planned: priced,
    makes: offered,
    best: offered.find((make) => make.fits) ?? null,
  };

  if (!fits(0)) return { ...offer, minutes: 0, shareOfPlan: new Decimal(0), answer: null };
  if (priced.isZero()) return { ...offer, minutes: null, shareOfPlan: null, answer: planned };
  const plan = priced.ceil().toNumber();
  const perPlan = atMinutes(2 * plan).price[budgetIs].minus(planned.price[budgetIs]);
  const enough = mostThatFits(fits, guessed(plan, leftAt(planned), perPlan));
  if (enough === null) return { ...offer, minutes: null, shareOfPlan: null, answer: planned };
  return {
    ...offer,
    minutes: enough,
    shareOfPlan: new Decimal(enough).div(priced),
    answer: atMinutes(enough),
  };
};
