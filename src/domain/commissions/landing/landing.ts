import { type HoursForecast, predict } from '../../estimating/forecast/hours.js';
import type { Lesson } from '../../estimating/lesson/lesson.js';
import { Decimal } from '../../kernel/decimal.js';
import { Money } from '../../kernel/money.js';
import { minutesByMode } from '../../making/plan-minutes.js';
import { earnedPerHour } from '../../pricing/work-out-price.js';
import {
  type CostColumn,
  columnsTogether,
  costSoFar,
  costToCome,
  type HourOn,
  type MaterialUsed,
  type TimeToCost,
} from './columns.js';
import { type Earned, earnedOf, ofTime } from './earned-of.js';
import { mendingAhead } from './mending-ahead.js';
import { asTheLessonReads, type Progress, progressOf, type WorkSoFar } from './progress.js';

/** The three degrees of certainty a forecast is told at. */
export const CHANCES = ['0.5', '0.8', '0.9'] as const;
export type Chance = (typeof CHANCES)[number];

/** Everything a garment's landing is worked out from. */
export type GarmentUnderWay = WorkSoFar & {
  readonly typeId: string;
  /** How many times this block has been made for this wearer, this one included; 1 when left out. */
  readonly repeat?: number;
  /** What the type's notebook totals make of a planned minute; 1 when left out. */
  readonly stretch?: number;
  /** The learnt share of the type's work that is mending; none when left out. */
  readonly mendingShare?: Decimal;
  readonly used: readonly MaterialUsed[];
  /** Planned materials that are still to be issued, at their planned cost. */
  readonly materialsToCome: Money;
  readonly expensesSoFar: Money;
  readonly expensesToCome: Money;
  /** Agreed before tax, with the charged extras; what would be asked where nothing is agreed yet. */
  readonly price: Money;
};

/** How minutes and money end at one degree of certainty. */
export type LandedAt = {
  /** So far + left. */
  readonly minutes: Decimal;
  readonly left: Decimal;
  readonly cost: CostColumn;
  /** price − cost. */
  readonly profit: Money;
  /** (profit + labour) / hours; null at no hours. */
  readonly earnedPerHour: Money | null;
};

/** Where a garment, or a commission, will land. */
export type Landing = {
  readonly soFar: CostColumn;
  readonly at: Readonly<Record<Chance, LandedAt>>;
  readonly price: Money;
  /** Minutes in all at which cost = price; null where time costs nothing. 0 where materials alone took the price. */
  readonly marginGoneAt: Decimal | null;
  /** The chance that it takes longer than that; null where time costs nothing. */
  readonly chanceOfLoss: number | null;
  readonly rests: HoursForecast['rests'];
  readonly doubt: HoursForecast['doubt'];
  /** Minutes that mending is likely to take of what is left; they are among what is left. */
  readonly mendingLeft: Decimal;
};

/** A garment's landing, with how far it has come and the textbook figures. */
export type GarmentLanding = Landing & {
  readonly progress: Progress;
  readonly earned: Earned | null;
};

/** Estimates leave their floats here: minutes rounded to a thousandth. */
const minutesOf = (minutes: number): Decimal => new Decimal(minutes.toFixed(3));

/** Where the forecasts of garments under way leave the floats: minutes at a chance, beyond those that are known. */
export type LeftAt = (chance: Chance) => Decimal;

/** Time still to be worked, over operations and modes: the total that is left, shared by what each still takes at even chance. */
const timeLeft = (progress: Progress, medians: readonly number[], left: Decimal): TimeToCost[] => {
  const still = progress.operations.map(({ minutes, state }, i) =>
    state === 'finished' ? 0 : Math.max(0, (medians[i] ?? 0) - minutes),
  );
  const whole = still.reduce((sum, one) => sum + one, 0);
  if (whole <= 0) return [];
  return progress.operations.flatMap(({ operation, planned }, i) => {
    if (!still[i]) return [];
    const own = left.times(new Decimal(still[i] / whole));
    const parts = operation.modeShares.length > 0 && planned > 0 ? minutesByMode(operation) : [];
    return parts.length > 0
      ? parts.map(({ mode, minutes }) => ({
          name: operation.name,
          mode,
          minutes: own.times(minutes).div(planned).toDecimalPlaces(3),
        }))
      : [{ name: operation.name, mode: operation.mode, minutes: own.toDecimalPlaces(3) }];
  });
};

/**
 * Minutes in all at which nothing is left of the price: what is left of it after all that is known to be spent buys further
 * minutes at the average cost of those that are still to come (of those so far, where none is left or it is gone already).
 *
 * @param even so far and the whole at even chance
 * @returns minutes, not below 0; null where time costs nothing
 */
