import { z } from 'zod';
import { handStitching as stitch } from '../../domain/making/hand-stitching.js';
import { decimalMinutes, quantity } from '../../web/api/json-fields.js';
import { minutesOut, question } from './question.js';

const schema = z.strictObject(
  {
    lengthMm: quantity().optional(),
    stitchesPerCm: quantity().optional(),
    stitchesPerMinute: quantity(),
    stitches: quantity().optional().meta({ description: 'Counted stitches win over length × density.' }),
    thread: z
      .strictObject({ perSeamLength: quantity(), lengthMm: quantity(), changeMinutes: decimalMinutes() })
      .optional(),
  },
  'Send a JSON object.',
);

export const handStitching = question({
  schema,
  summary: 'How long a seam takes by hand',
  examples: {
    'hand seams of 5.40 m': {
      lengthMm: 5400,
      stitchesPerCm: 5,
      stitchesPerMinute: 12,
      thread: { perSeamLength: 4, lengthMm: 450, changeMinutes: '0.75' },
    },
    'a shirt of counted stitches': { stitches: 20548, stitchesPerMinute: 23 },
  },
  answer: (asked) => {
    const { stitches, threadChanges, minutes } = stitch(asked);
    return { stitches: minutesOut(stitches), threadChanges, minutes: minutesOut(minutes) };
  },
});
