import { z } from 'zod';
import { quantityWithWaste } from '../../../domain/costing/material-cost.js';
import type { StudioIdentity } from '../../../domain/house/studio.js';
import { Decimal } from '../../../domain/kernel/decimal.js';
import { Trouble } from '../../../domain/kernel/errors.js';
import { METRES_PER_YARD, type QuantityUnit } from '../../../domain/kernel/quantity.js';
import { lengthAtWidth } from '../../../domain/stock/cloth-width.js';
import type { TypedLength } from '../../../domain/stock/material.js';
import { beforeShrinking, extraForRepeat } from '../../../domain/stock/need/cloth-need.js';
import { type ChartNeed, needByChart } from '../../../domain/stock/need/width-chart.js';
import { oneOf, whole, yesNo } from '../../../web/fields/fields.js';
import { typedAs } from '../../../web/fields/kits.js';
import { readPercent } from '../../../web/words/shares.js';
import { readQuantityIn, readWidth, typedFields } from '../stock-fields.js';

const MM_PER_INCH = new Decimal('25.4');
const MM_PER: Readonly<Record<'m' | 'yd', Decimal>> = {
  m: new Decimal(1000),
  yd: METRES_PER_YARD.times(1000),
};

/** What is asked about a need of cloth. */
export const NeedFields = (identity: StudioIdentity) =>
  z.strictObject({
    length: typedAs(
      (typed) => readQuantityIn(typed, identity, identity.clothUnit),
      'How much of the known cloth?',
    ) as z.ZodType<Decimal>,
    width: typedAs(
      (typed) => readWidth(typed, identity.lengthUnit),
      'How wide is the known cloth?',
    ) as z.ZodType<TypedLength>,
    otherWidth: typedAs(
      (typed) => readWidth(typed, identity.lengthUnit),
      'How wide is the cloth you have in mind?',
    ) as z.ZodType<TypedLength>,
    oneWay: yesNo(),
    repeat: typedFields(identity).length(),
    stacked: whole(0, 200).default(0),
    shrinkage: typedAs((typed) => readPercent(typed, { below: 100 })),
    waste: typedAs((typed) => readPercent(typed, { below: 100 })),
    wasteOf: oneOf(['net', 'gross']).default('net'),
  });
export type NeedSaid = z.output<ReturnType<typeof NeedFields>>;

/** A length on its way from the lay to the shop. */
export type NeedSteps = {
  readonly length: Decimal;
  readonly repeat: Decimal;
  readonly shrunk: Decimal;
  /** What to buy. */
  readonly toBuy: Decimal;
};
export type ClothNeed = {
  readonly unit: QuantityUnit;
  readonly byArea: NeedSteps;
  /** Read off the chart; none, and why, where it does not reach. */
  readonly byChart: (NeedSteps & { readonly read: ChartNeed }) | undefined;
  readonly noChart: string;
};

/**
 * The need at another width: by area and by the published chart, each with pattern repeat, shrinkage and waste added.
 *
 * @returns lengths in the studio's unit of cloth, unrounded
 */
export const clothNeed = (said: NeedSaid, clothUnit: 'm' | 'yd'): ClothNeed => {
  const [width, other] = [new Decimal(said.width.mm), new Decimal(said.otherWidth.mm)];
  const repeat = extraForRepeat(new Decimal(said.repeat.mm || 0).div(MM_PER[clothUnit]), said.stacked);
  const onTop = (length: Decimal): NeedSteps => {
    const shrunk = beforeShrinking(length.plus(repeat), said.shrinkage ?? new Decimal(0));
    return {
      length,
      repeat,
      shrunk,
      toBuy: quantityWithWaste(shrunk, said.waste ?? new Decimal(0), said.wasteOf),
    };
  };
  const byArea = onTop(lengthAtWidth(said.length, width, other));
  const yards = clothUnit === 'yd' ? said.length : said.length.div(METRES_PER_YARD);
  try {
    const read = needByChart(yards, width.div(MM_PER_INCH), other.div(MM_PER_INCH), said.oneWay);
    const length = clothUnit === 'yd' ? read.yards : read.yards.times(METRES_PER_YARD);
    return { unit: clothUnit, byArea, byChart: { ...onTop(length), read }, noChart: '' };
  } catch (trouble) {
    if (!(trouble instanceof Trouble)) throw trouble;
    return { unit: clothUnit, byArea, byChart: undefined, noChart: trouble.message };
  }
};
