import type { Client } from '../../domain/clients/client.js';
import { PAPER_LANGUAGES, type PaperLanguage, paperLanguageOf } from '../../domain/house/paper-choices.js';
import type { Studio } from '../../domain/house/studio.js';
import { paperLocale } from '../../printing/papers/words/paper-words.js';

const WORDS: Readonly<Record<PaperLanguage, string>> = { en: 'English', fr: 'French', de: 'German' };

export const paperLanguageInWords = (language: PaperLanguage): string => WORDS[language];

/** The languages of papers, to choose from. */
export const paperLanguageChoices = (): { value: string; text: string }[] =>
  PAPER_LANGUAGES.map((value) => ({ value, text: WORDS[value] }));

/** The tag (BCP 47) in which a client's papers are written: their own language, else the house's. */
export const languageOnPaper = (client: Client, { papers, identity }: Studio): string =>
  paperLocale(paperLanguageOf(papers, client.paperLanguage), identity);
