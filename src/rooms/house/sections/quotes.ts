import { z } from 'zod';
import { QUOTE_KINDS } from '../../../domain/house/studio.js';
import { oneOf, optionalLines, whole } from '../../../web/fields/fields.js';
import type { Section } from './section.js';
import { seriesField } from './series-field.js';

const KIND_WORDS = { fixed: 'fixed price', estimate: 'estimate', time: 'time as it is taken' } as const;

/** What a new quote says, and how quotes and commissions are numbered. */
export const quotes: Section = {
  path: 'quotes',
  title: 'Quotes and numbers',
  summary: ({ quotes: said }) => `${said.series}; ${KIND_WORDS[said.kind]}; valid ${said.days} days`,
  values: ({ quotes: said, commissionSeries }, show) => ({
    series: said.series,
    commissionSeries,
    days: show.number(said.days),
    kind: said.kind,
    fittingsIncluded: show.number(said.fittingsIncluded),
    terms: said.terms,
    clothWording: said.clothWording,
    exclusions: said.exclusions,
  }),
  schema: (_, studio) =>
    z
      .strictObject({
        series: seriesField(),
        commissionSeries: seriesField('C-{year}-{000}'),
        days: whole(1, 730, 'Say for how many days a quote is valid.'),
        kind: oneOf(QUOTE_KINDS),
        fittingsIncluded: whole(0, 20, 'Say how many fittings are included.'),
        terms: optionalLines(4000),
        clothWording: optionalLines(2000),
        exclusions: optionalLines(2000),
      })
      .transform(({ commissionSeries, ...said }) => ({ ...studio, quotes: said, commissionSeries })),
  words: () => ({
    kinds: QUOTE_KINDS.map((value) => ({ value, text: KIND_WORDS[value] })),
  }),
};
