/*
 * The words of the papers in the client's language. How to use them:
 *
 *   const words = paperWords(language);                  // BCP 47: 'fr', 'fr-BE', 'de-AT', 'en-GB'
 *   words.say('quote.valid-until')                       // a word of data/glossary/papers.tsv
 *   words.say('quote.accept', { title, number, version })// with what stands in its braces
 *   words.count('quote.fitting', 3)                      // quote.fitting.one / .other, by the language's own rule
 *   words.date('2026-03-02'), words.weekday('2026-03-02')
 *
 * The tag comes from `languageOnPaper(studio, client)` in web/papers/paper-languages.ts and is kept with the paper; amounts go
 * through amountInWords(money, language). Labels ready made: invoiceLabels, accountWords, quoteLabels beside this file.
 * A word that is missing in a language is printed in English; a key that is not in the file is a bug and throws.
 */
import { Temporal } from 'temporal-polyfill';
import { PAPER_LANGUAGES, type PaperLanguage } from '../../../domain/house/paper-choices.js';
import type { CalendarDate } from '../../../domain/kernel/calendar-date.js';
import { glossary } from './glossary.js';

export type PaperWords = {
  /** BCP 47, for `lang` and for figures. */
  readonly locale: string;
  readonly language: PaperLanguage;
  readonly say: (key: string, values?: Readonly<Record<string, string>>) => string;
  /**
   * A number of things, by `key.one` and `key.other`.
   *
   * @param word the number as it is written, where not in figures
   */
  readonly count: (key: string, count: number, word?: string) => string;
  /** `2 March 2026` */
  readonly date: (date: CalendarDate) => string;
  /** `Monday 2 March 2026` */
  readonly weekday: (date: CalendarDate) => string;
  /** Two to twelve as words, other numbers in figures. */
  readonly number: (count: number) => string;
};

const isSpoken = (language: string): language is PaperLanguage =>
  (PAPER_LANGUAGES as readonly string[]).includes(language);

/** The language of a tag, if the papers speak it; else English. */
export const spokenOf = (locale: string): PaperLanguage => {
  const language = locale.toLowerCase().split('-')[0] ?? '';
  return isSpoken(language) ? language : 'en';
};

const dayFormats = new Map<string, Intl.DateTimeFormat>();
const dayFormat = (locale: string, weekday: boolean): Intl.DateTimeFormat => {
  const key = `${locale} ${weekday}`;
  const kept = dayFormats.get(key);
  if (kept) return kept;
  const made = new Intl.DateTimeFormat(locale, {
    timeZone: 'UTC',
    day: 'numeric',
    month: 'long',
    year: 'numeric',
    ...(weekday ? { weekday: 'long' } : {}),
  });
  dayFormats.set(key, made);
  return made;
};

/** Days the English way whatever the country, since pages say them so too. */
const dayWritten = (
  language: PaperLanguage,
  locale: string,
  date: CalendarDate,
  weekday: boolean,
): string => {
  const day = Temporal.PlainDate.from(date).toZonedDateTime('UTC').epochMilliseconds;
  const written = dayFormat(language === 'en' ? 'en-GB' : locale, weekday).format(day);
  if (language === 'en') return written.replaceAll(',', '');
  return language === 'fr' ? written.replace(/(^|\s)1 (?=\p{L})/u, '$11er ') : written;
};

const made = (locale: string): PaperWords => {
  const language = spokenOf(locale);
  const words = glossary().words[language];
  const plural = new Intl.PluralRules(language);
  const say: PaperWords['say'] = (key, values = {}) => {
    const text = words.get(key);
    if (text === undefined) throw new Error(`The glossary of the papers has no row “${key}”.`);
    return text.replace(/\{([a-z]+)\}/g, (_, name: string) => {
      const value = values[name];
      if (value === undefined) throw new Error(`“${key}” needs its {${name}}.`);
      return value;
    });
  };
  const numbers = say('numbers').split(/\s+/);
  return {
    locale,
    language,
    say,
    count: (key, count, word = String(count)) =>
      plural.select(count) === 'one'
        ? say(`${key}.one`, { count: word })
        : say(`${key}.other`, { count: word }),
    date: (date) => dayWritten(language, locale, date, false),
    weekday: (date) => dayWritten(language, locale, date, true),
    number: (count) => numbers[count - 2] ?? String(count),
  };
};

const known = new Map<string, PaperWords>();

/** The papers' words for a language tag; read and made once. */
export const paperWords = (locale: string): PaperWords => {
  const words = known.get(locale) ?? made(locale);
  known.set(locale, words);
  return words;
};

/**
 * The tag a language is printed under: with the country of the house where that country writes the language in a manner of
 * its own (de-AT, fr-CH), else without one.
 *
 * @param house `locale` is how the house itself writes numbers; `country` counts where it is a code of two letters
 */
export const paperLocale = (
  language: PaperLanguage,
  house: { readonly locale: string; readonly country: string },
): string => {
  if (spokenOf(house.locale) === language && house.locale.toLowerCase().startsWith(language))
    return house.locale;
  const country = /^[A-Za-z]{2}$/.test(house.country.trim())
    ? house.country.trim().toUpperCase()
    : (new Intl.Locale(house.locale).region ?? '');
  return country ? new Intl.NumberFormat(`${language}-${country}`).resolvedOptions().locale : language;
};
