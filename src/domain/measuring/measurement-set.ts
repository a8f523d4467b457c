import { type CalendarDate, calendarDate } from '../kernel/calendar-date.js';
import { Conflict, type FieldTrouble, Invalid } from '../kernel/errors.js';
import type { LengthEntry } from './length-entry.js';

/** One dimension taken, as typed; `confirmed` when the person was asked about it and stood by it. */
export type MeasuredValue = {
  readonly dimension: string;
  readonly entry: LengthEntry;
  readonly confirmed: boolean;
};

/** What was measured on one wearer on one day. It is never overwritten: a correction is a new set. */
export type MeasurementSet = {
  readonly id: string;
  readonly wearer: string;
  readonly takenOn: CalendarDate;
  /** Who held the tape. */
  readonly takenBy: string;
  /** What it was measured over: *shirt and trousers*, *laced stays*. */
  readonly over: string;
  /** The figure in neutral words that the client may read. */
  readonly figuration: string;
  readonly values: readonly MeasuredValue[];
};

const LONGEST_NAME = 200;
const LONGEST_FIGURATION = 1000;

/**
 * A measurement set, checked.
 *
 * @param set as filled in; `takenOn` not after `today`
 * @param today the date in the studio's zone
 * @returns the same set, frozen in meaning: change it only by taking another
 * @throws Invalid with one trouble per field: nothing measured, the same dimension twice, a date to come, texts too long
 */
export const measurementSet = (set: MeasurementSet, today: CalendarDate): MeasurementSet => {
  const troubles: FieldTrouble[] = [];
  const say = (field: string, text: string) => troubles.push({ field, text });
  if (calendarDate(set.takenOn) > today) say('takenOn', 'This day is still to come. When was it measured?');
  if (set.takenBy.trim() === '') say('takenBy', 'Who measured? Write a name or initials.');
  if (set.takenBy.length > LONGEST_NAME) say('takenBy', `Keep the name under ${LONGEST_NAME} letters.`);
  if (set.over.length > LONGEST_NAME) say('over', `Keep this under ${LONGEST_NAME} letters.`);
  if (set.figuration.length > LONGEST_FIGURATION)
    say('figuration', `Keep this under ${LONGEST_FIGURATION} letters.`);
  if (set.values.length === 0) say('values', 'Nothing is measured yet. Write at least one measurement.');
  const seen = new Set<string>();
  for (const { dimension } of set.values) {
    if (seen.has(dimension)) say(`values.${dimension}`, 'This is measured twice in one set. Keep one.');
    seen.add(dimension);
  }
  if (troubles.length > 0)
    throw new Invalid(troubles[0]?.text ?? 'These measurements cannot be kept.', troubles);
  return set;
};

const byDate = (a: MeasurementSet, b: MeasurementSet): number =>
  a.takenOn === b.takenOn ? (a.id < b.id ? -1 : 1) : a.takenOn < b.takenOn ? -1 : 1;

/**
 * The sets of one wearer with one more, oldest first.
 *
 * @throws Conflict when a set with this id is there already: a set is never overwritten
 */
export const addSet = (sets: readonly MeasurementSet[], added: MeasurementSet): readonly MeasurementSet[] => {
  if (sets.some((set) => set.id === added.id))
    throw new Conflict('This set is kept already and is not overwritten. Take a new set to correct it.');
  return [...sets, added].sort(byDate);
};

/**
 * The newest set taken on a day or before it; on one day the one kept last.
 *
 * @param before leaves out the set with this id (to compare it with what came earlier)
 */
export const lastSet = (
  sets: readonly MeasurementSet[],
  on: CalendarDate,
  before?: string,
): MeasurementSet | undefined =>
  [...sets]
    .filter((set) => set.takenOn <= on && set.id !== before)
    .sort(byDate)
    .at(-1);

/** What one dimension measured in this set, if it was taken. */
export const takenIn = (set: MeasurementSet, dimension: string): MeasuredValue | undefined =>
  set.values.find((value) => value.dimension === dimension);
