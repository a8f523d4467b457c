import { z } from 'zod';
import type { Studio } from '../../../domain/house/studio.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { date, line, optionalLines } from '../../../web/fields/fields.js';
import { dayGone } from '../cutting/cutting.form.js';

const said = {
  remnants: optionalLines(2000),
  spares: optionalLines(2000),
  care: optionalLines(2000),
  receivedBy: line('Who received it?', 400),
  words: optionalLines(2000),
};
const noted = (field: string) => ({
  words: z
    .string(field)
    .transform((text) => text.trim())
    .pipe(z.string().min(1, field).max(4000, 'At most 4000 characters.')),
});

/** What goes with a garment, as people write it. */
export const HandOverForm = (studio: Studio, today: CalendarDate) =>
  z.strictObject({ ...said, on: dayGone(studio, today) });
/** The same as a program sends it. */
export const HandOverSent = z.strictObject({ ...said, on: date('Give the day.') });

const AFTERCARE = 'Write what was seen or done.';
export const AftercareForm = (studio: Studio, today: CalendarDate) =>
  z.strictObject({ ...noted(AFTERCARE), on: dayGone(studio, today) });
export const AftercareSent = z.strictObject({ ...noted(AFTERCARE), on: date('Give the day.') });
