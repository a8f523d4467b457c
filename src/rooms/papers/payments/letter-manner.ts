import { Temporal } from 'temporal-polyfill';
import type { Client } from '../../../domain/clients/client.js';
import { paperLanguageOf } from '../../../domain/house/paper-choices.js';
import type { Studio } from '../../../domain/house/studio.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import type { Money } from '../../../domain/kernel/money.js';
import { type AccountWords, accountWords } from '../../../printing/papers/account-words.js';
import { moneyInWords } from '../../../web/words/amounts.js';
import { dateInWords } from '../../../web/words/dates.js';

/** How letters about money are worded for one client. */
export type LetterManner = {
  /** BCP 47. */
  readonly language: string;
  readonly said: AccountWords;
  readonly money: (amount: Money) => string;
  readonly date: (date: CalendarDate) => string;
};

/** The language a client reads, with the house's own variant of it where the house speaks it too. */
export const letterManner = (studio: Studio, client: Client): LetterManner => {
  const language = paperLanguageOf(studio.papers, client.paperLanguage);
  const { locale } = studio.identity;
  const full = locale.toLowerCase().startsWith(language) ? locale : language;
  return {
    language: full,
    said: accountWords(language),
    money: (amount) => moneyInWords(amount, full),
    date: (date) =>
      language === 'en'
        ? dateInWords(date)
        : Temporal.PlainDate.from(date).toLocaleString(full, { dateStyle: 'long' }),
  };
};
