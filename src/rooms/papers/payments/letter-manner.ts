import type { Client } from '../../../domain/clients/client.js';
import type { Studio } from '../../../domain/house/studio.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import type { Money } from '../../../domain/kernel/money.js';
import { type AccountWords, accountWords } from '../../../printing/papers/account-words.js';
import { paperWords } from '../../../printing/papers/words/paper-words.js';
import { languageOnPaper } from '../../../web/papers/paper-languages.js';
import { moneyInWords } from '../../../web/words/amounts.js';

/** How letters about money are worded for one client. */
export type LetterManner = {
  /** BCP 47. */
  readonly language: string;
  readonly said: AccountWords;
  readonly money: (amount: Money) => string;
  readonly date: (date: CalendarDate) => string;
};

/** The client's own language, or the house's. */
export const letterManner = (studio: Studio, client: Client): LetterManner => {
  const language = languageOnPaper(client, studio);
  return {
    language,
    said: accountWords(language),
    money: (amount) => moneyInWords(amount, language),
    date: paperWords(language).date,
  };
};
