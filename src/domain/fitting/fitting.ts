import type { CalendarDate, Instant } from '../kernel/calendar-date.js';
import { isCalendarDate } from '../kernel/calendar-date.js';
import { Conflict, type FieldTrouble, Invalid } from '../kernel/errors.js';
import type { Minutes } from '../kernel/minutes.js';

/** What is tried on: a trial in plain cloth, the basted garment, the garment put together, the finished one. */
export const FITTING_KINDS = ['toile', 'baste', 'forward', 'finish'] as const;
export type FittingKind = (typeof FITTING_KINDS)[number];

/** The kinds in words; common practice of the trade, no source. */
export const FITTING_KIND_WORDS: Readonly<Record<FittingKind, string>> = {
  toile: 'toile fitting',
  baste: 'baste fitting',
  forward: 'forward fitting',
  finish: 'finish fitting',
};

/** How a fitting stands. */
export const FITTING_STATES = ['planned', 'held', 'missed', 'put-off'] as const;
export type FittingState = (typeof FITTING_STATES)[number];

/** The states in words. */
export const FITTING_STATE_WORDS: Readonly<Record<FittingState, string>> = {
  planned: 'planned',
  held: 'held',
  missed: 'missed',
  'put-off': 'put off',
};

/** One fitting of one or several garments. */
export type Fitting = {
  readonly id: string;
  readonly version: number;
  readonly commissionId: string;
  /** The garments that are tried on, at least one. */
  readonly garmentIds: readonly string[];
  readonly kind: FittingKind;
  readonly on: CalendarDate;
  /** `HH:MM` on the clock of the studio's zone. */
  readonly at: string;
  readonly minutes: Minutes;
  readonly state: FittingState;
  /** Who was there beside the wearer. */
  readonly present: string;
  /** Shoes, shirt, corset: what the body wore. */
  readonly worn: string;
  /** Who stood by for a child. */
  readonly guardian: string;
  readonly notes: string;
  /** Why it was missed or put off. */
  readonly reason: string;
  readonly patternChanged: boolean;
  /** What was changed on the pattern, in words. */
  readonly patternWords: string;
  /** The fitting that follows from it: the next date, or the day it was put off to. */
  readonly nextId: string | undefined;
  /** When this state of it was written. */
  readonly changedAt: Instant;
};

/** The longest fitting: a longer one is a slip of the pen. */
export const LONGEST_FITTING: Minutes = 8 * 60;

/** What a fitting takes unless it is said; common practice, no source. */
export const USUAL_FITTING: Minutes = 45;

/** A day and a time as it is planned, checked. @throws Invalid per field */
export const checkPlanned = <
  T extends {
    readonly garmentIds: readonly string[];
    readonly on: CalendarDate;
    readonly at: string;
    readonly minutes: Minutes;
  },
>(
  said: T,
): T => {
  const troubles: FieldTrouble[] = [];
  if (said.garmentIds.length === 0)
    troubles.push({ field: 'garments', text: 'Tick at least one garment to be tried on.' });
  if (!isCalendarDate(said.on)) troubles.push({ field: 'on', text: 'Give the day.' });
  if (!/^([01]\d|2[0-3]):[0-5]\d$/.test(said.at))
    troubles.push({ field: 'at', text: 'Write the time like 14:30.' });
  if (!Number.isInteger(said.minutes) || said.minutes < 5)
    troubles.push({ field: 'minutes', text: 'A fitting takes at least 5 minutes.' });
  else if (said.minutes > LONGEST_FITTING)
    troubles.push({ field: 'minutes', text: 'A fitting takes at most 8 hours. Plan two.' });
  if (troubles.length > 0) throw new Invalid(troubles[0]?.text ?? 'This cannot be planned.', troubles);
  return said;
};

/**
 * May this still be held, missed or put off? What was held stays held; a missed one or one put off is planned anew.
 *
 * @throws Conflict when it is planned no more
 */
export const mustBePlanned = ({ state }: Pick<Fitting, 'state'>): void => {
  if (state !== 'planned')
    throw new Conflict(`This fitting was ${FITTING_STATE_WORDS[state]} already.`, 'fitting-not-planned');
};

/**
 * A fitting that is held, checked.
 *
 * @param today nobody has held a fitting tomorrow yet
 * @param ofChild is one of the wearers a child on that day? Then the guardian who stood by is named
 * @throws Invalid per field
 * @see test/domain/fitting/fitting.test.ts
 */
export const checkHeld = <
  T extends {
    readonly on: CalendarDate;
    readonly guardian: string;
    readonly patternChanged: boolean;
    readonly patternWords: string;
  },
>(
  said: T,
  today: CalendarDate,
  ofChild: boolean,
): T => {
  const troubles: FieldTrouble[] = [];
  if (said.on > today) troubles.push({ field: 'on', text: 'This day is still to come.' });
  if (ofChild && said.guardian === '')
    troubles.push({
      field: 'guardian',
      text: 'A child is fitted with a guardian present. Write who it was.',
    });
  if (said.patternChanged && said.patternWords === '')
    troubles.push({ field: 'patternWords', text: 'Write what was changed on the pattern.' });
  if (troubles.length > 0) throw new Invalid(troubles[0]?.text ?? 'This cannot be kept.', troubles);
  return said;
};
