import type { Commission } from '../../../domain/commissions/commission.js';
import type { Studio } from '../../../domain/house/studio.js';
import { Money } from '../../../domain/kernel/money.js';
import {
  type AgreedWork,
  agreedWork,
  type CountingQuote,
} from '../../../domain/papers/invoice/agreed-work.js';
import { standingAnswer } from '../../../domain/papers/quote/quote-answer.js';
import type { QuoteDraft } from '../../../domain/papers/quote/quote-paper.js';
import { garmentBook } from '../../../storage/books/garment-book.js';
import { type ListedQuote, quoteBook } from '../../../storage/books/papers/quote-book.js';
import { type Kept, quoteDraftOf } from '../../../storage/books/papers/quote-text.js';
import type { Reading } from '../../../storage/session.js';
import { taxOf } from '../../../web/papers/house-on-paper.js';

/** What is agreed for a commission, and by what right. */
export type Agreed = {
  readonly work: AgreedWork;
  /** Was a quote accepted, does one only lie with the client, or is there none? */
  readonly by: 'accepted' | 'offered' | 'nothing';
};

/** Of every number the last version that was accepted, oldest first; where nothing was, the last that is still open. */
const counting = (quotes: readonly ListedQuote[]): { quotes: ListedQuote[]; by: Agreed['by'] } => {
  const accepted = new Map<string, ListedQuote>();
  for (const quote of quotes)
    if (!accepted.has(quote.number) && standingAnswer(quote.answers)?.answer === 'accepted')
      accepted.set(quote.number, quote);
  if (accepted.size > 0) return { quotes: [...accepted.values()].reverse(), by: 'accepted' };
  const open = quotes.find((quote) => !quote.laterEdition && standingAnswer(quote.answers) === undefined);
  return { quotes: open ? [open] : [], by: open ? 'offered' : 'nothing' };
};

/** What is agreed for a commission: out of its accepted quotes, else the one that lies with the client, else its garments. */
export const agreedOf = async (reading: Reading, studio: Studio, commission: Commission): Promise<Agreed> => {
  const { quotes, by } = counting(await quoteBook.ofCommission(reading, commission.id));
  const whole: CountingQuote[] = [];
  for (const { id, answers } of quotes) {
    const { document } = await quoteBook.one(reading, id);
    const { draft } = JSON.parse(document) as { draft: Kept<QuoteDraft> };
    whole.push({ draft: quoteDraftOf(draft), taken: standingAnswer(answers)?.taken });
  }
  const work = agreedWork(whole);
  return work ? { work, by } : { work: await unquoted(reading, studio, commission), by: 'nothing' };
};

/** Counter work without a quote: the garments by name, at a price where one was set by hand. */
const unquoted = async (reading: Reading, studio: Studio, commission: Commission): Promise<AgreedWork> => {
  const { currency } = studio.identity;
  const { category, rate, reason } = taxOf(studio);
  const garments = await garmentBook.ofCommission(reading, commission.id);
  return {
    currency,
    // A price set by hand is kept before tax.
    pricesInclude: 'none',
    taxReasons: reason ? { [category]: reason } : {},
    pieces: garments.map(({ id, name, ownPrice }) => ({
      ref: id,
      garment: id,
      name,
      description: '',
      price: ownPrice ?? Money.zero(currency),
      category,
      ...(rate ? { rate } : {}),
      deposit: Money.zero(currency),
    })),
    discount: commission.discount,
    discountReason: '',
    quotes: [],
  };
};
