import { z } from 'zod';
import { PAPER_LANGUAGES } from '../../../domain/house/paper-choices.js';
import { glossary } from '../../../printing/papers/words/glossary.js';
import { oneOf, optionalLine, optionalLines } from '../../../web/fields/fields.js';
import { paperLanguageChoices, paperLanguageInWords } from '../../../web/papers/paper-languages.js';
import type { Section } from './section.js';

/** What every paper carries besides name and address, and the language it speaks. */
export const letterhead: Section = {
  path: 'letterhead',
  folder: 'papers',
  title: 'Lines and language of papers',
  summary: ({ papers }) =>
    [paperLanguageInWords(papers.language), papers.strapline, papers.headLines.split('\n')[0]]
      .filter(Boolean)
      .join('; '),
  values: ({ papers }) => ({
    strapline: papers.strapline,
    headLines: papers.headLines,
    smallPrint: papers.smallPrint,
    language: papers.language,
  }),
  schema: (_, studio) =>
    z
      .strictObject({
        strapline: optionalLine(120),
        headLines: optionalLines(600),
        smallPrint: optionalLines(2000),
        language: oneOf(PAPER_LANGUAGES),
      })
      .transform((said) => ({ ...studio, papers: { ...studio.papers, ...said } })),
  words: () => ({
    languages: paperLanguageChoices(),
    faults: glossary().faults,
  }),
};
