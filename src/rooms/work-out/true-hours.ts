import { z } from 'zod';
import { trueHours as worked } from '../../domain/estimating/true-hours.js';
import type { Decimal } from '../../domain/kernel/decimal.js';
import { list, quantity } from '../../web/api/json-fields.js';
import { question } from './question.js';

const LONGEST = 1_000_000_000;
const isTime = (hours: Decimal): boolean => hours.gt(0) && hours.lte(LONGEST);
const WRONG = 'Hours are above 0 and at most 1,000,000,000.';

const schema = z
  .strictObject(
    {
      hours: list(quantity().refine(isTime, WRONG), 5000).meta({
        description: 'Hours of the garments of one type made so far.',
      }),
      ownGuess: quantity().refine(isTime, WRONG).optional().meta({
        description: 'The maker’s own guess for one, or the starting value.',
      }),
    },
    'Send a JSON object.',
  )
  .refine((asked) => asked.hours.length > 0 || asked.ownGuess !== undefined, {
    path: ['ownGuess'],
    error: 'Give at least one garment, or a guess of your own.',
  });

export const trueHours = question({
  schema,
  summary: 'How long garments of one type really take',
  examples: { 'four jackets': { hours: ['52.5', 61, 48, '70.5'], ownGuess: '50' } },
  answer: (asked) => {
    const { garments, typical, next } = worked({
      hours: asked.hours.map(Number),
      ...(asked.ownGuess ? { ownGuess: asked.ownGuess.toNumber() } : {}),
    });
    return { garments, typical, next };
  },
});
