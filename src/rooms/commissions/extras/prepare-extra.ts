import type { ExtraKind, ExtraWords } from '../../../domain/commissions/extra.js';
import { causeRule } from '../../../domain/costing/cause-rules.js';
import type { Cause } from '../../../domain/costing/causes.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { Invalid } from '../../../domain/kernel/errors.js';
import { Money } from '../../../domain/kernel/money.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import type { Clock } from '../../../storage/clock.js';
import type { Reading } from '../../../storage/session.js';
import { taxOf } from '../../../web/papers/house-on-paper.js';
import { readExtraWork, saysNothing, type WorkSaid, wordingOf } from './extra-work.js';
import { type ExtraWorkedOut, workOutExtra } from './work-out-extra.js';

/** What is said about an extra; what is left out is worked out. */
export type ExtraSaid = {
  readonly garmentId: string;
  readonly cause: Cause;
  readonly kind: ExtraKind;
  readonly wording?: string | undefined;
  readonly price?: Money | undefined;
  readonly dueAfter?: CalendarDate | undefined;
  readonly work: WorkSaid;
};

/**
 * An extra ready to be offered, with what it does to hours, price and day.
 *
 * @throws Invalid where the cause is no extra, nothing is said, or something cannot be meant
 */
export const prepareExtra = async (
  reading: Reading,
  clock: Clock,
  said: ExtraSaid,
  newId: () => string,
): Promise<{ words: ExtraWords; out: ExtraWorkedOut }> => {
  const rule = causeRule(said.cause);
  if (!rule.mayBeExtra) throw Invalid.field('cause', rule.follows);
  if (saysNothing(said.work))
    throw Invalid.field('lines.0.line', 'Say what is to be done, or what is left out.');
  const planned = await garmentBook.planned(reading, said.garmentId);
  const studio = await studioBook.the(reading);
  const work = await readExtraWork(reading, planned, said.work, newId);
  const out = await workOutExtra(reading, clock, planned, work);
  const { category, rate } = taxOf(studio);
  const nothing = Money.zero(studio.identity.currency);
  return {
    out,
    words: {
      commissionId: planned.garment.commissionId,
      garmentId: said.garmentId,
      cause: said.cause,
      kind: said.kind,
      wording: said.wording || wordingOf(work),
      price: said.kind === 'compliments' ? nothing : (said.price ?? out.price ?? nothing),
      pricesInclude: out.withTax ? 'tax' : 'none',
      category,
      rate,
      work,
      dueBefore: out.dueBefore,
      dueAfter: said.dueAfter ?? out.dueAfter,
      takesBack: undefined,
    },
  };
};
