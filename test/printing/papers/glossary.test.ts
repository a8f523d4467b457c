import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { PAPER_LANGUAGES } from '../../../src/domain/house/paper-choices.js';
import { QUANTITY_UNITS } from '../../../src/domain/kernel/quantity.js';
import { MAKES } from '../../../src/domain/making/mode.js';
import { AGREEMENTS } from '../../../src/domain/papers/quote/quote-words.js';
import { TAX_CATEGORIES } from '../../../src/domain/papers/tax/category.js';
import { accountWords } from '../../../src/printing/papers/account-words.js';
import { bracesOf, glossary, readGlossary } from '../../../src/printing/papers/words/glossary.js';
import {
  deductionWords,
  invoiceDraftWords,
  invoiceLabels,
} from '../../../src/printing/papers/words/invoice-words.js';
import { paperLocale, paperWords } from '../../../src/printing/papers/words/paper-words.js';
import { quoteLabels } from '../../../src/printing/papers/words/quote-labels.js';

const root = fileURLToPath(new URL('../../..', import.meta.url));

/** Every string in a tree of labels. */
const leaves = (tree: unknown): string[] =>
  typeof tree === 'string' ? [tree] : Object.values(tree as object).flatMap(leaves);

describe('the glossary of the papers', () => {
  it('has every word in every language, with the same braces', () => {
    const { words, faults } = glossary();
    expect(faults).toEqual([]);
    for (const [key, english] of words.en)
      for (const language of PAPER_LANGUAGES)
        expect([key, language, bracesOf(words[language].get(key) ?? '')]).toEqual([
          key,
          language,
          bracesOf(english),
        ]);
    const same = [...words.en].filter(([key, text]) => text === words.de.get(key)).map(([key]) => key);
    // Words that are alike in both: anything longer would be a row that nobody translated.
    expect(same.filter((key) => (words.en.get(key) ?? '').replace(/\{[a-z]+\}/g, '').length > 8)).toEqual([]);
  });

  it('holds every word the program asks for, and none that nobody asks for', () => {
    const asked = new Set<string>();
    const files = readdirSync(join(root, 'src'), { recursive: true, encoding: 'utf8' });
    for (const file of files.filter((name) => name.endsWith('.ts'))) {
      const text = readFileSync(join(root, 'src', file), 'utf8');
      const own = /say = \(key: string\): string => words\.say\(`(\w+)\.\$\{key\}`\)/.exec(text)?.[1];
      for (const [, whose = '', key = ''] of text.matchAll(
        /(words\.|\b)(?:say|count|dated)\(\s*'([a-z][\w.-]*)'/g,
      ))
        asked.add(own && whose === '' ? `${own}.${key}` : key);
      for (const [, key = ''] of text.matchAll(/'((?:quote|invoice|account|tax)\.[\w.-]+)'/g)) asked.add(key);
    }
    const keys = [...glossary().words.en.keys()];
    const grown = (key: string): string[] => [key, `${key}.one`, `${key}.other`, `${key}-dated`];
    const known = new Set([...asked].flatMap(grown));
    // Keys made up of a prefix and a value of the domain; the page's foot is no sentence but counters.
    const made = new Set([
      'page',
      'of',
      'number-not-yet',
      'numbers',
      'preview',
      ...Object.keys(TAX_CATEGORIES).map((code) => `tax.${code}`),
      ...Object.keys(QUANTITY_UNITS).map((unit) => `invoice.unit.${unit}`),
      ...['kind', 'meaning', 'total'].flatMap((of) =>
        Object.keys(AGREEMENTS).map((agreement) => `quote.${of}.${agreement}`),
      ),
      ...MAKES.map((make) => `quote.make.${make}`),
    ]);
    expect([...made].filter((key) => !keys.includes(key))).toEqual([]);
    expect(keys.filter((key) => !known.has(key) && !made.has(key))).toEqual([]);
  });

  it.each(PAPER_LANGUAGES)('fills every label in %s', (language) => {
    for (const labels of [quoteLabels(language), invoiceLabels(language), accountWords(language)])
      expect(leaves(JSON.parse(JSON.stringify(labels))).filter((text) => text.trim() === '')).toEqual([]);
  });

  it('speaks three languages', () => {
    expect(invoiceLabels('fr-BE').titles['credit-note']).toBe('Avoir');
    expect(invoiceLabels('de').titles['final-invoice']).toBe('Schlussrechnung');
    expect(quoteLabels('en-GB').for).toBe('Prepared for');
    expect(accountWords('fr').receipt.opening('Corvin Haddlestone', '90,00 €')).toBe(
      'Reçu de Corvin Haddlestone, avec nos remerciements\u00a0: 90,00 €.',
    );
    expect(invoiceDraftWords('de').deposit('Weste')).toBe('Anzahlung: Weste');
    expect(deductionWords('fr').less('I-2026-001', '2026-03-01')).toBe(
      'Moins facture I-2026-001 du 1er mars 2026',
    );
    expect(deductionWords('de').back('CN-2026-001', undefined)).toBe(
      'Rechnungskorrektur CN-2026-001, nicht mehr abgezogen',
    );
    // A language the papers do not speak is English.
    expect(quoteLabels('nl-BE').for).toBe('Prepared for');
  });

  it('writes days and counts as the language does', () => {
    const [en, fr, de] = [paperWords('en-US'), paperWords('fr-FR'), paperWords('de-AT')];
    expect(en.date('2026-03-02')).toBe('2 March 2026');
    expect(en.weekday('2026-03-02')).toBe('Monday 2 March 2026');
    expect(fr.date('2026-03-01')).toBe('1er mars 2026');
    expect(fr.weekday('2026-03-01')).toBe('dimanche 1er mars 2026');
    expect(fr.date('2026-03-11')).toBe('11 mars 2026');
    expect(de.date('2026-01-02')).toBe('2. Jänner 2026');
    expect(de.weekday('2026-03-02')).toBe('Montag, 2. März 2026');
    expect(en.count('quote.fitting', 1)).toBe('one fitting');
    expect(de.count('quote.fitting', 3)).toBe('3 Anproben');
    expect(fr.count('quote.garment', 3, fr.number(3))).toBe('Trois pièces');
    expect(de.number(13)).toBe('13');
  });

  it('takes the country where the country writes the language in its own manner', () => {
    const house = (locale: string, country = '') => ({ locale, country });
    expect(paperLocale('en', house('en-IE'))).toBe('en-IE');
    expect(paperLocale('fr', house('en-IE', 'IE'))).toBe('fr');
    expect(paperLocale('fr', house('de-CH', 'CH'))).toBe('fr-CH');
    expect(paperLocale('de', house('en-GB', 'at'))).toBe('de-AT');
    expect(paperLocale('de', house('en-GB', 'Ireland'))).toBe('de');
    expect(paperLocale('de', house('en', ''))).toBe('de');
  });

  it('refuses a word without its braces and a key that is not there', () => {
    const { say } = paperWords('fr');
    expect(() => say('quote.nothing')).toThrow('no row “quote.nothing”');
    expect(() => say('quote.accept', { title: 'le devis' })).toThrow('needs its {number}');
    // What a person wrote is never read again for braces.
    expect(say('quote.ready', { garment: '{number}' })).toContain('{number}');
  });
});

describe('a glossary that somebody corrected', () => {
  const file = (...rows: string[]): string => ['# remark', 'key\ten\tfr\tde\tnote', ...rows].join('\n');

  it('falls to English where a word is missing or its braces were lost, and says so', () => {
    const { words, faults } = readGlossary(
      file('a\tUntil {date}\t\tBis {datum}\t', 'b\tTo\tÀ\t"An"\tas a spreadsheet may save it'),
    );
    expect(words.fr.get('a')).toBe('Until {date}');
    expect(words.de.get('a')).toBe('Until {date}');
    expect(words.de.get('b')).toBe('An');
    expect(faults).toEqual(['a: no word in fr.', 'a: the braces in de are not those of the English.']);
  });

  it('keeps the blank before French signs from breaking', () => {
    const { words } = readGlossary(file('a\tTerms: {n} %\tConditions : {n} %\tBedingungen: {n} %\t'));
    expect(words.fr.get('a')).toBe('Conditions\u00a0: {n}\u00a0%');
    expect(words.de.get('a')).toBe('Bedingungen: {n}\u00a0%');
    expect(words.en.get('a')).toBe('Terms: {n} %');
  });

  it('is refused with a sentence when English is missing or a key stands twice', () => {
    expect(() => readGlossary(file('a\t\tÀ\tAn\t'))).toThrow('needs a key and an English word');
    expect(() => readGlossary(file('a\tTo\tÀ\tAn\t', 'a\tTo\tÀ\tAn\t'))).toThrow('two rows “a”');
    expect(() => readGlossary('# nothing\n')).toThrow('is empty');
  });
});
