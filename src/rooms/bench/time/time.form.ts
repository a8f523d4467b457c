import { z } from 'zod';
import { minutesBetween } from '../../../domain/bench/running-clock.js';
import { instantAt } from '../../../domain/bench/wall-clock.js';
import type { Studio } from '../../../domain/house/studio.js';
import { addDays, type CalendarDate, isCalendarDate } from '../../../domain/kernel/calendar-date.js';
import { type FieldTrouble, Invalid } from '../../../domain/kernel/errors.js';
import type { Minutes } from '../../../domain/kernel/minutes.js';
import type { MakingPlan } from '../../../domain/making/making-plan.js';
import { date, line, optionalLine, whole, yesNo } from '../../../web/fields/fields.js';
import type { Typed } from '../../../web/forms/typed.js';
import { readDuration } from '../../../web/words/durations.js';
import { fieldAnswer } from '../../../web/words/reading.js';
import { optionalInstant, optionalKey, workFields } from '../work/bench-fields.js';
import type { TimeSaid } from './add-time.js';
import { durationField } from './read-line.js';

const timeFields = (today: CalendarDate) => ({
  ...workFields,
  minutes: whole(1, 1440, 'How many minutes?').optional(),
  on: date('On which day?').default(today),
  begunAt: optionalInstant(),
  endedAt: optionalInstant(),
  note: optionalLine(400),
  evenIfOdd: yesNo(),
});

/** Where both ends are said, the minutes may be left out. */
const withMinutes = <
  T extends { minutes?: Minutes | undefined; begunAt?: string | undefined; endedAt?: string | undefined },
>(
  said: T,
  ctx: z.RefinementCtx,
): T & { minutes: Minutes } => {
  const minutes =
    said.minutes ?? (said.begunAt && said.endedAt ? minutesBetween(said.begunAt, said.endedAt) : undefined);
  if (minutes !== undefined) return { ...said, minutes };
  ctx.addIssue({ code: 'custom', path: ['minutes'], message: 'How many minutes?' });
  return z.NEVER;
};

/** Time worked, as a program says it. */
export const TimeFields = (today: CalendarDate) =>
  z.strictObject({ ...timeFields(today), person: optionalKey() }).transform(withMinutes);

const REASON = 'Give the reason in a few words.';

/** Minutes taken back, and what stands instead. */
export const ReversalFields = (today: CalendarDate) =>
  z.strictObject({
    reason: line(REASON),
    instead: z.strictObject(timeFields(today)).transform(withMinutes).optional(),
  });

/** One sitting over several pieces of work, as a program says it. */
export const SplitFields = (today: CalendarDate) =>
  z.strictObject({
    person: optionalKey(),
    entry: optionalKey(),
    minutes: whole(1, 1440, 'How many minutes?').default(1),
    on: date('On which day?').default(today),
    evenIfOdd: yesNo(),
    parts: z
      .array(z.strictObject({ ...workFields, minutes: whole(1, 1440).optional() }))
      .min(2, 'Name at least two pieces of work.')
      .max(20, 'At most 20 parts.'),
  });

/** A line of time, as a program sends it. */
export const LineFields = z.strictObject({
  line: z.string('Write how long and what.').max(2000),
  garment: optionalKey(),
  person: optionalKey(),
  evenIfOdd: yesNo(),
});

export const ReasonFields = z.strictObject({ reason: line(REASON) });

/** A time as it is typed. @throws Invalid on that field */
export const typedMinutes = (
  typed: string,
  studio: Studio,
  field: string,
  missing?: string,
): Minutes | undefined => {
  const { value, trouble } = fieldAnswer(
    field,
    readDuration(typed, { ...durationField(studio), askAbove: 600_000 }),
    missing,
  );
  if (!trouble) return value;
  const instead = trouble.choices.map((choice) => `“${choice.typed}”`).join(' or ');
  throw Invalid.field(field, instead ? `${trouble.text} Write ${instead}.` : trouble.text);
};

/** A day as a date field sends it. @throws Invalid */
export const typedDay = (typed: string | undefined, field = 'on'): CalendarDate => {
  const text = (typed ?? '').trim();
  if (isCalendarDate(text)) return text;
  throw Invalid.field(field, 'Write the day as year-month-day, such as 2026-03-02.');
};

const WALL = /^([01]?\d|2[0-3])[:.h]([0-5]\d)$/;
/** Nobody sits longer over midnight: a stop before the start is a slip beyond it. */
const MOST_OVER_MIDNIGHT = 12 * 60;

const wallTime = (typed: string, field: string): string => {
  const [, hours = '', minutes = ''] = WALL.exec(typed.trim()) ?? [];
  if (!hours) throw Invalid.field(field, 'Write the time like 9:30.');
  return `${hours.padStart(2, '0')}:${minutes}`;
};

/** One line of a making sheet: from when to when, or how long. None where nothing stands beside the operation. */
const sheetLine = (
  typed: Typed,
  id: string,
  on: CalendarDate,
  studio: Studio,
): { said: Pick<TimeSaid, 'minutes' | 'on' | 'begunAt' | 'endedAt'>; field: string } | undefined => {
  const name = (part: string): string => `op.${id}.${part}`;
  const of = (part: string): string => (typed[name(part)] ?? '').trim();
  const { zone } = studio.identity;
  if (of('start') === '' && of('stop') === '') {
    const minutes = typedMinutes(of('minutes'), studio, name('minutes'));
    return minutes === undefined ? undefined : { said: { minutes, on }, field: name('minutes') };
  }
  if (of('stop') === '') throw Invalid.field(name('stop'), 'When was it stopped?');
  if (of('start') === '') throw Invalid.field(name('start'), 'When was it started?');
  const [start, stop] = [wallTime(of('start'), name('start')), wallTime(of('stop'), name('stop'))];
  const begunAt = instantAt(on, start, zone);
  const endedAt = instantAt(stop > start ? on : addDays(on, 1), stop, zone);
  const span = minutesBetween(begunAt, endedAt);
  if (stop <= start && span > MOST_OVER_MIDNIGHT)
    throw Invalid.field(name('stop'), 'It was stopped before it was started.');
  if (span < 1) throw Invalid.field(name('stop'), 'It was stopped before it was started.');
  const minutes = typedMinutes(of('minutes'), studio, name('minutes')) ?? span;
  return { said: { minutes, on, begunAt, endedAt }, field: name('start') };
};

/** A making sheet typed back in. @throws Invalid naming every field at fault */
export const readSheet = (typed: Typed, plan: MakingPlan, garment: string, studio: Studio) => {
  const on = typedDay(typed.on);
  const troubles: FieldTrouble[] = [];
  const lines = plan.flatMap(({ id }) => {
    try {
      const read = sheetLine(typed, id, on, studio);
      const odd = typed.evenIfOdd === 'yes';
      return read
        ? [{ field: read.field, said: { ...read.said, garment, operation: id, evenIfOdd: odd } }]
        : [];
    } catch (error) {
      if (!(error instanceof Invalid)) throw error;
      troubles.push(...error.fields);
      return [];
    }
  });
  if (troubles.length > 0) throw new Invalid('Some times need another look.', troubles);
  return lines;
};
