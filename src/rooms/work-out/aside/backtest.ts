import { z } from 'zod';
import { question } from '../question.js';
import type { LongQuestion } from './answers.js';
import { history } from './history.js';
import { overruns } from './hours.js';

const schema = z.strictObject({ history: history(), overruns: overruns() }, 'Send a JSON object.');

const garment = (garmentType: string, plannedMinutes: number, actualMinutes: number) => ({
  garmentType,
  operations: [{ kind: 'make up', plannedMinutes, actualMinutes }],
});

/** Answered by a thread where the history is long, so this only says what to work out. */
export const backtest = question({
  schema,
  summary: 'How often what was stated came true on a studio’s own past',
  examples: {
    'four garments': {
      history: [
        garment('trousers', 540, 600),
        garment('jacket', 1500, 1720),
        garment('trousers', 540, 560),
        garment('jacket', 1600, 1650),
      ],
    },
  },
  answer: (asked): LongQuestion => ({ about: 'backtest', ...asked }),
});
