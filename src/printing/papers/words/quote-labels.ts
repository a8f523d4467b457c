import { paperWords } from './paper-words.js';

/** The fixed words of a quote. */
export type QuoteLabels = {
  readonly for: string;
  readonly reference: string;
  readonly number: string;
  readonly version: string;
  readonly date: string;
  readonly validUntil: string;
  readonly work: string;
  readonly wearer: string;
  readonly fittings: string;
  readonly excluded: string;
  readonly price: string;
  readonly taxOn: string;
  readonly deposit: string;
  readonly options: string;
  readonly hours: string;
  readonly hoursColumn: string;
  readonly dates: string;
  readonly cloth: string;
  readonly terms: string;
  readonly acceptance: string;
  readonly signature: string;
  readonly capitals: string;
};

/** The fixed words of a quote in a language. */
export const quoteLabels = (language: string): QuoteLabels => {
  const { say } = paperWords(language);
  return {
    for: say('quote.for'),
    reference: say('quote.reference'),
    number: say('quote.number'),
    version: say('quote.version-label'),
    date: say('quote.date'),
    validUntil: say('quote.valid-until'),
    work: say('quote.work'),
    wearer: say('quote.wearer'),
    fittings: say('quote.fittings'),
    excluded: say('quote.excluded'),
    price: say('quote.price'),
    taxOn: say('invoice.tax-on'),
    deposit: say('quote.deposit'),
    options: say('quote.options'),
    hours: say('quote.hours'),
    hoursColumn: say('quote.hours-column'),
    dates: say('quote.dates'),
    cloth: say('quote.cloth'),
    terms: say('quote.terms'),
    acceptance: say('quote.acceptance'),
    signature: say('quote.signature'),
    capitals: say('quote.capitals'),
  };
};
