import { PAPER_LANGUAGES, type PaperLanguage } from '../../domain/house/paper-choices.js';

const WORDS: Readonly<Record<PaperLanguage, string>> = { en: 'English', fr: 'French', de: 'German' };

export const paperLanguageInWords = (language: PaperLanguage): string => WORDS[language];

/** The languages of papers, to choose from. */
export const paperLanguageChoices = (): { value: string; text: string }[] =>
  PAPER_LANGUAGES.map((value) => ({ value, text: WORDS[value] }));
