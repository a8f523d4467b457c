import { Decimal } from '../../domain/kernel/decimal.js';
import { type Minutes, wholeMinutes } from '../../domain/kernel/minutes.js';
import { foldTyped, quoted } from '../../domain/measuring/typed-text.js';
import { readFractionText } from './numeral.js';
import { asked, nothingTyped, type Reading, refused, understood } from './reading.js';

/** What a duration field takes for granted. */
export type DurationField = {
  /** What a bare whole number means, once the person has answered; asked about while unknown. */
  readonly bare?: 'minutes' | 'hours';
  /** Asks above so many minutes; 24 hours when left out. */
  readonly askAbove?: Minutes;
};

const DAY: Minutes = 1440;
const MOST: Minutes = 600_000;
const CLOCK = /^(\d{1,4}):(\d{2})$/;
const HOURS =
  /^(\S+|\d+ \S+) ?h(?:r|rs|our|ours)?\.?(?: ?(?:and )?(\d{1,2}) ?(?:m|min|mins|minute|minutes|')?\.?)?$/;
const MINUTES = /^(\S+) ?(?:m|min|mins|minute|minutes)\.?$/;
const HELP = 'Write it like 1:30, 1h30, 90 min or 1.5.';

const amount = (text: string): Decimal | undefined =>
  /^\d{0,6}(?:[.,]\d{1,6})?$/.test(text) && text !== ''
    ? new Decimal(`0${text.replace(',', '.')}`)
    : readFractionText(text);

const within = (minutes: Decimal, typed: string, field: DurationField): Reading<Minutes> => {
  if (minutes.gt(MOST)) return refused(`${quoted(typed)} is longer than a garment takes. ${HELP}`);
  const whole = wholeMinutes(minutes);
  if (whole <= (field.askAbove ?? DAY)) return understood(whole);
  return asked(`${minutesInWords(whole)} is a long time in one go. Is that right?`, [], whole);
};

const askBare = (figures: string): Reading<Minutes> =>
  asked(`${figures}: minutes or hours?`, [
    { words: `${figures} minutes`, typed: `${figures} min` },
    { words: `${figures} hours`, typed: `${figures} h` },
  ]);

const sixtyOrMore = (minutes: string): Reading<Minutes> =>
  refused(`${minutes} minutes is an hour or more. Write the hours and up to 59 minutes.`);

/**
 * Reads a time worked: `1:30`, `1h30`, `1 h 30 m`, `90m`, `90 min`, `1.5`, `1,5`, `1 1/2` are 90 minutes.
 *
 * A bare whole number is asked about unless `field.bare` says what this person means by it; decimals and fractions without
 * a unit are hours.
 *
 * @returns whole minutes, rounded half away from zero
 * @see test/web/words/durations.test.ts
 */
export const readDuration = (typed: string, field: DurationField = {}): Reading<Minutes> => {
  const text = foldTyped(typed);
  if (text === '') return nothingTyped;
  if (text.length > 40) return refused(`This is too long for a time. ${HELP}`);
  if (text.startsWith('-')) return refused('Time worked cannot be less than nought.');
  const clock = CLOCK.exec(text);
  if (clock) {
    const [, hours = '', minutes = ''] = clock;
    return Number(minutes) > 59
      ? sixtyOrMore(minutes)
      : within(new Decimal(hours).times(60).plus(minutes), typed, field);
  }
  const asMinutes = MINUTES.exec(text)?.[1];
  const plainMinutes = asMinutes === undefined ? undefined : amount(asMinutes);
  if (plainMinutes) return within(plainMinutes, typed, field);
  const [, before = '', after] = HOURS.exec(text) ?? [];
  const hours = amount(before.trim());
  if (hours && after !== undefined && Number(after) > 59) return sixtyOrMore(after);
  if (hours) return within(hours.times(60).plus(after ?? 0), typed, field);
  if (/^\d{1,6}$/.test(text)) {
    if (field.bare === undefined) return text === '0' ? understood(0) : askBare(text);
    return within(new Decimal(text).times(field.bare === 'hours' ? 60 : 1), typed, field);
  }
  const bare = amount(text);
  return bare ? within(bare.times(60), typed, field) : refused(`${quoted(typed)} is not a time. ${HELP}`);
};

/** Minutes as people say them: `45 min`, `1 h 30`, `12 h`, `−2 h 05`. */
export const minutesInWords = (minutes: Minutes): string => {
  const size = Math.abs(minutes);
  const [hours, rest] = [Math.trunc(size / 60), size % 60];
  const sign = minutes < 0 ? '−' : '';
  if (hours === 0) return `${sign}${rest} min`;
  return rest === 0 ? `${sign}${hours} h` : `${sign}${hours} h ${String(rest).padStart(2, '0')}`;
};

/** Minutes as a field takes them back without a question: `1:30`. */
export const minutesForField = (minutes: Minutes): string =>
  `${Math.trunc(minutes / 60)}:${String(minutes % 60).padStart(2, '0')}`;
