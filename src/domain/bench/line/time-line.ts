import { Temporal } from 'temporal-polyfill';
import type { CalendarDate } from '../../kernel/calendar-date.js';
import type { Minutes } from '../../kernel/minutes.js';
import {
  asked,
  confirmed,
  mapReading,
  nothingTyped,
  type Reading,
  refused,
  understood,
} from '../../measuring/reading.js';
import { foldTyped } from '../../measuring/typed-text.js';
import { LONGEST_SITTING } from '../bench-entry.js';
import { type LineReaders, pickBareNumber, pickDay, pickTime, stillToCome } from './pick-out.js';
import type { PlaceToWork } from './place-to-work.js';
import { escaped, type LineWork, readWork } from './read-work.js';

/** A line of time, understood. */
export type TimeLine = LineWork & { readonly minutes: Minutes; readonly on: CalendarDate };

const LONGEST_LINE = 200;
/**
 * Reads one line of time: `1h30 lapels yesterday`, `hand 45 min basting waistcoat`, `90 collar C-2026-014 2`,
 * `2,5 h pressing monday`. A day left out is today; what may mean two things is asked, never guessed.
 *
 * @param places garments that are being made, the likeliest first
 * @param today the studio's day
 * @param readers how the house reads a time (a bare number by the studio's choice) and a day
 * @returns whole minutes, the day and the keys of the work; `ask` with lines that can be typed instead; `refuse` or `empty`
 * @see test/domain/bench/time-line.test.ts
 */
export const readTimeLine = (
  typed: string,
  places: readonly PlaceToWork[],
  today: CalendarDate,
  readers: LineReaders,
): Reading<TimeLine> => {
  const folded = foldTyped(typed);
  if (folded === '') return nothingTyped;
  if ([...folded].length > LONGEST_LINE) return refused(`Keep a line under ${LONGEST_LINE} letters.`);
  const apart = apartFromNumbers(folded, places);
  const time = pickTime(apart.line);
  const day = pickDay(time?.rest ?? apart.line, today, Temporal.PlainDate.from(today).dayOfWeek, readers);
  const rest = day?.rest ?? time?.rest ?? apart.line;
  const bare = time ?? pickBareNumber(rest);
  if (!bare) return refused('How long was it? Write the time too, such as “1h30” or “45 min”.');
  const again = (part: string, by: string): string => apart.back(apart.line.replace(part, by));
  // A very long time is not asked about but refused below.
  const minutes = asIn(confirmed(readers.duration(bare.text), true), (by) => again(bare.text, by));
  if (minutes.kind !== 'ok') return minutes as Reading<TimeLine>;
  if (minutes.value < 1) return refused('Write at least one minute.');
  if (minutes.value > LONGEST_SITTING)
    return refused('One sitting is at most 24 hours: write the days one by one.');
  const on = day ? asIn(day.reading, (by) => again(day.text, by)) : understood(today);
  if (on.kind !== 'ok') return on as Reading<TimeLine>;
  if (on.value > today) return stillToCome;
  const work = readWork(apart.back(time ? rest : bare.rest), places, `${minutes.value} min`, on.value);
  return mapReading(work, (one) => ({ ...one, minutes: minutes.value, on: on.value }));
};

/** A question about a part of the line, with the whole line as its answer. */
const asIn = <T>(reading: Reading<T>, whole: (typed: string) => string): Reading<T> =>
  reading.kind === 'ask'
    ? asked(
        reading.sentence,
        reading.choices.map(({ words, typed }) => ({ words, typed: whole(typed) })),
      )
    : reading;

/** Numbers of commissions and what follows them look like days and times: they are set aside while those are read. */
const apartFromNumbers = (folded: string, places: readonly PlaceToWork[]) => {
  const numbers = [...new Set(places.map((at) => foldTyped(at.commissionNumber)))].sort(
    (a, b) => b.length - a.length,
  );
  const kept: string[] = [];
  const set = (found: string): string => `§${String.fromCharCode(97 + kept.push(found) - 1)}`;
  let line = folded;
  for (const number of numbers) {
    const pattern = new RegExp(
      `(?<= |^)${escaped(number)}(?: (?:(?:no\\.?|number) ?)?\\d{1,2}(?= |$)(?! ?(?:h|hours?|m|min|minutes?)(?: |$)))?(?= |$)`,
    );
    if (number !== '') line = line.replace(pattern, set);
  }
  line = line.replace(/(?<= |^)(?:line|no\.?|number) ?\d{1,3}(?= |$)/g, set);
  return {
    line,
    back: (text: string): string =>
      text.replace(/§([a-z])/g, (_, letter: string) => kept[letter.charCodeAt(0) - 97] ?? ''),
  };
};