export const marginGone = (price: Money, soFar: CostColumn, whole: CostColumn): Decimal | null => {
  const fixed = whole.cost.minus(ofTime(whole));
  const spare = price.minus(fixed).minus(ofTime(soFar));
  const toCome = { minutes: whole.minutes.minus(soFar.minutes), money: ofTime(whole).minus(ofTime(soFar)) };
  const behind = { minutes: soFar.minutes, money: ofTime(soFar) };
  const ahead = spare.isNegative() ? [behind, toCome] : [toCome, behind];
  const pace = ahead.find(({ minutes, money }) => minutes.gt(0) && money.minor > 0);
  if (!pace) return null;
  const more = spare.toDecimal().times(pace.minutes).div(pace.money.toDecimal());
  return Decimal.max(0, soFar.minutes.plus(more)).toDecimalPlaces(3);
};

/** One landing out of what is so far and what is still to come at each chance. */
export const landAt = (
  soFar: CostColumn,
  toComeAt: (chance: Chance) => CostColumn,
  price: Money,
): Pick<Landing, 'soFar' | 'at' | 'price' | 'marginGoneAt'> => {
  const landed = (chance: Chance): LandedAt => {
    const toCome = toComeAt(chance);
    const cost = columnsTogether(soFar, toCome);
    const profit = price.minus(cost.cost);
    return {
      minutes: cost.minutes,
      left: toCome.minutes,
      cost,
      profit,
      earnedPerHour: earnedPerHour(profit, cost.labour, cost.minutes),
    };
  };
  const at = { '0.5': landed('0.5'), '0.8': landed('0.8'), '0.9': landed('0.9') };
  return { soFar, at, price, marginGoneAt: marginGone(price, soFar, at['0.5'].cost) };
};

/**
 * Minutes still to be worked on one garment at each chance, without any money: for lists. Mending that is likely to come is among
 * them at every chance, as it is in a price.
 *
 * @param draws how many draws stand for a total that needs them
 * @returns minutes to a thousandth
 */
export const minutesLeft = (
  input: WorkSoFar & Pick<GarmentUnderWay, 'typeId' | 'stretch' | 'repeat' | 'mendingShare'>,
  lesson: Lesson,
  draws?: number,
): {
  readonly progress: Progress;
  readonly forecast: HoursForecast;
  readonly mendingLeft: Decimal;
  readonly leftAt: LeftAt;
} => {
  const progress = progressOf(input);
  const garment = asTheLessonReads(progress, input.typeId, input.stretch, input.repeat);
  const forecast = predict(lesson, garment, [0.5, 0.8, 0.9], draws);
  const towards = progress.operations.reduce((sum, { minutes }) => sum + minutes, 0);
  const madeAt = (chance: Chance): Decimal =>
    minutesOf(Math.max(0, (forecast.total[chance] ?? towards) - towards));
  const mendingLeft = mendingAhead(madeAt('0.5'), input.mendingShare);
  return { progress, forecast, mendingLeft, leftAt: (chance) => madeAt(chance).plus(mendingLeft) };
};

/** Half the usual draws: told in hours, a forecast moves by under two per cent. */
const DRAWS = 2048;

/**
 * Where a garment under way will land: what is done is known, what is left is predicted by the lesson given what has been seen on
 * this garment so far.
 *
 * So far: minutes at the rates of their days (`costSoFar`). Left: the forecast's total less what is worked, over the operations by
 * what each still takes at even chance, at today's rates. Own error and unplanned minutes are paid for and foretell
 * nothing; what own errors usually take of such a garment is among what is left (`mendingAhead`).
 *
 * @param input the agreed plan, what was worked on it, materials, expenses and the agreed price
 * @param lesson the fitted lesson
 * @param hourOn dated rates
 * @param today the studio's day
 * @returns minutes to a thousandth; money half away from zero; so far + left = minutes at every chance
 * @see design 2-costing.md section 6, 3-estimating.md; test/domain/commissions/landing/landing.test.ts
 */
export const landingOf = (
  input: GarmentUnderWay,
  lesson: Lesson,
  hourOn: HourOn,
  today: string,
): GarmentLanding => {
  const { progress, forecast, mendingLeft, leftAt } = minutesLeft(input, lesson, DRAWS);
  const soFar = costSoFar(input.worked, input.used, input.expensesSoFar, hourOn);
  const hour = hourOn(today);
  const toCome = (chance: Chance): CostColumn =>
    costToCome(
      timeLeft(progress, forecast.medians, leftAt(chance)),
      input.materialsToCome,
      input.expensesToCome,
      hour,
    );
  const landed = landAt(soFar, toCome, input.price);
  const known = progress.ownError + progress.beside + Number(mendingLeft);
  return {
    ...landed,
    chanceOfLoss: landed.marginGoneAt ? forecast.chanceOver(Number(landed.marginGoneAt) - known) : null,
    rests: forecast.rests,
    doubt: forecast.doubt,
    progress,
    mendingLeft,
    earned: earnedOf(progress, forecast.medians, soFar, hour),
  };
};
