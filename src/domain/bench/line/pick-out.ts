import { addDays, type CalendarDate } from '../../kernel/calendar-date.js';
import type { Minutes } from '../../kernel/minutes.js';
import { asked, type Reading, refused, understood } from '../../measuring/reading.js';

/** How the house reads a time and a day; the line only finds where they stand. */
export type LineReaders = {
  readonly duration: (typed: string) => Reading<Minutes>;
  readonly day: (typed: string) => Reading<CalendarDate>;
};

/** A part that was found in the line, and the line without it. */
export type Picked = { readonly text: string; readonly rest: string };

const UNIT_MINUTES = "(?:minutes?|mins?|m|')";
const UNIT_HOURS = '(?:hours?|hrs?|h)';
const AMOUNT = '(?:\\d{1,6}(?:[.,]\\d{1,6})?|(?:\\d{1,4} )?\\d{1,2}/\\d{1,2})';
const BEFORE = '(?<![\\p{L}\\d/.,:-])';
const AFTER = '(?![\\p{L}\\d/:-])\\.?';
const TIMES = [
  `\\d{1,4}:\\d{2}`,
  `${AMOUNT} ?${UNIT_HOURS}\\.? ?(?:and )?\\d{1,2} ?${UNIT_MINUTES}`,
  `${AMOUNT} ?${UNIT_HOURS} ?\\d{2}`,
  `${AMOUNT} ?${UNIT_HOURS}`,
  `${AMOUNT} ?${UNIT_MINUTES}`,
].map((pattern) => new RegExp(`${BEFORE}${pattern}${AFTER}`, 'u'));
const BARE = new RegExp(`${BEFORE}${AMOUNT}(?![\\p{L}\\d/:-])`, 'gu');
const WEEKDAYS = ['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday'];

const without = (line: string, start: number, length: number): string =>
  `${line.slice(0, start)} ${line.slice(start + length)}`.replace(/ +/g, ' ').trim();

const pick = (line: string, pattern: RegExp): Picked | undefined => {
  const found = pattern.exec(line);
  return found ? { text: found[0].trim(), rest: without(line, found.index, found[0].length) } : undefined;
};

/** A time with its unit: `1h30`, `1 h 30 m`, `2,5 h`, `45 min`, `1:30`. */
export const pickTime = (line: string): Picked | undefined => {
  for (const pattern of TIMES) {
    const found = pick(line, pattern);
    if (found) return { ...found, text: found.text.replace(/\.$/, '') };
  }
  return undefined;
};

/** The one number that stands alone; none where there is none, or several. */
export const pickBareNumber = (line: string): Picked | undefined => {
  const found = [...line.matchAll(BARE)];
  const [only] = found;
  return only && found.length === 1
    ? { text: only[0], rest: without(line, only.index, only[0].length) }
    : undefined;
};

/** What stands between a word and a number of it: `line 7`, `no. 2`, `whole stage baste`. */
export const pickNamed = (line: string, named: string): Picked | undefined => {
  const found = new RegExp(`(?<![\\p{L}\\d-])(?:${named}) ?([\\p{L}\\d]+)(?![\\p{L}\\d-])`, 'u').exec(line);
  return found ? { text: found[1] ?? '', rest: without(line, found.index, found[0].length) } : undefined;
};

/** One of these texts where it stands by itself, the longest first. */
export const pickOneOf = (line: string, texts: readonly string[]): Picked | undefined => {
  for (const text of [...texts].sort((a, b) => b.length - a.length)) {
    const at = ` ${line} `.indexOf(` ${text} `);
    if (text !== '' && at >= 0) return { text, rest: without(line, at, text.length) };
  }
  return undefined;
};

/** A day that was worked, found in the line. */
export type PickedDay = {
  readonly reading: Reading<CalendarDate>;
  readonly text: string;
  readonly rest: string;
};

const weekdayOf = (text: string): number =>
  WEEKDAYS.findIndex((day) => text === day || text === day.slice(0, 3)) + 1;

/** @param weekday 1 for Monday to 7 */
const lastWeekday = (weekday: number, today: CalendarDate, todays: number): Reading<CalendarDate> => {
  const back = (todays - weekday + 7) % 7;
  if (back > 0) return understood(addDays(today, -back));
  const weekAgo = addDays(today, -7);
  return asked('Today, or a week ago?', [
    { words: 'today', typed: today },
    { words: 'a week ago', typed: weekAgo },
  ]);
};

const dayOf = (
  text: string,
  today: CalendarDate,
  todays: number,
  readers: LineReaders,
): Reading<CalendarDate> | undefined => {
  const plain = text.replace(/^on /, '');
  const last = /^last ([a-z]+)$/.exec(plain)?.[1];
  const weekday = weekdayOf(last ?? plain);
  if (weekday > 0) {
    const read = lastWeekday(weekday, today, todays);
    return last && read.kind === 'ask' ? understood(addDays(today, -7)) : read;
  }
  if (!/\d/.test(plain) && !['today', 'yesterday', 'tomorrow'].includes(plain)) return undefined;
  const read = readers.day(plain);
  if (read.kind === 'refuse' || read.kind === 'empty') return undefined;
  if (read.kind !== 'ok' || read.value <= today || plain === 'tomorrow' || /\d{4}/.test(plain)) return read;
  // Without a year it is the last such day.
  const earlier = readers.day(`${plain} ${Number(today.slice(0, 4)) - 1}`);
  return earlier.kind === 'ok' ? earlier : read;
};

/**
 * The day a line says: `yesterday`, `monday`, `last friday`, `2 march`, `2026-03-02`; looked for from the longest words to
 * the shortest, the end of the line first.
 *
 * @param todays weekday of today, 1 for Monday to 7
 */
export const pickDay = (
  line: string,
  today: CalendarDate,
  todays: number,
  readers: LineReaders,
): PickedDay | undefined => {
  const words = line.split(' ');
  for (let size = Math.min(3, words.length); size > 0; size -= 1) {
    for (let start = words.length - size; start >= 0; start -= 1) {
      const text = words.slice(start, start + size).join(' ');
      const reading = dayOf(text, today, todays, readers);
      if (reading) {
        const rest = [...words.slice(0, start), ...words.slice(start + size)].join(' ');
        return { reading, text, rest };
      }
    }
  }
  return undefined;
};

/** A refusal to read a day still to come. */
export const stillToCome = refused('This day is still to come. Time is written down once it was worked.');
