import { type CalendarDate, daysBetween } from '../kernel/calendar-date.js';
import { Decimal } from '../kernel/decimal.js';
import { type FieldTrouble, Invalid } from '../kernel/errors.js';
import type { Money } from '../kernel/money.js';

/** What one piece of a kind of work is paid. */
export type PieceRate = { readonly work: string; readonly price: Money };

/** A person or firm that does piece work outside the house. */
export type Outworker = {
  readonly id: string;
  readonly version: number;
  readonly name: string;
  readonly reachedAt: string;
  readonly rates: readonly PieceRate[];
  readonly notes: string;
};

/** A piece of work that went out. */
export type OutworkTicket = {
  readonly id: string;
  readonly version: number;
  readonly number: string;
  readonly outworkerId: string;
  readonly commissionId: string;
  readonly garmentId: string;
  readonly garmentName: string;
  readonly work: string;
  readonly pieces: number;
  readonly pieceRate: Money;
  readonly outOn: CalendarDate;
  readonly dueOn: CalendarDate | undefined;
  readonly backOn: CalendarDate | undefined;
  readonly checkedOn: CalendarDate | undefined;
  /** What was found when it was checked. */
  readonly found: string;
  readonly notes: string;
};

/** The most pieces on one ticket. */
export const MOST_PIECES = 9999;

/** Where a ticket stands. It is owed from the day the work is back until it is paid. */
export type OutworkState = 'out' | 'back' | 'checked' | 'paid';

export const OUTWORK_STATES: Readonly<Record<OutworkState, string>> = {
  out: 'out',
  back: 'back, to be checked',
  checked: 'back and checked',
  paid: 'paid',
};

/** What the outworker is owed for it: pieces × piece rate, exact. */
export const outworkComesTo = ({ pieces, pieceRate }: Pick<OutworkTicket, 'pieces' | 'pieceRate'>): Money =>
  pieceRate.timesRounded(new Decimal(pieces));

/** @param isPaid whether a bill that stands pays it */
export const outworkState = (
  { backOn, checkedOn }: Pick<OutworkTicket, 'backOn' | 'checkedOn'>,
  isPaid: boolean,
): OutworkState => (isPaid ? 'paid' : checkedOn ? 'checked' : backOn ? 'back' : 'out');

/**
 * How many days the work is late: after the day it was due, while it is out.
 *
 * @returns whole days, 0 when it is not late, has no due day or is back
 * @see test/domain/outwork/outwork.test.ts
 */
export const daysLate = (
  { dueOn, backOn }: Pick<OutworkTicket, 'dueOn' | 'backOn'>,
  today: CalendarDate,
): number => (dueOn && !backOn && dueOn < today ? daysBetween(dueOn, today) : 0);

/**
 * A ticket as somebody says it, checked.
 *
 * @param today the studio's day
 * @returns the same words
 * @throws Invalid per field: pieces not whole from 1 to 9,999, a rate below nought, days in the wrong order or still to come
 * @see test/domain/outwork/outwork.test.ts
 */
export const checkOutwork = <
  T extends Pick<OutworkTicket, 'pieces' | 'pieceRate' | 'outOn' | 'dueOn' | 'backOn' | 'checkedOn'>,
>(
  said: T,
  today: CalendarDate,
): T => {
  const troubles: FieldTrouble[] = [];
  const refuse = (field: string, text: string): void => {
    troubles.push({ field, text });
  };
  if (!Number.isInteger(said.pieces) || said.pieces < 1 || said.pieces > MOST_PIECES)
    refuse('pieces', 'Write a whole number from 1 to 9,999.');
  if (said.pieceRate.isNegative()) refuse('pieceRate', 'A piece rate cannot be less than nought.');
  if (said.dueOn && said.dueOn < said.outOn) refuse('dueOn', 'This day is before it went out.');
  if (said.backOn && said.backOn < said.outOn) refuse('backOn', 'This day is before it went out.');
  if (said.backOn && said.backOn > today) refuse('backOn', 'This day is still to come.');
  if (said.checkedOn && (!said.backOn || said.checkedOn < said.backOn))
    refuse('checkedOn', 'It can be checked once it is back.');
  if (said.checkedOn && said.checkedOn > today) refuse('checkedOn', 'This day is still to come.');
  if (troubles.length > 0) throw new Invalid(troubles[0]?.text ?? 'This cannot be kept.', troubles);
  return said;
};
