import { z } from 'zod';
import { OVERRUNS } from '../../../domain/house/studio.js';
import { oneOf } from '../../../web/fields/fields.js';
import { overrunChoices } from '../choices.js';
import type { Section } from './section.js';

const BARE = [
  { value: 'ask', text: 'ask each time' },
  { value: 'minutes', text: 'minutes' },
  { value: 'hours', text: 'hours' },
];

/** How hours are guessed and written in this house. */
export const hours: Section = {
  path: 'hours',
  title: 'Hours',
  summary: ({ overruns }) =>
    `Running over: ${overrunChoices().find(({ value }) => value === overruns)?.text}`,
  values: ({ overruns, bareTime }) => ({ overruns, bareTime }),
  schema: (_, studio) =>
    z
      .strictObject({ overruns: oneOf(OVERRUNS), bareTime: oneOf(['ask', 'minutes', 'hours']) })
      .transform((said) => ({ ...studio, ...said })),
  words: () => ({ overruns: overrunChoices(), bare: BARE }),
};
