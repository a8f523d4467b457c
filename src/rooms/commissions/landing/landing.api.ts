import { Controller, Get, Param } from '@nestjs/common';
import type { CostColumn } from '../../../domain/commissions/landing/columns.js';
import { CHANCES, type Landing } from '../../../domain/commissions/landing/landing.js';
import { Conflict } from '../../../domain/kernel/errors.js';
import { Clock } from '../../../storage/clock.js';
import { ReadSide } from '../../../storage/read-side.js';
import { Describe } from '../../../web/api/describe.js';
import { answer, type Reply } from '../../../web/reply.js';
import { commissionLandingTold } from './gather-commission.js';
import { type LandingTold, landingTold } from './gather-landing.js';

const noRates = (): Conflict =>
  new Conflict(
    'The studio has no rates yet, so nothing can be said about money. Set them in Rates.',
    'no-rates',
  );

/** Where garments and commissions will land, for programs. */
@Controller('api')
export class LandingApi {
  constructor(
    private readonly read: ReadSide,
    private readonly clock: Clock,
  ) {}

  @Get('garments/:garment/forecast')
  @Describe({
    summary: 'Where a garment will land: so far, left and in all at even chance, 4 in 5 and 9 in 10',
    description:
      'Minutes and money so far, what is left given what was worked on this garment, the minute at which the margin is gone, what the hour earns, and earned value beside it.',
  })
  async ofGarment(@Param('garment') garment: string): Promise<Reply> {
    const told = await landingTold(this.read, this.clock, garment);
    if (!told) throw noRates();
    return answer(forecastInJson(told));
  }

  @Get('commissions/:commission/forecast')
  @Describe({ summary: 'Where a commission will land, by the joint forecast of its garments' })
  async ofCommission(@Param('commission') commission: string): Promise<Reply> {
    const told = await commissionLandingTold(this.read, this.clock, commission);
    if (!told) throw noRates();
    return answer({
      ...landingInJson(told.landing),
      garments: told.garments.map((one) => ({
        garment: one.work.planned.garment.id,
        standing: one.work.standing,
        ...landingInJson(one.landing),
      })),
    });
  }
}

/** A column of a cost sheet: minutes as decimal text, money as everywhere. */
export const columnInJson = (column: CostColumn): object => ({
  minutes: column.minutes,
  materials: column.materials,
  labour: column.labour,
  machine: column.machine,
  overhead: column.overhead,
  overheadByPool: Object.fromEntries(column.overheadByPool),
  expenses: column.expenses,
  cost: column.cost,
});

/** The four columns of a garment's cost sheet; `actual` is null until its reckoning is closed. */
export const columnsInJson = ({ planned, landing, work: { reckoned } }: LandingTold): object => ({
  planned: columnInJson(planned),
  soFar: columnInJson(landing.soFar),
  forecast: columnInJson(landing.at['0.5'].cost),
  actual: reckoned?.cost ?? null,
});

const landingInJson = (landing: Landing): object => ({
  soFar: { minutes: landing.soFar.minutes, cost: landing.soFar.cost },
  forecast: Object.fromEntries(
    CHANCES.map((chance) => {
      const { minutes, left, cost, profit, earnedPerHour } = landing.at[chance];
      return [chance, { minutes, left, cost: cost.cost, profit, earnedPerHour }];
    }),
  ),
  price: landing.price,
  marginGoneAt: landing.marginGoneAt,
  chanceOfLoss: landing.chanceOfLoss,
  rests: landing.rests,
  doubt: landing.doubt,
  mendingLeftMinutes: landing.mendingLeft,
});

const forecastInJson = ({ work, landing, isAgreed }: LandingTold): object => {
  const { progress, earned } = landing;
  return {
    standing: work.standing,
    ...landingInJson(landing),
    isAgreed,
    ownErrorMinutes: progress.ownError,
    besideMinutes: progress.beside,
    operations: progress.operations.map(({ operation, planned, minutes, state }) => ({
      operation: operation.id,
      name: operation.name,
      plannedMinutes: planned,
      minutes,
      state,
    })),
    leftOut: progress.leftOut.map(({ id }) => id),
    earnedValue: earned && {
      ...earned,
      costPerformance: earned.costPerformance?.toDecimalPlaces(6) ?? null,
      schedulePerformance: null,
      plannedValue: null,
    },
  };
};
