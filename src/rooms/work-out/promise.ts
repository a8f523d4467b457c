import { z } from 'zod';
import { promiseByMinutes, type Weekday } from '../../domain/promising/promise-by-minutes.js';
import { day, decimalMinutes, list } from '../../web/api/json-fields.js';
import { question } from './question.js';

const schema = z.strictObject(
  {
    from: day().meta({ description: 'The first day that may be worked.' }),
    backlogMinutes: decimalMinutes().meta({ description: 'Work that comes first.' }),
    weeklyMinutes: decimalMinutes(),
    garmentMinutes: z
      .record(z.string().regex(/^0\.\d{1,6}$/, 'Name a certainty such as 0.8.'), decimalMinutes())
      .refine((given) => Object.keys(given).length <= 20, 'At most 20 certainties in one question.')
      .meta({ description: 'The garment’s minutes at each certainty.' }),
    closedDays: list(day(), 5000).optional(),
    workingDays: list(z.int('Monday is 1, Sunday is 7.').min(1, 'Monday is 1.').max(7, 'Sunday is 7.'), 7)
      .optional()
      .meta({ description: 'Days of the week, Monday 1 to Sunday 7; Monday to Friday when left out.' }),
  },
  'Send a JSON object.',
);

export const promise = question({
  schema,
  summary: 'When a garment can be promised, by plain division',
  examples: {
    'a jacket after four weeks of other work': {
      from: '2026-03-02',
      backlogMinutes: 6000,
      weeklyMinutes: 1500,
      garmentMinutes: { '0.5': '2900.5', '0.8': 3400, '0.9': 3720 },
      closedDays: ['2026-03-17', '2026-04-03', '2026-04-06'],
    },
  },
  answer: (asked) =>
    promiseByMinutes({ ...asked, workingDays: asked.workingDays as readonly Weekday[] | undefined }),
});
