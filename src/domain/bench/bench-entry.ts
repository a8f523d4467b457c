import type { Cause } from '../costing/causes.js';
import type { CalendarDate, Instant } from '../kernel/calendar-date.js';
import { type FieldTrouble, Invalid } from '../kernel/errors.js';
import type { Minutes } from '../kernel/minutes.js';
import type { Mode, Stage } from '../making/mode.js';

/** Time that belongs to no garment, by kind. */
export const AWAY_KINDS = ['teaching', 'post', 'sweeping', 'samples', 'sourcing', 'other'] as const;
export type AwayKind = (typeof AWAY_KINDS)[number];

/** Kinds of time without a garment, in words. */
export const AWAY_WORDS: Readonly<Record<AwayKind, string>> = {
  teaching: 'teaching',
  post: 'letters and the telephone',
  sweeping: 'sweeping and care of tools',
  samples: 'samples and trials',
  sourcing: 'looking for cloth and trimmings',
  other: 'other work without a garment',
};

/** How an entry came about. */
export const ENTRY_WAYS = ['clock', 'line', 'sheet', 'split', 'correction'] as const;
export type EntryWay = (typeof ENTRY_WAYS)[number];

/** What the minutes went into: an operation, a whole stage, or time without a garment. */
export type WorkedOn = {
  readonly commissionId: string | undefined;
  readonly garmentId: string | undefined;
  /** The line of the plan; none for a whole stage, for work that was not planned, and for time without a garment. */
  readonly operationId: string | undefined;
  /** What it counts as among past work: the operation's kind; empty for a whole stage or time without a garment. */
  readonly kind: string;
  readonly name: string;
  readonly stage: Stage | undefined;
  /** None for a whole stage: its minutes go by the modes of its operations. */
  readonly mode: Mode | undefined;
  readonly away: AwayKind | undefined;
};

/** Minutes that one person worked. Entries are added, never changed; a wrong one is reversed by another. */
export type BenchEntry = WorkedOn & {
  readonly id: string;
  readonly personId: string;
  readonly personName: string;
  readonly garmentName: string;
  /** Below nought only in a reversal. */
  readonly minutes: Minutes;
  /** The day it was worked, in the studio's zone: of a sitting over midnight the day it began. */
  readonly on: CalendarDate;
  /** Where a clock ran: from when to when. */
  readonly begunAt: Instant | undefined;
  readonly endedAt: Instant | undefined;
  /** Why it was not in the plan; none for planned work. */
  readonly cause: Cause | undefined;
  /** The agreed or given extra it belongs to. */
  readonly extraId: string | undefined;
  readonly way: EntryWay;
  /** The entry this one reverses. */
  readonly of: string | undefined;
  readonly note: string;
  readonly writtenAt: Instant;
};

/** What one sitting can be: longer is a slip of the pen. */
export const LONGEST_SITTING = 24 * 60;

/**
 * Minutes as somebody says they worked them, checked.
 *
 * @param today the studio's day; nobody has worked tomorrow yet
 * @returns the same minutes
 * @throws Invalid per field: none or more than 24 hours, a day still to come, both a garment and no garment
 * @see test/domain/bench/worked.test.ts
 */
export const checkWorked = <
  T extends {
    readonly minutes: Minutes;
    readonly on: CalendarDate;
    readonly garmentId?: string | undefined;
    readonly away?: AwayKind | undefined;
  },
>(
  said: T,
  today: CalendarDate,
): T => {
  const troubles: FieldTrouble[] = [];
  if (!Number.isInteger(said.minutes) || said.minutes < 1)
    troubles.push({ field: 'minutes', text: 'Write at least one minute.' });
  else if (said.minutes > LONGEST_SITTING)
    troubles.push({ field: 'minutes', text: 'One sitting is at most 24 hours: write the days one by one.' });
  if (said.on > today) troubles.push({ field: 'on', text: 'This day is still to come.' });
  if (Boolean(said.garmentId) === Boolean(said.away))
    troubles.push({ field: 'garment', text: 'Say which garment it was for, or that it was for none.' });
  if (troubles.length > 0) throw new Invalid(troubles[0]?.text ?? 'These minutes cannot be kept.', troubles);
  return said;
};
