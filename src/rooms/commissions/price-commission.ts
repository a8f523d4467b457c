import type { Commission } from '../../domain/commissions/commission.js';
import { commissionBook } from '../../storage/books/commission-book.js';
import type { Visit } from '../../storage/session.js';
import type { Done, UnitOfWork } from '../../storage/unit-of-work.js';
import { commissionSubject } from './open-commission.js';
import type { PricingSaid } from './pricing.form.js';

/** Chooses what a commission is priced by. @throws Stale when somebody changed it meanwhile */
export const priceCommission = (
  unit: UnitOfWork,
  visit: Visit,
  id: string,
  said: PricingSaid,
  seen?: number,
): Promise<Done<Commission>> =>
  unit.write(visit, async (writing) => {
    const present = await commissionBook.one(writing, id);
    const commission = await commissionBook.correct(writing, { ...present, ...said }, seen);
    writing.says(`Changed how ${commission.number} is priced`, commissionSubject(id));
    return commission;
  });
