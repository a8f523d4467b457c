import { z } from 'zod';
import { yesNo } from '../../../web/fields/fields.js';
import type { Section } from './section.js';

/** The single-letter keys, on or off. */
export const keys: Section = {
  path: 'keys',
  title: 'Keys',
  summary: ({ keysOn }) => (keysOn ? 'Single-letter keys are on' : 'Single-letter keys are off'),
  values: ({ keysOn }, show) => ({ keysOn: show.yesNo(keysOn) }),
  schema: (_, studio) =>
    z.strictObject({ keysOn: yesNo() }).transform(({ keysOn }) => ({ ...studio, keysOn })),
  words: () => ({}),
};
