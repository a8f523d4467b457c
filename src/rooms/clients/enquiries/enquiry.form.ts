import { z } from 'zod';
import type { Enquiry } from '../../../domain/clients/enquiry.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { date, line, oneOf, optionalDate, optionalLine } from '../../../web/fields/fields.js';

/** What is asked of somebody who enquires: little, and only what it takes to answer. */
export const EnquiryFields = (today: CalendarDate) =>
  z.strictObject({
    name: line('Who asked?', 120),
    reachedAt: optionalLine(120),
    what: line('What is to be made?', 400),
    askedOn: date('When did they ask?')
      .refine((day) => day <= today, 'This day is still to come.')
      .default(today),
    wantedBy: optionalDate(),
    nextOn: optionalDate(),
    notes: optionalLine(400),
  });
export type EnquirySaid = z.output<ReturnType<typeof EnquiryFields>>;

/** Where an enquiry goes next. A commission is begun, not said. */
export const StateFields = z.strictObject({
  state: oneOf(['waiting', 'invited', 'declined', 'lapsed']),
  nextOn: optionalDate(),
});

/** What the commission begins with. */
export const BeginFields = z.strictObject({ type: line('Choose what is to be made.', 60) });

export const typedEnquiry = (kept: Enquiry): Record<string, string> => ({
  name: kept.name,
  reachedAt: kept.reachedAt,
  what: kept.what,
  askedOn: kept.askedOn,
  wantedBy: kept.wantedBy ?? '',
  nextOn: kept.nextOn ?? '',
  notes: kept.notes,
});
