import { garmentStanding, isOpen, operationMarks } from '../../../domain/commissions/garment-mark.js';
import type { Correction } from '../../../domain/fitting/correction.js';
import type { Fitting } from '../../../domain/fitting/fitting.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import type { MakingPlan } from '../../../domain/making/making-plan.js';
import type { Account } from '../../../domain/papers/settlement/account.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import { clientBook } from '../../../storage/books/client-book.js';
import { commissionBook } from '../../../storage/books/commission-book.js';
import { fittingBook } from '../../../storage/books/fitting/fitting-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { clientAccountBook } from '../../../storage/books/papers/client-account-book.js';
import { planBook } from '../../../storage/books/plan-book.js';
import type { Reading } from '../../../storage/session.js';

/** A garment that is about to be tried on. */
export type GarmentAhead = {
  readonly id: string;
  readonly name: string;
  readonly place: number;
  /** Basting of its plan that is neither finished nor left out. */
  readonly toBaste: MakingPlan;
  /** What its last held fitting showed; none before the first. */
  readonly last: { readonly on: CalendarDate; readonly corrections: readonly Correction[] } | undefined;
};

/** A fitting that is about to be held, with what must be ready for it. */
export type FittingAhead = {
  readonly fitting: Fitting;
  readonly number: string;
  readonly wearers: readonly string[];
  readonly garments: readonly GarmentAhead[];
  /** How whoever pays stands. */
  readonly account: Account;
};

/**
 * The fittings planned for a day, by their time: what must be basted for them, what the last one showed, how the payer
 * stands. Garments that were closed or cancelled meanwhile are left out, and a fitting of none but those.
 */
export const fittingsAhead = async (reading: Reading, on: CalendarDate): Promise<FittingAhead[]> => {
  const planned = (await fittingBook.between(reading, on, on)).filter(({ state }) => state === 'planned');
  const ahead: FittingAhead[] = [];
  for (const fitting of planned) {
    const commission = await commissionBook.one(reading, fitting.commissionId);
    const own = (await garmentBook.ofCommission(reading, commission.id)).filter(({ id }) =>
      fitting.garmentIds.includes(id),
    );
    const marks = await garmentMarkBook.ofGarments(
      reading,
      own.map(({ id }) => id),
    );
    const wearers = new Set<string>();
    const garments: GarmentAhead[] = [];
    for (const { id, name, place, wearerId } of own) {
      const marked = marks.get(id) ?? [];
      if (!isOpen(garmentStanding(marked))) continue;
      const { finished, leftOut } = operationMarks(marked);
      const plan = await planBook.of(reading, id);
      const last = await fittingBook.lastCorrections(reading, id);
      wearers.add((await clientBook.one(reading, wearerId)).name);
      garments.push({
        id,
        name,
        place,
        toBaste: plan.filter(
          (one) => (one.basting || one.stage === 'baste') && !finished.has(one.id) && !leftOut.has(one.id),
        ),
        last: last && { on: last.fitting.on, corrections: last.corrections },
      });
    }
    if (garments.length === 0) continue;
    const { account } = await clientAccountBook.of(reading, commission.payerId);
    ahead.push({ fitting, number: commission.number, wearers: [...wearers], garments, account });
  }
  return ahead;
};
