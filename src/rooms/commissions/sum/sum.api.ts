import { Controller, Get, Param } from '@nestjs/common';
import type { GarmentSum, ThreeChances } from '../../../domain/commissions/garment-sum.js';
import { Conflict } from '../../../domain/kernel/errors.js';
import { Clock } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import { answer, type Reply } from '../../../web/reply.js';
import { landingTold } from '../landing/gather-landing.js';
import { columnsInJson } from '../landing/landing.api.js';
import { sumOf } from './sum-of.js';

/** The sum of a garment for programs: hours at each degree of certainty, cost sheet and price. */
@Controller('api/garments/:garment/cost-sheet')
export class SumApi {
  constructor(
    private readonly read: ReadSide,
    private readonly clock: Clock,
  ) {}

  @Get()
  async costSheet(@Param('garment') garment: string): Promise<Reply> {
    const sum = await sumOf(this.read, this.clock, garment);
    if (!sum)
      throw new Conflict('The studio has no rates yet, so there is no sum. Set them in Rates.', 'no-rates');
    const told = await landingTold(this.read, this.clock, garment);
    return answer({ ...sumInJson(sum), ...(told ? { columns: columnsInJson(told) } : {}) });
  }
}

const three = (chances: ThreeChances): object => ({
  '0.5': chances.even,
  '0.8': chances.fourInFive,
  '0.9': chances.nineInTen,
});

/** Minutes and shares as decimal strings, money as in the rest of the interface. */
export const sumInJson = (sum: GarmentSum): object => {
  const { costSheet, price, keptBack, chanceOfLoss } = sum.answer;
  return {
    plannedMinutes: sum.planned,
    hours: {
      rests: sum.hours.rests,
      total: three(sum.hours.total),
      byMode: Object.fromEntries(sum.hours.byMode.map((mode) => [mode.mode, three(mode)])),
      doubt: sum.hours.doubt,
    },
    costSheet: {
      materials: costSheet.materials,
      labour: costSheet.labour,
      machine: costSheet.machine,
      overhead: costSheet.overhead,
      overheadByPool: Object.fromEntries(costSheet.overheadByPool),
      expenses: costSheet.expenses,
      mending: costSheet.mending.money,
      cost: costSheet.cost,
    },
    price: {
      net: price.net,
      tax: price.tax,
      gross: price.gross,
      profit: price.profit,
      margin: price.margin?.toDecimalPlaces(6) ?? null,
      markup: price.markup?.toDecimalPlaces(6) ?? null,
      earnedPerHour: price.earnedPerHour,
      lowestThatPaysTheWage: price.lowestThatPaysTheWage,
      stashUplift: price.stashUplift,
      handling: price.handling,
      rush: price.rush,
    },
    keptBack,
    chanceOfLoss,
    untimed: sum.untimed,
  };
};
