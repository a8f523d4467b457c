import { Decimal } from '../kernel/decimal.js';
import type { ClosedGarment } from './closed-garment.js';

/** Two per cent, worth forty hours of work: judgement, not measurement. */
const BELIEVED = new Decimal('0.02');
const WORTH = 40 * 60;

/** How much mending garments take, and what that rests on. */
export type Mending = {
  readonly garments: number;
  readonly ownErrorMinutes: number;
  /** Own error left out. */
  readonly actualMinutes: number;
  /** Own error ÷ actual as it was; nought without actual minutes. */
  readonly asItWas: Decimal;
  /** The share every price of the type bears. */
  readonly share: Decimal;
};

/**
 * Mending as a share of the work: (own error + 2 % × 40 h) ÷ (actual + 40 h). One bad day in one garment moves it little, a bad habit
 * moves it all the way. Ours: a binomial share begun at a Beta prior, with minutes for trials.
 *
 * @param closed closed garments of any type
 * @param typeId the type; all types where it is left out
 * @returns shares to four decimals; `share` is nought while no garment of the studio is closed: nothing was learnt, so no line
 *   appears in a price. A type never closed in a studio that has closed others bears the starting 2 %.
 * @see test/domain/lessons/what-was-made.test.ts
 */
export const mendingShare = (closed: readonly ClosedGarment[], typeId?: string): Mending => {
  const own = typeId === undefined ? closed : closed.filter((one) => one.typeId === typeId);
  const sum = (of: (one: ClosedGarment) => number) => own.reduce((all, one) => all + of(one), 0);
  const ownErrorMinutes = sum(({ totals }) => totals.ownErrorMinutes);
  const actualMinutes = sum(({ totals }) => totals.actualMinutes);
  return {
    garments: own.length,
    ownErrorMinutes,
    actualMinutes,
    asItWas:
      actualMinutes > 0 ? new Decimal(ownErrorMinutes).div(actualMinutes).toDecimalPlaces(4) : new Decimal(0),
    share:
      closed.length === 0
        ? new Decimal(0)
        : BELIEVED.times(WORTH)
            .plus(ownErrorMinutes)
            .div(actualMinutes + WORTH)
            .toDecimalPlaces(4),
  };
};
