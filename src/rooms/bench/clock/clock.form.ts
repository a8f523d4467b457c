import { z } from 'zod';
import { instantAt } from '../../../domain/bench/wall-clock.js';
import { optionalDate, yesNo } from '../../../web/fields/fields.js';
import { optionalInstant, optionalKey, workFields } from '../work/bench-fields.js';
import type { LeftSaid, StartSaid, StopSaid } from './run-clock.js';

/** A tap that starts a clock. */
export const StartFields = z.strictObject({
  ...workFields,
  person: optionalKey(),
  at: optionalInstant(),
  /** What ran before is finished. */
  finished: yesNo(),
}) satisfies z.ZodType<StartSaid>;

/** A tap that stops one. */
export const StopFields = z.strictObject({
  person: optionalKey(),
  at: optionalInstant(),
  begun: optionalInstant(),
  finished: yesNo(),
}) satisfies z.ZodType<StopSaid>;

const TIME = /^([01]?\d|2[0-3])[:.h]([0-5]\d)$/;

/** When a clock stopped that was left running: an instant, or a day and a time on the wall; neither means it was right. */
export const LeftFields = (zone: string) =>
  z
    .strictObject({
      person: optionalKey(),
      entry: optionalKey(),
      begun: optionalInstant(),
      stopped: optionalInstant(),
      day: optionalDate(),
      time: z
        .string()
        .trim()
        .refine((text) => text === '' || TIME.test(text), 'Write the time like 17:30.')
        .default(''),
      /** Sent by the form that asks for a time: then one must stand there. */
      other: yesNo(),
    })
    .superRefine(({ other, time }, ctx) => {
      if (other && time === '')
        ctx.addIssue({
          code: 'custom',
          path: ['time'],
          message: 'When did it stop? Write the time like 17:30.',
        });
    })
    .transform(({ day, time, other: _, ...said }, ctx): LeftSaid => {
      if (time === '') return said;
      if (!day) {
        ctx.addIssue({ code: 'custom', path: ['day'], message: 'On which day did it stop?' });
        return z.NEVER;
      }
      const [, hours = '', minutes = ''] = TIME.exec(time) ?? [];
      return { ...said, stopped: instantAt(day, `${hours.padStart(2, '0')}:${minutes}`, zone) };
    });
