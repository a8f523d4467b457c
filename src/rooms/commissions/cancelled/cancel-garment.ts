import { netOfExtra, standingExtras } from '../../../domain/commissions/extra.js';
import type { Garment } from '../../../domain/commissions/garment.js';
import { type GarmentMark, standingMarks } from '../../../domain/commissions/garment-mark.js';
import {
  type CancelledFigures,
  percentagesIn,
  type TermsFigure,
} from '../../../domain/commissions/hand-over.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { Conflict } from '../../../domain/kernel/errors.js';
import { Money } from '../../../domain/kernel/money.js';
import { agreedPlanBook } from '../../../storage/books/bench/agreed-plan-book.js';
import { garmentMarkBook } from '../../../storage/books/bench/garment-mark-book.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { quoteBook } from '../../../storage/books/papers/quote-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import type { Clock } from '../../../storage/clock.js';
import type { Reading, Visit } from '../../../storage/session.js';
import type { Done, UnitOfWork } from '../../../storage/unit-of-work.js';
import { landingTold } from '../landing/gather-landing.js';
import { garmentSubject } from '../open-commission.js';

/** What a garment came to so far, beside what the terms name: figures, and no proposal of what is owed. */
export type CancelledTold = {
  /** None while the studio has no rates. */
  readonly figures: CancelledFigures | undefined;
  readonly agreedPrice: Money | undefined;
  readonly quoteName: string;
  readonly terms: readonly TermsFigure[];
};

/** Gathers the figures of a garment that is, or may be, cancelled. */
export const cancelledTold = async (
  reading: Reading,
  clock: Clock,
  garment: Garment,
): Promise<CancelledTold> => {
  const { identity } = await studioBook.the(reading);
  const told = await landingTold(reading, clock, garment.id);
  const soFar = told?.landing.soFar;
  const { quote, quotedNet, extras } = await agreedPlanBook.of(reading, garment.id);
  const agreedPrice =
    quotedNet && Money.sum([quotedNet, ...standingExtras(extras).map(netOfExtra)], identity.currency);
  return {
    figures: soFar && {
      minutes: soFar.minutes,
      materials: soFar.materials,
      time: soFar.labour.plus(soFar.machine).plus(soFar.overhead),
      expenses: soFar.expenses,
      cost: soFar.cost,
    },
    agreedPrice,
    quoteName: quote ? `${quote.number}, version ${quote.edition}` : '',
    terms: quote && agreedPrice ? percentagesIn(await termsOf(reading, quote.id), agreedPrice) : [],
  };
};

const termsOf = async (reading: Reading, quoteId: string): Promise<string[]> => {
  const { document } = await quoteBook.one(reading, quoteId);
  const { draft } = JSON.parse(document) as { draft?: { terms?: string[] } };
  return draft?.terms ?? [];
};

/** Records that a garment was cancelled. What it cost stays on record. @throws Conflict when it is closed, cancelled or gone */
export const cancelGarment = (
  unit: UnitOfWork,
  visit: Visit,
  garmentId: string,
  said: { readonly on: CalendarDate; readonly words: string },
): Promise<Done<GarmentMark>> =>
  unit.write(visit, async (writing) => {
    const garment = await garmentBook.one(writing, garmentId);
    await garmentMarkBook.mustBeOpen(writing, garmentId);
    const marks = standingMarks(await garmentMarkBook.ofGarment(writing, garmentId));
    if (marks.some(({ kind }) => kind === 'delivered'))
      throw new Conflict(
        'It was handed over: there is nothing to cancel. Take the hand-over back first.',
        'delivered',
      );
    writing.says(`Cancelled the ${garment.name}: ${said.words}`, garmentSubject(garment));
    return garmentMarkBook.add(writing, {
      garmentId,
      commissionId: garment.commissionId,
      kind: 'cancelled',
      operationId: undefined,
      on: said.on,
      words: said.words,
      document: '',
    });
  });

/** Records that a notice about work that nobody collected was written, with its words. @throws Conflict as for cancelling */
export const keepNotice = (
  unit: UnitOfWork,
  visit: Visit,
  garmentId: string,
  said: { readonly on: CalendarDate; readonly words: string },
): Promise<Done<GarmentMark>> =>
  unit.write(visit, async (writing) => {
    const garment = await garmentBook.one(writing, garmentId);
    await garmentMarkBook.mustBeOpen(writing, garmentId);
    writing.says(`Wrote a notice that the ${garment.name} waits to be collected`, garmentSubject(garment));
    return garmentMarkBook.add(writing, {
      garmentId,
      commissionId: garment.commissionId,
      kind: 'notice',
      operationId: undefined,
      on: said.on,
      words: said.words,
      document: '',
    });
  });
