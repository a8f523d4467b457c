import type { MovedUnit } from '../../../domain/papers/invoice/invoice-paper.js';
import { paperWords } from '../../../printing/papers/words/paper-words.js';
import { amountInWords } from '../../../web/words/amounts.js';

/** Where minor units went, one sentence each, in the language of a paper. */
export const movedInWords = (moved: readonly MovedUnit[], language: string): string[] => {
  const { say } = paperWords(language);
  return moved.map((each) => {
    if (each.kind === 'unreached') {
      const promised = `${each.promised.currency} ${amountInWords(each.promised, language)}`;
      return each.rounding.isZero()
        ? say('tax.unreached', { promised })
        : say('tax.unreached-rounded', { promised, rounding: amountInWords(each.rounding, language) });
    }
    const amount = each.drift.isNegative() ? each.drift.negated() : each.drift;
    return say(each.drift.isNegative() ? 'tax.drift-less' : 'tax.drift-more', {
      amount: amountInWords(amount, language),
    });
  });
};
