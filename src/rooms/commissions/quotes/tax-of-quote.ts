import { Decimal } from '../../../domain/kernel/decimal.js';
import { TAX_CATEGORIES } from '../../../domain/papers/tax/category.js';
import type { QuoteTax } from '../../../printing/papers/quote-sheet.js';
import type { PaperWords } from '../../../printing/papers/words/paper-words.js';
import { reasonOnPaper } from '../../../web/papers/house-on-paper.js';
import { amountInWords, moneyInWords } from '../../../web/words/amounts.js';
import { capitalised } from '../../../web/words/counts.js';
import { decimalSignOf, numeralText } from '../../../web/words/numeral.js';
import type { QuoteInHand } from './quote-in-hand.js';

/** The tax on a quote, one line a category and rate, and a rounding where one was needed. */
export const taxesOfQuote = ({ paper }: Pick<QuoteInHand, 'paper'>, words: PaperWords): QuoteTax[] => {
  const { locale, say } = words;
  const rounding = paper.paper['BG-22']['BT-114'];
  return [
    ...paper.paper['BG-23'].map((group): QuoteTax => {
      const note = reasonOnPaper(group['BT-120'] ?? '', locale);
      if (!TAX_CATEGORIES[group['BT-118']].taxed)
        return { name: capitalised(say(`tax.${group['BT-118']}`)), on: '', amount: '', note };
      const rate = numeralText(group['BT-119'] ?? new Decimal(0), decimalSignOf(locale));
      return {
        name: say('tax.rate', { rate }),
        on: amountInWords(group['BT-116'], locale),
        amount: amountInWords(group['BT-117'], locale),
        note,
      };
    }),
    ...(rounding.isZero()
      ? []
      : [{ name: say('tax.rounding'), on: '', amount: amountInWords(rounding, locale), note: '' }]),
  ];
};

/** One sentence where a price with tax could not be reached; `unreachedInWords` of the domain, in the paper's language. */
export const unreachedOf = (
  { paper }: Pick<QuoteInHand, 'paper'>,
  { locale, say }: PaperWords,
): string | undefined => {
  const { unreached, 'BG-22': totals } = paper.paper;
  if (!unreached) return undefined;
  const promised = moneyInWords(totals['BT-112'].plus(unreached), locale);
  return totals['BT-114'].isZero()
    ? say('tax.unreached', { promised })
    : say('tax.unreached-rounded', { promised, rounding: moneyInWords(totals['BT-114'], locale) });
};
