import type { z } from 'zod';
import { Trouble } from '../../../domain/kernel/errors.js';
import { numberSeries } from '../../../domain/papers/numbering/number-series.js';
import { line } from '../../../web/fields/fields.js';

/** Hands a domain rule's refusal on to the field it is about. */
export const heldTo =
  (rule: (typed: string) => unknown) =>
  (typed: string, ctx: z.RefinementCtx): void => {
    try {
      rule(typed);
    } catch (trouble) {
      if (!(trouble instanceof Trouble)) throw trouble;
      ctx.addIssue({ code: 'custom', message: trouble.message });
    }
  };

/** How numbers of a kind of paper are made. */
export const seriesField = (example = 'Q-{year}-{000}') =>
  line(`Say how numbers are made, such as ${example}.`, 40).superRefine(heldTo(numberSeries.parse));
