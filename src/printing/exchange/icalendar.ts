import { Temporal } from 'temporal-polyfill';
import {
  addDays,
  type CalendarDate,
  calendarDate,
  daysBetween,
  type Instant,
} from '../../domain/kernel/calendar-date.js';
import { Invalid } from '../../domain/kernel/errors.js';
import { onOneLine, permittedCharacters, piecesOfBytes } from './characters.js';

/** When: from one instant to a later one, or whole days without a zone, both ends included. */
export type CalendarTime =
  | { readonly start: Instant; readonly end: Instant }
  | { readonly on: CalendarDate; readonly until?: CalendarDate };

/** One thing in a calendar: a fitting, a day the workroom is shut. */
export type CalendarEvent = CalendarTime & {
  /** The same for ever, whatever changes; unlike every other in the world. */
  readonly uid: string;
  /** When this state of it was written. */
  readonly stamp: Instant;
  readonly summary: string;
  readonly description?: string;
  readonly location?: string;
  /** 0 at first, one more at each change of time, place or standing. */
  readonly sequence: number;
  readonly cancelled?: boolean;
};

export type CalendarHead = {
  /** What the calendar is called where it is read. */
  readonly name?: string;
  /** PUBLISH for a file to look at, CANCEL when all of its events are taken back. */
  readonly method?: 'PUBLISH' | 'CANCEL';
};

const LINE = 75;

const escaped = (text: string): string =>
  permittedCharacters(text)
    .replace(/\u007f/g, '')
    .replace(/[\\;,]/g, '\\$&')
    .replace(/\r\n|\r|\n/g, '\\n');

/** A later piece begins with the blank that says so; the blank counts. */
const folded = (line: string): string => piecesOfBytes(line, LINE, LINE - 1).join('\r\n ');

const utc = (instant: Instant): string => {
  try {
    return Temporal.Instant.from(instant)
      .toString({ smallestUnit: 'second', roundingMode: 'trunc' })
      .replace(/[-:]/g, '');
  } catch {
    throw new Invalid(`“${instant.slice(0, 40)}” is not a point in time.`);
  }
};

const day = (date: CalendarDate): string => calendarDate(date).replaceAll('-', '');

const timeLines = (event: CalendarEvent): string[] => {
  if ('on' in event) {
    const last = event.until ?? event.on;
    if (daysBetween(calendarDate(event.on), calendarDate(last)) < 0)
      throw new Invalid('An event ends on the day it begins, or later.');
    return [`DTSTART;VALUE=DATE:${day(event.on)}`, `DTEND;VALUE=DATE:${day(addDays(last, 1))}`];
  }
  const [start, end] = [utc(event.start), utc(event.end)];
  if (end <= start) throw new Invalid('An event ends after it begins.');
  return [`DTSTART:${start}`, `DTEND:${end}`];
};

const eventLines = (event: CalendarEvent): string[] => {
  const uid = onOneLine(event.uid);
  if (uid === '') throw new Invalid('An event in a calendar needs an identifier.');
  if (!Number.isSafeInteger(event.sequence) || event.sequence < 0 || event.sequence > 2_147_483_647)
    throw new Invalid('The sequence of an event is a whole number from nought.');
  return [
    'BEGIN:VEVENT',
    `UID:${escaped(uid)}`,
    `DTSTAMP:${utc(event.stamp)}`,
    ...timeLines(event),
    `SUMMARY:${escaped(onOneLine(event.summary))}`,
    ...(event.description ? [`DESCRIPTION:${escaped(event.description)}`] : []),
    ...(event.location ? [`LOCATION:${escaped(onOneLine(event.location))}`] : []),
    `SEQUENCE:${event.sequence}`,
    `STATUS:${event.cancelled ? 'CANCELLED' : 'CONFIRMED'}`,
    'END:VEVENT',
  ];
};

/**
 * Events as the text of an iCalendar file. Times are written in UTC, so that no zone has to be described in the file
 * and every reader shows them on its own clock; whole days carry no zone.
 *
 * @param events in the order they shall stand; none is an empty calendar
 * @returns UTF-8 text, lines ending CR LF, no line longer than 75 bytes
 * @throws Invalid when an event has no identifier, ends before it begins, or its sequence is no whole number
 * @see RFC 5545 (IETF, 2009) sections 3.1, 3.3.11, 3.6.1; test/printing/exchange/icalendar.test.ts
 */
export const icalendarOf = (events: readonly CalendarEvent[], head: CalendarHead = {}): string =>
  [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Bastings//Workroom calendar//EN',
    'CALSCALE:GREGORIAN',
    ...(head.method ? [`METHOD:${head.method}`] : []),
    ...(head.name ? [`X-WR-CALNAME:${escaped(onOneLine(head.name))}`] : []),
    ...events.flatMap(eventLines),
    'END:VCALENDAR',
  ]
    .map((line) => `${folded(line)}\r\n`)
    .join('');
