import { z } from 'zod';
import type { Studio } from '../../../domain/house/studio.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { date } from '../../../web/fields/fields.js';
import { dayGone } from '../cutting/cutting.form.js';

const words = (missing: string) =>
  z
    .string(missing)
    .transform((text) => text.trim())
    .pipe(z.string().min(1, missing).max(4000, 'At most 4000 characters.'));
const REASON = 'Say why it is cancelled.';
const NOTICE = 'Write the notice.';

export const CancelForm = (studio: Studio, today: CalendarDate) =>
  z.strictObject({ on: dayGone(studio, today), words: words(REASON) });
export const CancelSent = z.strictObject({ on: date('Give the day.'), words: words(REASON) });

export const NoticeForm = (studio: Studio, today: CalendarDate) =>
  z.strictObject({ on: dayGone(studio, today), words: words(NOTICE) });
export const NoticeSent = z.strictObject({ on: date('Give the day.'), words: words(NOTICE) });
