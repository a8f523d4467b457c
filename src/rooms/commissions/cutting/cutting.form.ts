import { z } from 'zod';
import { CUT_QUESTIONS, type CutQuestion } from '../../../domain/commissions/cutting.js';
import type { Studio } from '../../../domain/house/studio.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { Invalid } from '../../../domain/kernel/errors.js';
import { date, optionalLine, optionalLines } from '../../../web/fields/fields.js';
import { typedAs } from '../../../web/fields/kits.js';
import { readDate } from '../../../web/words/dates.js';
import type { CuttingSaid } from './cut-garment.js';

const answered = z
  .enum(['yes', 'no', ''])
  .default('')
  .transform((said) => (said === '' ? undefined : said === 'yes'));

/** A day that has come, as people write it. */
export const dayGone = ({ identity }: Studio, today: CalendarDate) =>
  typedAs((typed) => readDate(typed, { today, locale: identity.locale }), 'Give the day.').transform(
    (day) => day ?? today,
  );

/** @throws Invalid when the day is still to come */
export const mustHaveCome = (on: CalendarDate, today: CalendarDate): void => {
  if (on > today) throw Invalid.field('on', 'This day is still to come.');
};

/** The one page that is asked when cutting is recorded. */
export const CuttingForm = (studio: Studio, today: CalendarDate) =>
  z
    .strictObject({
      on: dayGone(studio, today),
      words: optionalLines(2000),
      measurements: answered,
      measurementsWords: optionalLine(400),
      cloth: answered,
      clothWords: optionalLine(400),
      deposit: answered,
      depositWords: optionalLine(400),
      quote: answered,
      quoteWords: optionalLine(400),
    })
    .transform(
      ({ on, words, ...said }): CuttingSaid => ({
        on,
        words,
        answers: Object.fromEntries(
          CUT_QUESTIONS.map((question) => [
            question,
            { isSo: said[question], words: said[`${question}Words`] },
          ]),
        ) as CuttingSaid['answers'],
      }),
    );

const AnswerSent = z.strictObject({ isSo: z.boolean('Answer true or false.'), words: optionalLine(400) });

/** The same as a program sends it. */
export const CuttingSent = z
  .strictObject({
    on: date('Give the day.'),
    words: optionalLines(2000),
    measurements: AnswerSent,
    cloth: AnswerSent,
    deposit: AnswerSent,
    quote: AnswerSent,
  })
  .transform(
    ({ on, words, ...answers }): CuttingSaid => ({
      on,
      words,
      answers: answers satisfies Record<CutQuestion, { isSo: boolean; words: string }>,
    }),
  );
