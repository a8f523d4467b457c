import { z } from 'zod';
import { list, name } from '../../../web/api/json-fields.js';
import { question } from '../question.js';
import type { LongQuestion } from './answers.js';
import { history, modelMinutes, repeat } from './history.js';

const CHANCE = 'Give a chance from 0.001 to 0.999, such as 0.8 for 4 in 5.';

/** The first-run question "do you usually run over?". */
export const overruns = () =>
  z.enum(['no', 'a-little', 'a-lot', 'unknown'], 'Say no, a-little, a-lot or unknown.').default('unknown');

const plannedOperation = z.strictObject({
  kind: name(),
  mode: name().optional(),
  modes: z.record(z.string().max(400), modelMinutes()).optional(),
  plannedMinutes: modelMinutes(),
  finishedMinutes: modelMinutes().optional(),
  soFarMinutes: modelMinutes().optional(),
  startingSpread: z.number('Give a spread from 0 to 5.').min(0).max(5).optional(),
  fromStartingValues: z.boolean('Say true or false.').optional(),
});

/** Each is looked at in the light of all the others, so many of them take long. */
const MOST_UNDER_WAY = 60;
const isUnderWay = (operation: z.output<typeof plannedOperation>): boolean =>
  (operation.soFarMinutes ?? 0) > 0 && operation.finishedMinutes === undefined;

const schema = z.strictObject(
  {
    history: history().default([]),
    garment: z.strictObject(
      {
        garmentType: name(),
        operations: list(plannedOperation, 1000).refine(
          (operations) => operations.filter(isUnderWay).length <= MOST_UNDER_WAY,
          `At most ${MOST_UNDER_WAY} operations can be under way at once.`,
        ),
        repeat: repeat(),
      },
      'Say which garment: { "garmentType", "operations" }.',
    ),
    certainty: list(z.number(CHANCE).min(0.001, CHANCE).max(0.999, CHANCE), 20).default([0.5, 0.8, 0.9]),
    overruns: overruns(),
  },
  'Send a JSON object.',
);

const past = (operations: [kind: string, planned: number, actual: number][]) => ({
  garmentType: 'jacket',
  operations: operations.map(([kind, plannedMinutes, actualMinutes]) => ({
    kind,
    plannedMinutes,
    actualMinutes,
  })),
});

/** Answered by a thread where the history is long, so this only says what to work out. */
export const hours = question({
  schema,
  summary: 'What a garment will take, from the garments made before',
  examples: {
    'a jacket after two others': {
      history: [
        past([
          ['pad stitch lapels', 90, 110],
          ['buttonholes', 285, 300],
        ]),
        past([
          ['pad stitch lapels', 90, 95],
          ['buttonholes', 200, 260],
        ]),
      ],
      garment: {
        garmentType: 'jacket',
        operations: [
          { kind: 'pad stitch lapels', mode: 'hand', plannedMinutes: 90, finishedMinutes: 100 },
          { kind: 'buttonholes', mode: 'hand', plannedMinutes: 285 },
          { kind: 'press off', mode: 'press', plannedMinutes: 60 },
        ],
      },
      certainty: [0.5, 0.8, 0.9],
      overruns: 'a-little',
    },
    'nothing to go on': {
      garment: {
        garmentType: 'waistcoat',
        operations: [{ kind: 'make the welts', mode: 'machine', plannedMinutes: 45 }],
      },
    },
  },
  answer: (asked): LongQuestion => ({ about: 'hours', ...asked }),
});
