import { predictAll } from '../../estimating/forecast/hours.js';
import type { Lesson } from '../../estimating/lesson/lesson.js';
import { Decimal } from '../../kernel/decimal.js';
import { Money } from '../../kernel/money.js';
import { type CostColumn, columnsTogether, noColumn } from './columns.js';
import {
  CHANCES,
  type Chance,
  type GarmentLanding,
  type GarmentUnderWay,
  type Landing,
  landAt,
} from './landing.js';
import { asTheLessonReads } from './progress.js';

/** Scales what is still to come of a garment to other minutes; materials and expenses stay what they are. */
const atOtherMinutes = (toCome: CostColumn, factor: Decimal): CostColumn => {
  const labour = toCome.labour.timesRounded(factor);
  const machine = toCome.machine.timesRounded(factor);
  const overheadOfTime = toCome.overheadOfTime.timesRounded(factor);
  const overhead = toCome.overhead.minus(toCome.overheadOfTime).plus(overheadOfTime);
  const cost = Money.sum([toCome.materials, labour, machine, overhead, toCome.expenses], labour.currency);
  return {
    ...toCome,
    minutes: toCome.minutes.times(factor).toDecimalPlaces(3),
    labour,
    machine,
    overhead,
    overheadOfTime,
    cost,
  };
};

const less = (whole: CostColumn, part: CostColumn): CostColumn => ({
  ...whole,
  minutes: whole.minutes.minus(part.minutes),
  materials: whole.materials.minus(part.materials),
  labour: whole.labour.minus(part.labour),
  machine: whole.machine.minus(part.machine),
  overhead: whole.overhead.minus(part.overhead),
  overheadOfTime: whole.overheadOfTime.minus(part.overheadOfTime),
  expenses: whole.expenses.minus(part.expenses),
  cost: whole.cost.minus(part.cost),
  operations: [],
});

/**
 * Where a commission will land: its garments together, by the lesson's joint forecast. What is not known about the lesson moves all
 * of them the same way, what one garment is like is its own; so 4 in 5 of the whole is less than the sum of each one's 4 in 5.
 *
 * What is still to come costs what it costs at even chance, garment by garment, in proportion to the minutes.
 *
 * @param garments each with its own landing, as `landingOf` answers
 * @returns minutes to a thousandth; money half away from zero; so far + left = minutes at every chance
 * @see test/domain/commissions/landing/commission-landing.test.ts
 */
export const commissionLanding = (
  garments: readonly { readonly input: GarmentUnderWay; readonly landing: GarmentLanding }[],
  lesson: Lesson,
  currency: string,
): Landing => {
  const forecast = predictAll(
    lesson,
    garments.map(({ input, landing }) =>
      asTheLessonReads(landing.progress, input.typeId, input.stretch, input.repeat),
    ),
    CHANCES.map(Number),
    2048,
  );
  const sumOf = (of: (landing: GarmentLanding) => CostColumn): CostColumn =>
    garments.map(({ landing }) => of(landing)).reduce(columnsTogether, noColumn(currency));
  const soFar = sumOf(({ soFar: own }) => own);
  const toComeEven = sumOf(({ at, soFar: own }) => less(at['0.5'].cost, own));
  const price = Money.sum(
    garments.map(({ landing }) => landing.price),
    currency,
  );
  const known = garments.reduce(
    (sum, { landing: { progress } }) => sum + progress.ownError + progress.beside,
    0,
  );
  const mending = garments.reduce((sum, { landing }) => sum + Number(landing.mendingLeft), 0);
  const towards = Number(soFar.minutes) - known;
  const toCome = (chance: Chance): CostColumn => {
    const left = Math.max(0, (forecast.total[chance] ?? towards) - towards) + mending;
    if (toComeEven.minutes.isZero()) return toComeEven;
    return atOtherMinutes(toComeEven, new Decimal(left.toFixed(3)).div(toComeEven.minutes));
  };
  const landed = landAt(soFar, toCome, price);
  return {
    ...landed,
    chanceOfLoss: landed.marginGoneAt
      ? forecast.chanceOver(Number(landed.marginGoneAt) - known - mending)
      : null,
    rests: { garments: lesson.garments, ofThisType: 0 },
    doubt: forecast.doubt,
    mendingLeft: new Decimal(mending),
  };
};
