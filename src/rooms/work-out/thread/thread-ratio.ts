import { z } from 'zod';
import { GAUGED_STITCHES, ratioByGauge } from '../../../domain/stock/need/ratio-by-gauge.js';
import { quantity } from '../../../web/api/json-fields.js';
import { question, shareText } from '../question.js';

const schema = z.strictObject(
  {
    stitch: z
      .enum(GAUGED_STITCHES as [string, ...string[]], 'Give a stitch type of ISO 4915, such as "301".')
      .meta({ description: 'Stitch type of ISO 4915.' }),
    thicknessInches: quantity(),
    widthInches: quantity().default(() => quantity().parse('0')),
    stitchesPerInch: quantity(),
  },
  'Send a JSON object.',
);

export const threadRatio = question({
  schema,
  summary: 'Thread for one length of a machine seam, from its thickness, width and density',
  examples: {
    'chain stitch 401, eight to the inch': {
      stitch: '401',
      thicknessInches: '0.055',
      stitchesPerInch: 8,
    },
  },
  answer: ({ stitch, thicknessInches, widthInches, stitchesPerInch }) => ({
    ratio: shareText(ratioByGauge(stitch, thicknessInches, widthInches, stitchesPerInch)),
  }),
});
