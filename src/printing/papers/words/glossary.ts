import { readFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';
import { PAPER_LANGUAGES, type PaperLanguage } from '../../../domain/house/paper-choices.js';

/** The words of the papers by language and key, and what in the file could not be used. */
export type Glossary = {
  readonly words: Readonly<Record<PaperLanguage, ReadonlyMap<string, string>>>;
  /** One sentence a cell that is printed in English instead. */
  readonly faults: readonly string[];
};

type Row = Readonly<Record<string, string | undefined>>;

/** What stands in braces, sorted, each once. */
export const bracesOf = (text: string): string[] =>
  [...new Set([...text.matchAll(/\{([a-z]+)\}/g)].map(([, name = '']) => name))].sort();

/** Nobody types unbreakable blanks: French and German ask for one before these signs. */
const kept = (language: PaperLanguage, text: string): string =>
  language === 'en' ? text : text.replace(/ ([;:!?%»])/g, '\u00a0$1').replace(/« /g, '«\u00a0');

/**
 * Reads the file of the papers' words. English must be whole, since it stands in for what is missing elsewhere.
 *
 * @param text `data/glossary/papers.tsv`: columns key, en, fr, de, note, split by tabs; lines with # are remarks
 * @throws Error when the columns or an English word are missing: the program then has no words to print
 * @see test/printing/papers/glossary.test.ts
 */
export const readGlossary = (text: string): Glossary => {
  const rows = parse(text, {
    delimiter: '\t',
    columns: true,
    bom: true,
    comment: '#',
    comment_no_infix: true,
    skip_empty_lines: true,
    relax_column_count: true,
    trim: true,
  }) as Row[];
  const words = {
    en: new Map<string, string>(),
    fr: new Map<string, string>(),
    de: new Map<string, string>(),
  };
  const faults: string[] = [];
  for (const row of rows) {
    const key = row.key ?? '';
    const english = row.en ?? '';
    if (key === '' || english === '')
      throw new Error(
        `The glossary of the papers needs a key and an English word in every row: ${JSON.stringify(row)}`,
      );
    if (words.en.has(key)) throw new Error(`The glossary of the papers has two rows “${key}”.`);
    for (const language of PAPER_LANGUAGES) {
      const said = row[language] ?? '';
      const isWhole = said !== '' && bracesOf(said).join() === bracesOf(english).join();
      if (!isWhole)
        faults.push(
          said === ''
            ? `${key}: no word in ${language}.`
            : `${key}: the braces in ${language} are not those of the English.`,
        );
      words[language].set(key, kept(language, isWhole ? said : english));
    }
  }
  if (words.en.size === 0) throw new Error('The glossary of the papers is empty.');
  return { words, faults };
};

const FILE = new URL('../../../../data/glossary/papers.tsv', import.meta.url);
let read: Glossary | undefined;

/** The glossary as it lies in the data folder, read once. */
export const glossary = (): Glossary => {
  read ??= readGlossary(readFileSync(FILE, 'utf8'));
  return read;
};
