import { costSoFar, hourOnFrom } from '../../../domain/commissions/landing/columns.js';
import type { StudioIdentity } from '../../../domain/house/studio.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { Invalid } from '../../../domain/kernel/errors.js';
import { Money } from '../../../domain/kernel/money.js';
import {
  type YearsGarments,
  type YearsHours,
  yearsGarments,
  yearsHours,
} from '../../../domain/rates/year.js';
import { closedBetween, workBetween } from '../../../storage/books/bench/closed-year.js';
import { makingBook } from '../../../storage/books/making-book.js';
import {
  type OverheadYear,
  overheadOfYear,
  usedBetween,
} from '../../../storage/books/money-out/overhead-year.js';
import { invoiceBook } from '../../../storage/books/papers/invoice-book.js';
import { paymentBook } from '../../../storage/books/papers/payment-book.js';
import { ratesBook } from '../../../storage/books/rates-book.js';
import { studioBook } from '../../../storage/books/studio-book.js';
import { type Clock, todayIn } from '../../../storage/clock.js';
import { keptIn, type Reading } from '../../../storage/session.js';

/** A calendar year of the studio, in its own zone; the present one up to today. */
export type Year = {
  readonly identity: StudioIdentity;
  readonly year: string;
  readonly from: CalendarDate;
  readonly to: CalendarDate;
  /** Payments less refunds, by the day they came. */
  readonly received: Money;
  /** Before tax, credit notes not taken off. */
  readonly invoiced: Money;
  readonly credited: Money;
  /** What went from the cloth room into garments, at cost. */
  readonly used: Money;
  readonly hours: YearsHours;
  readonly basting: number;
  /** What own errors cost at the rates of their days; none while the studio has no rates. */
  readonly ownErrorCost: Money | undefined;
  readonly overhead: OverheadYear | undefined;
  readonly garments: YearsGarments;
  readonly typeNames: ReadonlyMap<string, string>;
};

/** The year that was asked for; this one where none was. @throws Invalid for what is no year, or one to come */
export const yearAsked = (asked: string | undefined, today: CalendarDate): string => {
  const present = today.slice(0, 4);
  const year = asked === undefined || asked === '' ? present : asked;
  if (!/^\d{4}$/.test(year) || year < '1900')
    throw Invalid.field('year', 'Write the year in four figures, such as 2026.');
  if (year > present) throw Invalid.field('year', 'This year is still to come.');
  return year;
};

/** Gathers a year. */
export const gatherYear = async (reading: Reading, clock: Clock, asked?: string): Promise<Year> => {
  const { identity } = await studioBook.the(reading);
  const today = todayIn(clock, identity.zone);
  const year = yearAsked(asked, today);
  const last = `${year}-12-31`;
  const to = last < today ? last : today;
  return keptIn(reading, `the year ${year} to ${to}`, () => worked(reading, identity, year, to));
};

const worked = async (
  reading: Reading,
  identity: StudioIdentity,
  year: string,
  to: CalendarDate,
): Promise<Year> => {
  const { currency } = identity;
  const from = `${year}-01-01`;
  const sum = (all: readonly Money[]): Money =>
    Money.sum(
      all.filter((one) => one.currency === currency),
      currency,
    );
  const papers = await invoiceBook.between(reading, from, to);
  const net = (isCredit: boolean): Money =>
    sum(
      papers
        .filter(({ kind }) => (kind === 'credit-note') === isCredit)
        .map(({ total, tax }) => total.minus(tax)),
    );
  const work = await workBetween(reading, from, to);
  const cards = await ratesBook.all(reading);
  const again = work.worked.filter(({ cause }) => cause === 'own error');
  const types = await makingBook.types(reading);
  return {
    identity,
    year,
    from,
    to,
    received: sum(await receivedBetween(reading, from, to)),
    invoiced: net(false),
    credited: net(true),
    used: sum((await usedBetween(reading, from, to, currency)).map(({ cost }) => cost)),
    hours: yearsHours(work.worked, work.away),
    basting: work.basting,
    ownErrorCost:
      cards.length > 0 ? costSoFar(again, [], Money.zero(currency), hourOnFrom(cards)).cost : undefined,
    overhead: await overheadOfYear(reading, to),
    garments: yearsGarments(await closedBetween(reading, from, to), currency),
    typeNames: new Map(types.map(({ id, name }) => [id, name])),
  };
};

/** Payments as they came in; refunds, and what was reversed, stand below nought, on their own days. */
const receivedBetween = async (reading: Reading, from: CalendarDate, to: CalendarDate): Promise<Money[]> => {
  const payments = await paymentBook.between(reading, from, to);
  const cameIn: Money[] = [];
  for (const { kind, of, amount } of payments) {
    const isIn =
      kind === 'payment' ||
      (kind === 'reversal' && of !== undefined && (await paymentBook.one(reading, of)).kind === 'refund');
    cameIn.push(isIn ? amount : amount.negated());
  }
  return cameIn;
};
