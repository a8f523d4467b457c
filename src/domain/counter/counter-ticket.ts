import { type CalendarDate, daysBetween } from '../kernel/calendar-date.js';
import { type FieldTrouble, Invalid } from '../kernel/errors.js';
import { Money } from '../kernel/money.js';

/** One job on a ticket; without a price where nobody who knows it has said it yet. */
export type CounterLine = { readonly job: string; readonly price: Money | undefined };

/** The most jobs on one ticket. */
export const MOST_JOBS = 20;

/** Work over the counter: something came in, small jobs are done to it, somebody collects it. */
export type CounterTicket = {
  readonly id: string;
  readonly version: number;
  readonly number: string;
  readonly cameOn: CalendarDate;
  /** Whose it is. */
  readonly name: string;
  readonly reachedAt: string;
  readonly what: string;
  /** The state it came in: a stain, a missing button. */
  readonly found: string;
  readonly currency: string;
  readonly lines: readonly CounterLine[];
  readonly readyBy: CalendarDate | undefined;
  readonly readyOn: CalendarDate | undefined;
  readonly collectedOn: CalendarDate | undefined;
  readonly collectedBy: string;
  readonly notes: string;
};

/**
 * What a ticket comes to: Σ prices that are known, without tax.
 *
 * @returns the sum, exact, and how many jobs have no price yet
 * @see test/domain/counter/counter-ticket.test.ts
 */
export const counterComesTo = ({
  lines,
  currency,
}: Pick<CounterTicket, 'lines' | 'currency'>): { readonly total: Money; readonly open: number } => ({
  total: Money.sum(
    lines.flatMap(({ price }) => price ?? []),
    currency,
  ),
  open: lines.filter(({ price }) => price === undefined).length,
});

/** Where it stands: in work, late, ready and waiting, or collected. */
export type CounterState = 'in-work' | 'late' | 'ready' | 'collected';

/** @param today the studio's day */
export const counterState = (
  { readyBy, readyOn, collectedOn }: Pick<CounterTicket, 'readyBy' | 'readyOn' | 'collectedOn'>,
  today: CalendarDate,
): CounterState => {
  if (collectedOn) return 'collected';
  if (readyOn) return 'ready';
  return readyBy && readyBy < today ? 'late' : 'in-work';
};

/**
 * How many days it has been ready and not collected.
 *
 * @returns whole days, 0 on the day it was ready and while it is not
 * @see test/domain/counter/counter-ticket.test.ts
 */
export const daysWaiting = (
  { readyOn, collectedOn }: Pick<CounterTicket, 'readyOn' | 'collectedOn'>,
  today: CalendarDate,
): number => (readyOn && !collectedOn ? Math.max(0, daysBetween(readyOn, today)) : 0);

/**
 * A ticket as somebody says it, checked.
 *
 * @param today the studio's day
 * @returns the same words
 * @throws Invalid per field: no jobs or too many, a price below nought, days in the wrong order or still to come
 * @see test/domain/counter/counter-ticket.test.ts
 */
export const checkCounter = <
  T extends Pick<CounterTicket, 'lines' | 'cameOn' | 'readyBy' | 'readyOn' | 'collectedOn'>,
>(
  said: T,
  today: CalendarDate,
): T => {
  const troubles: FieldTrouble[] = [];
  const refuse = (field: string, text: string): void => {
    troubles.push({ field, text });
  };
  if (said.lines.length === 0) refuse('lines.0.job', 'Write down at least one job.');
  if (said.lines.length > MOST_JOBS) refuse('lines.0.job', `At most ${MOST_JOBS} jobs on one ticket.`);
  said.lines.forEach(({ price }, place) => {
    if (price?.isNegative()) refuse(`lines.${place}.price`, 'A price cannot be less than nought.');
  });
  if (said.cameOn > today) refuse('cameOn', 'This day is still to come.');
  if (said.readyBy && said.readyBy < said.cameOn) refuse('readyBy', 'This day is before it came in.');
  if (said.readyOn && said.readyOn < said.cameOn) refuse('readyOn', 'This day is before it came in.');
  if (said.readyOn && said.readyOn > today) refuse('readyOn', 'This day is still to come.');
  if (said.collectedOn && said.collectedOn < said.cameOn)
    refuse('collectedOn', 'This day is before it came in.');
  if (said.collectedOn && said.collectedOn > today) refuse('collectedOn', 'This day is still to come.');
  if (troubles.length > 0) throw new Invalid(troubles[0]?.text ?? 'This cannot be kept.', troubles);
  return said;
};
