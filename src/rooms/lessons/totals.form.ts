import { z } from 'zod';
import type { CalendarDate } from '../../domain/kernel/calendar-date.js';
import type { Decimal } from '../../domain/kernel/decimal.js';
import { Invalid } from '../../domain/kernel/errors.js';
import { MOST_HOURS, type PastGarment } from '../../domain/lessons/past-garment.js';
import type { PastGarmentWords } from '../../storage/books/past-garment-book.js';
import { line, optionalDate, optionalLine } from '../../web/fields/fields.js';
import { sentKit, typedAs } from '../../web/fields/kits.js';
import { readHours } from '../../web/fields/typed-hours.js';
import { closedUp } from '../../web/forms/closed-up.js';
import { parse, parseForm } from '../../web/forms/parse.js';
import type { Typed } from '../../web/forms/typed.js';
import { type DateField, readDate } from '../../web/words/dates.js';
import { type Reading, refused } from '../../web/words/reading.js';

export const MOST_AT_ONCE = 200;
const FIELDS = ['type', 'hours', 'planned', 'finished', 'note'];
const ABOVE_NOUGHT = 'A garment takes more than 0 hours.';

const readGarmentHours = (typed: string): Reading<Decimal> => readHours(typed, MOST_HOURS, ABOVE_NOUGHT);

const notAfter = (date: Reading<CalendarDate>, today: CalendarDate): Reading<CalendarDate> =>
  date.kind === 'ok' && date.value > today ? refused('This day is still to come.') : date;

const TotalForm = (dates: DateField) =>
  z
    .strictObject({
      type: line('Choose a garment type.', 60),
      hours: typedAs(readGarmentHours, 'Write the hours it took.') as unknown as z.ZodType<Decimal>,
      planned: typedAs(readGarmentHours),
      finished: typedAs((typed) => notAfter(readDate(typed, dates), dates.today)),
      note: optionalLine(200),
    })
    .transform(
      (said): PastGarmentWords => ({
        typeId: said.type,
        hours: said.hours,
        plannedHours: said.planned,
        finishedOn: said.finished,
        note: said.note,
      }),
    );

/** The grid's lines closed up. */
export const tidyTotals = (typed: Typed): Typed => closedUp(typed, 'totals', FIELDS).typed;

/** Reads the grid; lines left empty are no lines. @throws Invalid naming every line at fault */
export const readTotals = (typed: Typed, dates: DateField): PastGarmentWords[] => {
  const { rows } = closedUp(typed, 'totals', FIELDS);
  if (rows.length === 0) throw Invalid.field('totals.0.type', 'Write down at least one garment.');
  if (rows.length > MOST_AT_ONCE) throw new Invalid(`At most ${MOST_AT_ONCE} garments at once.`);
  return parse(z.object({ totals: z.array(TotalForm(dates)) }), { totals: rows }).totals;
};

/** Reads the form of one garment. @throws Invalid */
export const readTotal = (typed: Typed, dates: DateField): PastGarmentWords =>
  parseForm(TotalForm(dates), typed);

export const typedTotal = (past: PastGarment): Record<string, string> => ({
  type: past.typeId,
  hours: past.hours.toFixed(),
  planned: past.plannedHours?.toFixed() ?? '',
  finished: past.finishedOn ?? '',
  note: past.note,
});

/** Reads the maker's own guess; an empty field takes it back. */
export const readGuess = (typed: Typed): Decimal | undefined =>
  parseForm(z.strictObject({ hours: typedAs(readGarmentHours) }), typed).hours;

const hours = sentKit('EUR').number('Send the hours as a decimal such as "52.5".', { most: MOST_HOURS });
const aboveNought = hours.refine((value) => value.gt(0), ABOVE_NOUGHT);

/** A past garment as a program sends it. */
export const TotalSent = z
  .strictObject({
    type: line('Name the garment type.', 60),
    hours: aboveNought,
    plannedHours: aboveNought.optional(),
    finishedOn: optionalDate(),
    note: optionalLine(200),
  })
  .transform(
    ({ type, plannedHours, finishedOn, ...said }): PastGarmentWords => ({
      ...said,
      typeId: type,
      plannedHours,
      finishedOn,
    }),
  );
export const TotalsSent = z.strictObject({
  garments: z.array(TotalSent).min(1, 'Send at least one garment.').max(MOST_AT_ONCE),
});
export const GuessSent = z.strictObject({ ownGuess: aboveNought.nullable() });
